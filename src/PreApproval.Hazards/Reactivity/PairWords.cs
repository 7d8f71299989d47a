using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Pairs and rows in words.</summary>
public static class PairWords
{
    /// <summary>Why: the reasons of the rows, the basis for knowing of none, or what is missing.</summary>
    public static string Reason(PairAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.Assessment switch
        {
            Assessment.Hazard => string.Join("; ", answer.Encounters.Select(static row => row.Reason).Distinct(StringComparer.Ordinal)),
            Assessment.NoneKnown => Basis(answer),
            Assessment.NotAssessed => NotAssessed(answer),
        };
    }

    /// <summary>Why none is known; empty where something is, or nothing was assessed.</summary>
    public static string Basis(PairAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return string.Join("; ", answer.Bases.Select(static basis => basis.Basis));
    }

    /// <summary>Under which conditions the rows hold, with the severity of each where they differ; empty where they hold under any.</summary>
    public static string Conditions(PairAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        (Severity Severity, string Words)[] rows = [.. answer.Encounters.Select(static row => (row.Severity, Conditions(row))).Distinct()];
        if (rows.Length == 0)
        {
            return "";
        }

        return Array.TrueForAll(rows, row => string.Equals(row.Words, rows[0].Words, StringComparison.Ordinal))
            ? rows[0].Words
            : string.Join("; ", rows.Select(static row => $"{Word(row.Severity)}: {(row.Words.Length > 0 ? row.Words : "always")}"));
    }

    /// <summary>Under which conditions a row holds; empty: under any.</summary>
    public static string Conditions(Encounter row)
    {
        ArgumentNullException.ThrowIfNull(row);
        string[] words = [Range(row), Third(row), Strength(row.A), Strength(row.B)];
        return string.Join(", ", words.Where(static word => word.Length > 0));
    }

    /// <summary>What happens, and the gas, in two sentences or three.</summary>
    public static string Sentence(Encounter row)
    {
        ArgumentNullException.ThrowIfNull(row);
        var gas = row.Gases.Count == 0
            ? ""
            : $" Gas for each equivalent of {(row.FirstLimits ? row.A : row.SecondLimits ? row.B : "the limiting partner")}: {Wording.List(row.Gases.Select(static share => $"{Wording.Figures(share.MolPerEquivalent)} mol {share.Name}"))}.";
        return $"{Wording.Capital(row.Reason)}. Expect {Wording.List(row.Consequences)}.{gas}";
    }

    /// <summary>Full references of a row.</summary>
    public static IReadOnlyList<string> Sources(Encounter row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return References.Full(row.Sources);
    }

    /// <summary>Full references of an answer.</summary>
    public static IReadOnlyList<string> Sources(PairAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return References.Full(answer.Encounters.SelectMany(static row => row.Sources).Concat(answer.Bases.SelectMany(static basis => basis.Sources)));
    }

    /// <summary>The range of temperature of a row; empty when it holds at any.</summary>
    internal static string Range(Encounter row) => row switch
    {
        { AboveK: { } above, BelowK: { } below } => $"above {Wording.Celsius(above)} and up to {Wording.Celsius(below)}",
        { AboveK: { } above } => $"above {Wording.Celsius(above)}",
        { BelowK: { } below } => $"up to {Wording.Celsius(below)}",
        _ => "",
    };

    private static string Third(Encounter row) => row.C switch
    {
        null => "",
        EncounterTable.Air => "in air",
        EncounterTable.UnpurgedAir => "over " + EncounterTable.UnpurgedAir,
        EncounterTable.Storing => "on storing",
        { } third => "with " + third,
    };

    private static string Word(Severity severity) => severity switch
    {
        Severity.Danger => "danger",
        Severity.Warning => "warning",
        Severity.Caution => "caution",
        Severity.Notice => "notice",
    };

    /// <summary>A family whose members count only from a strength says so.</summary>
    private static string Strength(string family) =>
        FamilyTable.Default.LowestGate(family) is { } gate ? $"{family}: from {Wording.Figures(gate * 100)} % by mass" : "";

    private static string NotAssessed(PairAnswer answer)
    {
        string[] unknown = [.. new[] { answer.A, answer.B }.Where(static partner => partner.Families.Count == 0).Select(static partner => partner.Name).Distinct(StringComparer.Ordinal)];
        return unknown.Length > 0
            ? $"{Wording.List(unknown)} {(unknown.Length == 1 ? "belongs" : "belong")} to no family of the table; not assessed does not mean compatible"
            : "no row of the table speaks of this pair; not assessed does not mean compatible";
    }
}
