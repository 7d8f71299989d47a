using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Health;

/// <summary>
/// A concentration immediately dangerous to life or health (IDLH) after NIOSH: a person without breathing protection must be able
/// to escape within thirty minutes. Some are set at a tenth of the lower flammable limit instead; the note then says so.
/// </summary>
public sealed record ImmediateDanger
{
    /// <summary>Volume fraction in ppm (10⁻⁶); null for particulates and where the molar mass is not known.</summary>
    public double? Ppm { get; init; }

    /// <summary>Mass concentration in mg/m³.</summary>
    public double? MilligramPerM3 { get; init; }

    /// <summary>True: <see cref="Ppm"/> was not published but converted at 25 °C.</summary>
    public bool IsPpmConverted { get; init; }

    /// <summary>True: <see cref="MilligramPerM3"/> was not published but converted at 25 °C.</summary>
    public bool IsMassConverted { get; init; }

    /// <summary>Year of the documentation.</summary>
    public required int Year { get; init; }

    public required Quality Quality { get; init; }

    /// <summary>Key in <c>sources.bib</c>.</summary>
    public required string Source { get; init; }

    public string? Note { get; init; }
}

/// <summary>Groups of the IARC Monographs: strength of the evidence that an agent causes cancer in humans, not how potent it is.</summary>
public enum CarcinogenGroup
{
    /// <summary>Group 1: carcinogenic to humans.</summary>
    Carcinogenic,

    /// <summary>Group 2A: probably carcinogenic to humans.</summary>
    Probably,

    /// <summary>Group 2B: possibly carcinogenic to humans.</summary>
    Possibly,

    /// <summary>Group 3: not classifiable as to its carcinogenicity to humans. Not a finding of no hazard.</summary>
    NotClassifiable,
}

/// <summary>The evaluation of a substance in the IARC Monographs.</summary>
/// <param name="Group">The group.</param>
/// <param name="Year">Year of the evaluation.</param>
/// <param name="Quality">How the entry came about.</param>
/// <param name="Source">Key in <c>sources.bib</c>.</param>
/// <param name="Note">What the evaluation is restricted to, or null.</param>
public sealed record CarcinogenNote(CarcinogenGroup Group, int Year, Quality Quality, string Source, string? Note)
{
    /// <summary>The group as the Monographs write it: 1, 2A, 2B or 3.</summary>
    public string GroupName => Group switch
    {
        CarcinogenGroup.Carcinogenic => "1",
        CarcinogenGroup.Probably => "2A",
        CarcinogenGroup.Possibly => "2B",
        CarcinogenGroup.NotClassifiable => "3",
    };
}
