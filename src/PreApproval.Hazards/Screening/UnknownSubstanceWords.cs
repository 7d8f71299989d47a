using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Screening;

/// <summary>What the finding on an unknown substance says of its structure: what was read from it and what was not done.</summary>
internal static class UnknownSubstanceWords
{
    private const double CelsiusZeroK = 273.15;

    /// <summary>Why nothing is known, after "is not in the catalogue".</summary>
    public static string Because(PlanSubstance substance) => substance.Structure switch
    {
        null => " and has no structure",
        { Error: { } error } => $" and its structure cannot be read (character {error.Position + 1}: {error.Message})",
        { Relation: { } relation } => $" ({relation.Words})",
        _ => "",
    };

    /// <summary>What stays open. A structure gives families, never fire values, a vapour pressure or a stability.</summary>
    public static string NotAssessed(PlanSubstance substance) =>
        substance.Structure?.Families.Count > 0 ? "its fire, vapour pressure and stability" : "its fire, vapour pressure and reactivity";

    /// <summary>What the structure tells, or nothing.</summary>
    public static string FromStructure(PlanSubstance substance)
    {
        if (substance.Structure is not { Molecule: not null, Groups: { } groups } structure)
        {
            return "";
        }

        var families = structure.Families.Count > 0
            ? $" Its structure puts it among {Wording.List(structure.Families)}, and it is checked as such against what shares its vessel."
            : " No family of the encounters fits its structure: what it does to other materials is not assessed.";
        var signs = groups.ReactiveSigns.ToArray();
        var energetic = groups.EnergeticGroups.ToArray();
        return families
            + (energetic.Length > 0 ? $" It can release energy by itself ({Wording.List(energetic)})." : signs.Length > 0 ? $" A sign that it may react by itself: {Wording.List(signs)}." : "");
    }

    /// <summary>Numbers from the structure: each an estimate that takes part in no other check.</summary>
    public static IReadOnlyList<Evidence> Evidence(PlanSubstance substance)
    {
        if (substance.Structure is not { Molecule: not null } structure)
        {
            return [];
        }

        var evidence = new List<Evidence>();
        if (structure.Joback is { } joback)
        {
            evidence.Add(new Evidence
            {
                Name = "estimated boiling point, for information",
                Worse = WorseWhen.Neither,
                Value = joback.BoilingPointK - CelsiusZeroK,
                Unit = "°C",
                Model = $"{JobackEstimate.Model}, ±{JobackEstimate.BoilingPointErrorK:0} K",
                Sources = References.Full([JobackEstimate.Source]),
                Quality = Quality.Estimated,
            });
        }

        if (structure.Groups!.EnergeticGroups.Any() && structure.OxygenBalancePercent is { } balance)
        {
            evidence.Add(new Evidence
            {
                Name = "oxygen balance",
                Value = balance,
                Unit = "%",
                Model = "combustion to CO2, H2O, N2 and SO2",
                Sources = References.Full([Energy.OxygenBalance.Source]),
                Quality = Quality.Estimated,
            });
        }

        return evidence;
    }
}
