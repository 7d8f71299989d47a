using System.Globalization;
using PreApproval.Hazards.Vessels;
using PreApproval.Web.Drafting.Editing;

namespace PreApproval.Web.Exploring;

/// <summary>What the address of the page says of the step and of what is tried, each as typed; null: not said. The browser keeps it in step with the fields, so that a page that is loaded again shows the same.</summary>
public sealed record ExplorerQuery
{
    public string? Step { get; init; }

    /// <summary>In °C.</summary>
    public string? Temperature { get; init; }

    /// <summary>In % of the vessel.</summary>
    public string? Fill { get; init; }

    /// <summary>In % of the planned amounts.</summary>
    public string? Amounts { get; init; }

    public string? Kind { get; init; }

    /// <summary>In mL.</summary>
    public string? Volume { get; init; }

    /// <summary>In bar above the atmosphere.</summary>
    public string? Rating { get; init; }

    /// <summary>Short name of the material that is exchanged.</summary>
    public string? Material { get; init; }

    /// <summary>Name or CAS number of what comes instead.</summary>
    public string? Solvent { get; init; }

    /// <summary><see cref="RevisionThresholds.Today"/>: a revision judged by the thresholds in use.</summary>
    public string? Thresholds { get; init; }

    /// <summary>The values that are asked for; what is no number or out of range is left as planned.</summary>
    public ExploredValues ValuesFor(IReadOnlyList<ExchangeableLiquid> liquids)
    {
        ArgumentNullException.ThrowIfNull(liquids);
        ExchangeableLiquid? liquid = liquids.FirstOrDefault(l => string.Equals(l.Id, Material, StringComparison.Ordinal)) ?? (liquids.Count > 0 ? liquids[0] : null);
        return new ExploredValues
        {
            TemperatureC = Number(Temperature, "°C", ExplorerRange.LeastC, ExplorerRange.MostC),
            Fill = Number(Fill, "%", 100 * ExplorerRange.LeastFill, 100 * ExplorerRange.MostFill) / 100,
            Amounts = Number(Amounts, "%", ExplorerRange.LeastAmounts, ExplorerRange.MostAmounts) / 100,
            Kind = VesselKinds.Typical.Select(static t => t.Kind).FirstOrDefault(k => string.Equals(k, Kind, StringComparison.Ordinal)),
            VolumeML = Number(Volume, "mL", ExplorerRange.LeastML, ExplorerRange.MostML),
            RatingBarGauge = Number(Rating, "bar(g)", 0, ExplorerRange.MostBar),
            Solvent = liquid is not null && Solvent is not null && ListedSolvents.Find(Solvent) is { } instead ? new SolventSwap(liquid.Material, instead) : null,
        };
    }

    private static double? Number(string? typed, string unit, double least, double most) =>
        typed is not null && double.TryParse(TypedNumber.Read(typed, [unit]).Number, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value >= least && value <= most ? value : null;
}

/// <summary>How far the fields go.</summary>
public static class ExplorerRange
{
    public const double LeastC = -80;

    /// <summary>The engine's models end there.</summary>
    public const double MostC = 400;

    public const double LeastFill = 0.01;
    public const double MostFill = 1;

    /// <summary>In % of the planned amounts.</summary>
    public const double LeastAmounts = 1;
    public const double MostAmounts = 10_000;
    public const double LeastML = 0.1;
    public const double MostML = 100_000;
    public const double MostBar = 1000;

    /// <summary>Distance of the points of a curve over temperature in K.</summary>
    public const double StepK = 2.5;
}
