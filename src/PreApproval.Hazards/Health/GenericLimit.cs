namespace PreApproval.Hazards.Health;

/// <summary>A generic concentration limit of Regulation (EC) No 1272/2008, Annex I (Tables 3.4.5 to 3.9.4 and 3.10.3.3); from memory.</summary>
/// <param name="HazardClass">Class of the ingredient.</param>
/// <param name="Categories">Its categories that count.</param>
/// <param name="Category">Category of the mixture.</param>
/// <param name="FromPercent">Share in % of the mass from which it counts.</param>
internal sealed record GenericLimit(string HazardClass, IReadOnlyList<string> Categories, string Category, double FromPercent)
{
    private const string SingleExposure = "specific target organ toxicity, single exposure";
    private const string RepeatedExposure = "specific target organ toxicity, repeated exposure";

    /// <summary>The same for a gas; differs only for what sensitises the airways and harms organs.</summary>
    public double FromPercentGas { get; init; } = FromPercent;

    /// <summary>Share in % from which a stronger class counts instead.</summary>
    public double BelowPercent { get; init; } = double.PositiveInfinity;

    /// <summary>True: the shares of all such ingredients add up.</summary>
    public bool Summed { get; init; }

    /// <summary>Code of the mixture; null: that of the ingredient.</summary>
    public string? Code { get; init; }

    /// <summary>Codes found before that make this one needless.</summary>
    public IReadOnlyList<string> Supersedes { get; init; } = [];

    /// <summary>Every limit, the stronger before the weaker.</summary>
    public static IReadOnlyList<GenericLimit> All { get; } =
    [
        new("respiratory sensitisation", ["1"], "1", 1) { FromPercentGas = 0.2 },
        new("skin sensitisation", ["1A"], "1", 0.1),
        new("skin sensitisation", ["1", "1B"], "1", 1) { Supersedes = ["H317"] },
        new("germ cell mutagenicity", ["1A", "1B"], "1", 0.1),
        new("germ cell mutagenicity", ["2"], "2", 1) { Supersedes = ["H340"] },
        new("carcinogenicity", ["1A", "1B"], "1", 0.1),
        new("carcinogenicity", ["2"], "2", 1) { Supersedes = ["H350", "H350i"] },
        new("reproductive toxicity", ["1A", "1B"], "1", 0.3),
        new("reproductive toxicity", ["2"], "2", 3) { Supersedes = ["H360", "H360F", "H360D", "H360FD", "H360Fd", "H360Df"] },
        new("reproductive toxicity, effects on or via lactation", [""], "", 0.3),
        new(SingleExposure, ["1"], "1", 10) { Code = "H370" },
        new(SingleExposure, ["1"], "2", 1) { Code = "H371", BelowPercent = 10, FromPercentGas = 0.2 },
        new(SingleExposure, ["2"], "2", 10) { Code = "H371", Supersedes = ["H370", "H371"] },
        new(SingleExposure, ["3, respiratory irritation"], "3", 20) { Code = "H335", Summed = true },
        new(SingleExposure, ["3, narcotic effects"], "3", 20) { Code = "H336", Summed = true },
        new(RepeatedExposure, ["1"], "1", 10) { Code = "H372" },
        new(RepeatedExposure, ["1"], "2", 1) { Code = "H373", BelowPercent = 10, FromPercentGas = 0.2 },
        new(RepeatedExposure, ["2"], "2", 10) { Code = "H373", Supersedes = ["H372", "H373"] },
        new("aspiration hazard", ["1"], "1", 10) { Code = "H304", Summed = true },
    ];
}
