using System.Globalization;
using System.Text.RegularExpressions;

namespace PreApproval.Hazards.Solutions;

/// <summary>A name with a strength in it, taken apart: <c>HCl (4 M in dioxane)</c> is 4 M, HCl, dioxane.</summary>
/// <param name="Number">As typed.</param>
/// <param name="Unit">Percent, molar or normal.</param>
/// <param name="Rest">The name without the strength.</param>
/// <param name="Solute">What is dissolved.</param>
/// <param name="Solvent">Null: water, or nothing said.</param>
internal sealed partial record SolutionWords(double Number, StrengthUnit Unit, string Rest, string Solute, string? Solvent)
{
    /// <summary>Null when the name holds no strength or nothing besides it.</summary>
    public static SolutionWords? Read(string name)
    {
        if (name.Length > 200 || StrengthPattern.Match(name) is not { Success: true } match
            || !double.TryParse(match.Groups["number"].Value.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            || !(number > 0))
        {
            return null;
        }

        var unit = match.Groups["percent"].Success ? StrengthUnit.MassPercent
            : match.Groups["milli"].Success ? StrengthUnit.Millimolar
            : match.Groups["normal"].Success ? StrengthUnit.Normal
            : StrengthUnit.Molar;
        var rest = Tidy(name.Remove(match.Index, match.Length));
        if (rest.Length == 0)
        {
            return null;
        }

        var bare = Tidy(AqueousPattern.Replace(rest, " "));
        var cut = bare.IndexOf(" in ", StringComparison.OrdinalIgnoreCase);
        var slash = cut < 0 ? bare.IndexOf('/', StringComparison.Ordinal) : -1;
        return cut > 0 ? new SolutionWords(number, unit, rest, Tidy(bare[..cut]), Tidy(bare[(cut + 4)..]))
            : slash > 0 ? new SolutionWords(number, unit, rest, Tidy(bare[..slash]), Tidy(bare[(slash + 1)..]))
            : new SolutionWords(number, unit, rest, bare, null);
    }

    /// <summary>The strength for a solute; null when it cannot be (above 100 %).</summary>
    public SolutionStrength? For(string soluteCas) => Unit switch
    {
        StrengthUnit.MassPercent => Number <= 100 ? new SolutionStrength(Number / 100, IsMolar: false) : null,
        StrengthUnit.Molar => new SolutionStrength(Number * 1000, IsMolar: true),
        StrengthUnit.Millimolar => new SolutionStrength(Number, IsMolar: true),
        StrengthUnit.Normal => new SolutionStrength(Number * 1000 / Equivalents(soluteCas), IsMolar: true),
    };

    private static double Equivalents(string soluteCas) => soluteCas switch
    {
        "7664-93-9" or "497-19-8" or "584-08-7" or "1305-62-0" => 2,
        "7664-38-2" or "77-92-9" => 3,
        _ => 1,
    };

    /// <summary>Without brackets that stood around a strength or an addition, and without punctuation at the ends; brackets and commas inside a chemical name stay.</summary>
    private static string Tidy(string text) => SpacePattern.Replace(AdditionPattern.Replace(text, " ${inner} "), " ").Trim(' ', ',', ';');

    // Names are at most 200 characters, so that no match is slow; a short limit would only measure how busy the machine is.
    [GeneratedRegex(@"(?<![\w.,])(?<number>\d+(?:[.,]\d+)?)\s*(?:(?<percent>(?:wt|w)?\.?\s?%(?:\s*\(?(?:w/w|by mass|by weight|wt/wt|m/m)\)?)?|percent)|(?<milli>mM)(?![\w/])|(?:M|mol/L|mol/l|mol\s?L-1|molar)(?![\w/])|(?<normal>N|normal)(?![\w/]))", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex StrengthPattern { get; }

    [GeneratedRegex(@"\b(?:aqueous|aq\.?|solution|soln\.?|sol\.)(?=\s|$|\))|\bin (?:water|H2O)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex AqueousPattern { get; }

    [GeneratedRegex(@"(?<=^|\s)\((?<inner>[^()]*)\)(?=\s|$|,)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex AdditionPattern { get; }

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex SpacePattern { get; }
}

/// <summary>How a strength was typed.</summary>
internal enum StrengthUnit
{
    MassPercent,
    Molar,
    Millimolar,
    Normal,
}
