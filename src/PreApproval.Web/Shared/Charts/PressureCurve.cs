using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Planning;
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
/// The pressure of a closed vessel over temperature, for the contents at its hottest closed step. Not drawn where the contents
/// are not all known or where the curve would not pass through the screening's own pressure: <see cref="Because"/> then says why.
/// </summary>
public sealed record PressureCurve
{
    private const double PascalPerBar = 1e5;
    private const double LargestDisagreement = 0.02;
    private const int Points = 25;
    private const double MostGasMol = 100;

    /// <summary>Headspace saturated with vapour when closed, or dry: what the screening took shows in its pressure.</summary>
    private static readonly bool[] Closings = [true, false];

    public required string Vessel { get; init; }

    public required string Step { get; init; }

    public required double SetTemperatureC { get; init; }

    /// <summary>By the screening; null: it has none.</summary>
    public double? SetPressureBarGauge { get; init; }

    /// <summary>Gas that reactions of the document form, in mol, as far as the screening's pressure shows it.</summary>
    public double GasFormedMol { get; init; }

    /// <summary>Liquids whose vapour pressure is not on file and which the curve leaves out: it is then a lower bound.</summary>
    public IReadOnlyList<string> LeftOut { get; init; } = [];

    /// <summary>Why it is not drawn; null: it is.</summary>
    public string? Because { get; init; }

    /// <summary>Null: not known.</summary>
    public double? RatingBarGauge { get; init; }

    /// <summary>What the rating rests on where it is not the stated one, in words; empty: it is stated.</summary>
    public string RatingBasis { get; init; } = "";

    public IReadOnlyList<CurvePoint> Curve { get; init; } = [];

    /// <summary>A curve for each vessel that is closed in some step, or why there is none.</summary>
    public static IReadOnlyList<PressureCurve> From(JsonObject document, ScreeningView screening)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(screening);
        Result<UnfinishedReading, DocumentRefusal> read = DocumentReader.ReadUnfinished(System.Text.Encoding.UTF8.GetBytes(document.ToJsonString()));
        if (!read.IsOk)
        {
            return [];
        }

        return [.. screening.Timeline
            .Where(t => t.Sealed)
            .GroupBy(t => t.Vessel, StringComparer.Ordinal)
            .Select(g => Of(read.Value.Document, screening, g.MaxBy(t => t.TemperatureC)!))];
    }

    private static PressureCurve Of(ProcedureDocument document, ScreeningView screening, TimelineView hottest)
    {
        VesselEntry? vessel = document.Vessels.FirstOrDefault(v => string.Equals(v.Id, hottest.Vessel, StringComparison.Ordinal));
        WallRating? wall = vessel is null ? null : WallRating.Of(vessel);
        var curve = new PressureCurve
        {
            Vessel = hottest.Vessel,
            Step = hottest.Step,
            SetTemperatureC = hottest.TemperatureC,
            SetPressureBarGauge = hottest.PressureBarAbs?.Expected is { } bar ? bar - (UnitTable.AtmospherePa / PascalPerBar) : null,
            RatingBarGauge = (wall?.PaGauge ?? vessel?.Rating?.PaGauge) / PascalPerBar,
            RatingBasis = wall is null ? "" : " " + wall.Basis,
        };
        List<ChargedSubstance> contents = [];
        foreach (ContentView content in hottest.Contents.Where(c => c.Mol > 0))
        {
            if (!Catalog.Default.TryFindByCas(content.Substance, out Substance? substance) && !Catalog.Default.TryFindByName(content.Substance, out substance)
                && (substance = Stated(document, content.Substance)) is null)
            {
                return curve with { Because = $"{content.Substance} is not in the catalogue" };
            }

            contents.Add(new ChargedSubstance(substance, content.Mol));
        }

        if (vessel?.Volume is null || contents.Count == 0)
        {
            return curve with { Because = contents.Count == 0 ? "nothing is known to be in it" : "its volume is not known" };
        }

        string[] unknown = [.. contents.Select(c => c.Substance).Where(s => s.VapourPressure.Count == 0 && s.PhaseAt298K == Phase.Liquid).Select(s => s.Identity.Name)];
        curve = curve with { LeftOut = unknown };
        if (hottest.PressureBarAbs?.Expected is not { } expected)
        {
            return curve with { Because = unknown.Length > 0 ? $"no vapour pressure on file for {string.Join(", ", unknown)}" : "no model gives the pressure of these contents" };
        }

        TimelineView closing = screening.Timeline.First(t => t.Sealed && string.Equals(t.Vessel, hottest.Vessel, StringComparison.Ordinal));
        ClosedVesselInput[] inputs = [.. Closings.Select(saturated => new ClosedVesselInput
        {
            VesselVolumeM3 = vessel.Volume.Si,
            FillTemperatureK = closing.TemperatureC + UnitTable.CelsiusZeroK,
            SaturatedAtClosing = saturated,
            Contents = contents,
        })];
        ClosedVesselInput? input = Array.Find(inputs, i => Agrees(i, hottest.TemperatureC, expected))
            ?? (FormsGas(document) ? WithGasFormed(inputs[^1], hottest.TemperatureC, expected) : null);
        return input is null
            ? curve with { Because = "the screening counts more than contents and air, such as gas put in under pressure or property values of your own" }
            : curve with { GasFormedMol = input.GasEvolvedMol, Curve = Compute(input, Math.Min(20, closing.TemperatureC), hottest.TemperatureC + 40) };
    }

    /// <summary>A substance whose values the document states itself, by the key of the report.</summary>
    private static Substance? Stated(ProcedureDocument document, string key) =>
        document.Materials.SelectMany(static m => (m.Mixture ?? []).Select(static part => part.Substance).Append(m.Substance).Append(m.Solution?.Solvent))
            .OfType<SubstanceReference>()
            .Where(static reference => reference.Properties is not null)
            .Select(static reference => SubstanceResolution.Resolve(reference, Catalog.Default))
            .FirstOrDefault(found => string.Equals(found.Key, key, StringComparison.Ordinal))?.Known;

    private static bool FormsGas(ProcedureDocument document) =>
        (document.Reactions ?? []).Any(r => (r.Produces ?? []).Any(p => p.State == Phase.Gas));

    /// <summary>Over a dry headspace, the cautious reading, with as much gas as makes up the screening's pressure: the report does not state the amount. Null where none does.</summary>
    private static ClosedVesselInput? WithGasFormed(ClosedVesselInput input, double temperatureC, double expectedBarAbs)
    {
        double low = 0;
        double high = MostGasMol;
        while (high - low > 1e-4 * high)
        {
            double middle = 0.5 * (low + high);
            bool below = ClosedVessel.At(input with { GasEvolvedMol = middle }, temperatureC + UnitTable.CelsiusZeroK).Governing.PressurePaAbs is { } pressure
                && pressure / PascalPerBar < expectedBarAbs;
            (low, high) = below ? (middle, high) : (low, middle);
        }

        ClosedVesselInput found = input with { GasEvolvedMol = high };
        return Agrees(found, temperatureC, expectedBarAbs) ? found : null;
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
