using PreApproval.Hazards.Vessels;

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

    /// <summary>
    /// What the address asks for and does not get, each in words with what is shown instead. An address is sent on: whoever opens it
    /// must not take the plan for what the sender tried.
    /// </summary>
    /// <param name="at">The step that is shown.</param>
    /// <param name="values">What was understood.</param>
    public IReadOnlyList<string> LeftOut(Exploration at, ExploredValues values)
    {
        ArgumentNullException.ThrowIfNull(at);
        ArgumentNullException.ThrowIfNull(values);
        List<string> left = [];
        if (Step is { } step && !string.Equals(at.Step.Key, step, StringComparison.Ordinal) && !string.Equals(at.Step.StepId, step, StringComparison.Ordinal)
            && !step.StartsWith(at.Step.StepId + "/", StringComparison.Ordinal))
        {
            left.Add($"step{Quoted(step)} (shown is step {at.Step.StepId})");
        }

        Note("set temperature", Temperature, values.TemperatureC is not null);
        Note("fill", Fill, values.Fill is not null);
        Note("amounts", Amounts, values.Amounts is not null);
        Note("vessel", Kind, values.Kind is not null);
        Note("inner volume", Volume, values.VolumeML is not null);
        Note("rated pressure", Rating, values.RatingBarGauge is not null);
        Note("material to exchange", Material, at.Liquids.Any(liquid => string.Equals(liquid.Id, Material, StringComparison.Ordinal)));
        Note("liquid instead", Solvent, values.Solvent is not null);
        return left;

        void Note(string name, string? typed, bool taken)
        {
            if (typed is not null && !taken)
            {
                left.Add(name + Quoted(typed));
            }
        }
    }

    /// <summary>Only what can be a word or a number of this page is repeated on it: whoever made the address up has no say in its text.</summary>
    private static string Quoted(string typed) => typed.Length <= 40 && typed.All(static c => char.IsLetterOrDigit(c) || c is ' ' or '.' or ',' or '+' or '-' or '−' or '/' or '%' or '°') ? $" “{typed}”" : "";

    private static double? Number(string? typed, string unit, double least, double most) => typed is null ? null : ExploredUnits.Read(typed, unit, least, most);
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
