using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Safeguards;

/// <summary>How a safeguard as typed is judged.</summary>
public enum Recognition
{
    Recognised,
    Improvised,
    NotRecognised,
}

/// <summary>The documented list of controls (Data/controls.tsv; docs/methods/safeguards.md).</summary>
public static class ControlList
{
    private static readonly (string Control, Hazard[] Hazards)[] Known =
        [.. EmbeddedTable.Rows("controls.tsv").Select(static row => (row["control"], EmbeddedTable.Entries(row["hazards"]).Select(Parse).ToArray()))];

    private static readonly FrozenDictionary<string, string> ByName = EmbeddedTable.Rows("controls.tsv")
        .SelectMany(static row => EmbeddedTable.Entries(row["aliases"]).Prepend(row["control"]).Select(name => (Name: name, Control: row["control"])))
        .ToFrozenDictionary(static pair => pair.Name, static pair => pair.Control, StringComparer.OrdinalIgnoreCase);

    private static readonly (string Words, Hazard Hazard, bool Misuse)[] ImprovisedWords =
        [.. EmbeddedTable.Rows("improvised.tsv").Select(static row => (row["words"], Parse(row["hazard"]), row["kind"] is "use"))];

    private static readonly string[] MadeOf = ["made of ", "made from ", "is ", "as ", "using ", "an inverted ", "an upturned ", "improvised from "];

    /// <summary>Names of all recognised controls.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. Known.Select(static control => control.Control)];

    /// <summary>The recognised control that the words name, or null.</summary>
    public static string? Find(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return ByName.GetValueOrDefault(words.Trim());
    }

    /// <summary>Recognised, improvised, or neither; a recognised control described as improvised is improvised.</summary>
    public static Recognition Judge(Safeguard safeguard)
    {
        ArgumentNullException.ThrowIfNull(safeguard);
        return Improvised(safeguard) is not null ? Recognition.Improvised
            : Find(safeguard.Control) is not null ? Recognition.Recognised
            : Recognition.NotRecognised;
    }

    /// <summary>
    /// Hazard an improvised safeguard pretends to act on; null when it is not improvised. The name of the control decides.
    /// The detail of a recognised control is read only for what the control is made of or how it is used, and only for a
    /// hazard that control acts on: a flask in foil against light makes no hood improvised.
    /// </summary>
    internal static Hazard? Improvised(Safeguard safeguard)
    {
        var known = Find(safeguard.Control);
        foreach (var (words, hazard, misuse) in ImprovisedWords)
        {
            if (known is null
                ? ContainsWords(safeguard.Control, words) || (safeguard.Detail is { } detail && ContainsWords(detail, words))
                : safeguard.Detail is { } how && ActsOn(known, hazard) && (misuse ? ContainsWords(how, words) : SaysMadeOf(how, words)))
            {
                return hazard;
            }
        }

        return null;
    }

    private static bool SaysMadeOf(string detail, string words) =>
        detail.Trim().StartsWith(words, StringComparison.OrdinalIgnoreCase)
        || Array.Exists(MadeOf, lead => ContainsWords(detail, lead + words) || ContainsWords(detail, lead + "a " + words) || ContainsWords(detail, lead + "an " + words));

    /// <summary>True when the control acts on the hazard.</summary>
    internal static bool ActsOn(string control, Hazard hazard) =>
        Array.Exists(Known, known => string.Equals(known.Control, control, StringComparison.Ordinal) && known.Hazards.Contains(hazard));

    private static bool ContainsWords(string text, string words)
    {
        var start = text.IndexOf(words, StringComparison.OrdinalIgnoreCase);
        return start >= 0 && (start == 0 || !char.IsLetter(text[start - 1])) && (start + words.Length == text.Length || !char.IsLetter(text[start + words.Length]));
    }

    private static Hazard Parse(string word) => Enum.Parse<Hazard>(word, ignoreCase: true);
}
