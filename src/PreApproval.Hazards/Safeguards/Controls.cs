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

/// <summary>Levels of the hierarchy of controls, best first (NIOSH; ISO 45001, 8.1.2). The two above them, to eliminate and to substitute, change the procedure.</summary>
public enum ControlLevel
{
    Engineering,
    Administrative,
    ProtectiveEquipment,
}

/// <summary>The documented list of controls (Data/controls.tsv; docs/methods/safeguards.md).</summary>
public static class ControlList
{
    private static readonly (string Control, Hazard[] Hazards, ControlLevel Level)[] Known =
        [.. EmbeddedTable.Rows("controls.tsv").Select(static row => (row["control"], EmbeddedTable.Entries(row["hazards"]).Select(Parse).ToArray(), Level(row["level"])))];

    private static readonly FrozenDictionary<string, string> ByName = EmbeddedTable.Rows("controls.tsv")
        .SelectMany(static row => EmbeddedTable.Entries(row["aliases"]).Prepend(row["control"]).Select(name => (Name: name, Control: row["control"])))
        .ToFrozenDictionary(static pair => pair.Name, static pair => pair.Control, StringComparer.OrdinalIgnoreCase);

    private static readonly string[] MadeOf = ["made of ", "made from ", "is ", "as ", "using ", "an inverted ", "an upturned ", "improvised from "];

    private static readonly string[] Elsewhere = [" over ", " around ", " round ", " in front", " behind ", " before ", " between ", " beside ", " with ", " at ", " on ", " in ", " and ", " for ", " against ", " to ", " not "];

    private static readonly Makeshift[] ImprovisedWords =
        [.. EmbeddedTable.Rows("improvised.tsv").Select(static row => new Makeshift(row["words"], Parse(row["hazard"]), row["kind"] is "use", EmbeddedTable.Entries(row["insteadOf"]), EmbeddedTable.Entries(row["unless"])))];

    /// <summary>Names of all recognised controls.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. Known.Select(static control => control.Control)];

    /// <summary>The recognised control that the words name, or null.</summary>
    public static string? Find(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var name = words.Trim();
        // a listed name in the plural is that name; a setting or any other word beside it is not judged, so it is not taken for the control
        return ByName.GetValueOrDefault(name) ?? (name.EndsWith('s') ? ByName.GetValueOrDefault(name[..^1]) : null);
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
    internal static Hazard? Improvised(Safeguard safeguard) => MakeshiftOf(safeguard)?.Hazard;

    /// <summary>Controls that an improvised safeguard stands in for; none when it is not improvised.</summary>
    internal static IReadOnlyList<string> StandsInFor(Safeguard safeguard) => MakeshiftOf(safeguard)?.InsteadOf ?? [];

    private static Makeshift? MakeshiftOf(Safeguard safeguard)
    {
        var known = Find(safeguard.Control);
        foreach (var makeshift in ImprovisedWords)
        {
            if (known is null ? Says(safeguard, makeshift) && !MeansOther(safeguard, makeshift) : safeguard.Detail is { } how && ActsOn(known, makeshift.Hazard) && (makeshift.Misuse ? ContainsWords(how, makeshift.Words) : SaysMadeOf(how, makeshift) || (makeshift.InsteadOf.Contains(known, StringComparer.Ordinal) && ContainsWords(Subject(how), makeshift.Words))))
            {
                return makeshift;
            }
        }

        return null;
    }

    private static bool Says(Safeguard safeguard, Makeshift makeshift) =>
        ContainsWords(safeguard.Control, makeshift.Words) || (safeguard.Detail is { } detail && ContainsWords(detail, makeshift.Words));

    private static bool MeansOther(Safeguard safeguard, Makeshift makeshift)
    {
        foreach (var words in makeshift.Unless)
        {
            if (ContainsWords(safeguard.Control, words) || (safeguard.Detail is { } detail && ContainsWords(detail, words)))
            {
                return true;
            }
        }

        return false;
    }

    private static bool SaysMadeOf(string detail, Makeshift makeshift)
    {
        foreach (var words in makeshift.MadeOf)
        {
            if (ContainsWords(detail, words))
            {
                return true;
            }
        }

        return detail.AsSpan().TrimStart().StartsWith(makeshift.Words, StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>What a detail says the control is, before it says where or with what: “an inverted glass beaker” of “an inverted glass beaker over the vial”, “polycarbonate” of “polycarbonate around the beaker”.</summary>
    private static ReadOnlySpan<char> Subject(ReadOnlySpan<char> detail)
    {
        var end = detail.IndexOfAny(",;:(");
        end = end < 0 ? detail.Length : end;
        foreach (var word in Elsewhere)
        {
            // a detail that begins with the word says nothing but where
            var at = detail.StartsWith(word.AsSpan(1), StringComparison.OrdinalIgnoreCase) ? 0 : detail.IndexOf(word, StringComparison.OrdinalIgnoreCase);
            end = at >= 0 && at < end ? at : end;
        }

        return detail[..end];
    }

    /// <summary>True when the control acts on the hazard.</summary>
    internal static bool ActsOn(string control, Hazard hazard)
    {
        foreach (var known in Known)
        {
            if (string.Equals(known.Control, control, StringComparison.Ordinal) && Array.IndexOf(known.Hazards, hazard) >= 0)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Level of a recognised control; null for any other name.</summary>
    public static ControlLevel? LevelOf(string control) =>
        Array.Find(Known, known => string.Equals(known.Control, control, StringComparison.Ordinal)) is { Control: not null } found ? found.Level : null;

    /// <summary>The recognised control that a longer text names, or null.</summary>
    internal static string? NamedIn(string text) =>
        ByName.Where(pair => ContainsWords(text, pair.Key)).OrderByDescending(static pair => pair.Key.Length).ThenBy(static pair => pair.Key, StringComparer.Ordinal).Select(static pair => pair.Value).FirstOrDefault();

    private static ControlLevel Level(string words) => words switch
    {
        "engineering" => ControlLevel.Engineering,
        "administrative" => ControlLevel.Administrative,
        "protective equipment" => ControlLevel.ProtectiveEquipment,
        _ => throw new InvalidOperationException($"controls.tsv has a level “{words}”."),
    };

    // whole words, the last of them also in the plural
    private static bool ContainsWords(ReadOnlySpan<char> text, string words)
    {
        var start = text.IndexOf(words, StringComparison.OrdinalIgnoreCase);
        if (start < 0 || (start > 0 && char.IsLetter(text[start - 1])))
        {
            return false;
        }

        var end = start + words.Length;
        end += end < text.Length && text[end] is 's' ? 1 : 0;
        return end == text.Length || !char.IsLetter(text[end]);
    }

    private static Hazard Parse(string word) => Enum.Parse<Hazard>(word, ignoreCase: true);

    /// <summary>Words that give an improvised safeguard away.</summary>
    private sealed record Makeshift(string Words, Hazard Hazard, bool Misuse, IReadOnlyList<string> InsteadOf, IReadOnlyList<string> Unless)
    {
        /// <summary>The words as a detail says what a control is made of.</summary>
        public string[] MadeOf { get; } = [.. ControlList.MadeOf.SelectMany(lead => (string[])[lead + Words, lead + "a " + Words, lead + "an " + Words])];
    }
}
