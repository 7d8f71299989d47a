using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Shared.Charts;

/// <summary>One temperature of a closed vessel. Pressures in bar above the atmosphere.</summary>
/// <param name="TemperatureC">In °C.</param>
/// <param name="GoverningBarGauge">By the model that governs.</param>
/// <param name="BoundBarGauge">By the immiscible bound; null where it cannot be had.</param>
public sealed record CurvePoint(double TemperatureC, double GoverningBarGauge, double? BoundBarGauge);

/// <summary>
/// The pressure of a closed vessel over temperature, for the contents at its hottest closed step. Left out where the
/// contents are not all known or where the curve would not pass through the screening's own pressure.
/// </summary>
public sealed record PressureCurve
{
    private const double PascalPerBar = 1e5;
    private const double LargestDisagreement = 0.02;
    private const int Points = 25;

    /// <summary>Headspace saturated with vapour when closed, or dry: what the screening took shows in its pressure.</summary>
    private static readonly bool[] Closings = [true, false];

    public required string Vessel { get; init; }

    public required string Step { get; init; }

    public required double SetTemperatureC { get; init; }

    public required double SetPressureBarGauge { get; init; }

    /// <summary>Null: not known.</summary>
    public double? RatingBarGauge { get; init; }

    public required IReadOnlyList<CurvePoint> Curve { get; init; }

    /// <summary>A curve for each vessel that is hot while closed, as far as data allow.</summary>
    public static IReadOnlyList<PressureCurve> From(JsonObject document, ScreeningView screening)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(screening);
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(System.Text.Encoding.UTF8.GetBytes(document.ToJsonString()));
        if (!read.IsOk)
        {
            return [];
        }

        return [.. screening.Timeline
            .Where(t => t.Sealed && t.PressureBarAbs?.Expected is not null)
            .GroupBy(t => t.Vessel, StringComparer.Ordinal)
            .Select(g => Of(read.Value, screening, g.MaxBy(t => t.TemperatureC)!))
            .OfType<PressureCurve>()];
    }

    private static PressureCurve? Of(ProcedureDocument document, ScreeningView screening, TimelineView hottest)
    {
        VesselEntry? vessel = document.Vessels.FirstOrDefault(v => string.Equals(v.Id, hottest.Vessel, StringComparison.Ordinal));
        List<ChargedSubstance> contents = [];
        foreach (ContentView content in hottest.Contents.Where(c => c.Mol > 0))
        {
            if (!Catalog.Default.TryFindByCas(content.Substance, out Substance? substance) && !Catalog.Default.TryFindByName(content.Substance, out substance))
            {
                return null;
            }

            contents.Add(new ChargedSubstance(substance, content.Mol));
        }

        if (vessel?.Volume is null || contents.Count == 0 || hottest.PressureBarAbs?.Expected is not { } expected)
        {
            return null;
        }

        TimelineView closing = screening.Timeline.First(t => t.Sealed && string.Equals(t.Vessel, hottest.Vessel, StringComparison.Ordinal));
        ClosedVesselInput? input = Closings
            .Select(saturated => new ClosedVesselInput
            {
                VesselVolumeM3 = vessel.Volume.Si,
                FillTemperatureK = closing.TemperatureC + UnitTable.CelsiusZeroK,
                SaturatedAtClosing = saturated,
                Contents = contents,
            })
            .FirstOrDefault(i => Agrees(i, hottest.TemperatureC, expected));
        return input is null ? null : new PressureCurve
        {
            Vessel = hottest.Vessel,
            Step = hottest.Step,
            SetTemperatureC = hottest.TemperatureC,
            SetPressureBarGauge = expected - (UnitTable.AtmospherePa / PascalPerBar),
            RatingBarGauge = vessel.Rating is { } rating ? rating.PaGauge / PascalPerBar : null,
            Curve = Compute(input, Math.Min(20, closing.TemperatureC), hottest.TemperatureC + 40),
        };
    }

    private static bool Agrees(ClosedVesselInput input, double temperatureC, double expectedBarAbs) =>
        ClosedVessel.At(input, temperatureC + UnitTable.CelsiusZeroK).Governing.PressurePaAbs is { } pressure
        && Math.Abs((pressure / PascalPerBar) - expectedBarAbs) <= LargestDisagreement * expectedBarAbs;

    private static List<CurvePoint> Compute(ClosedVesselInput input, double fromC, double toC)
    {
        List<CurvePoint> points = [];
        for (int i = 0; i < Points; i++)
        {
            double temperatureC = fromC + ((toC - fromC) * i / (Points - 1));
            VesselState state = ClosedVessel.At(input, temperatureC + UnitTable.CelsiusZeroK);
            if (state.Governing.PressurePaAbs is not { } governing)
            {
                break;
            }

            double? bound = state.Models.FirstOrDefault(m => m.Model == VesselModel.ImmiscibleBound)?.PressurePaAbs;
            points.Add(new CurvePoint(temperatureC, Gauge(governing), bound is { } b ? Gauge(b) : null));
        }

        return points;
    }

    private static double Gauge(double pascalAbs) => (pascalAbs - UnitTable.AtmospherePa) / PascalPerBar;
}
