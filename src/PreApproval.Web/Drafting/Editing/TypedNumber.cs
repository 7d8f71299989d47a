using System.Text.RegularExpressions;
using PreApproval.Documents.Units;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>A number as people type it: with a decimal comma, a leading point, or its unit behind it.</summary>
/// <param name="Number">As the document writes numbers, with a point; the text itself where it is none.</param>
/// <param name="Unit">The unit that was typed behind it, by its symbol; null: none, or none that the field takes.</param>
public sealed partial record TypedNumber(string Number, string? Unit)
{
    /// <summary>Spellings that can mean one thing only. Letter case is not ignored in general: mPa is no MPa.</summary>
    private static readonly Dictionary<string, string> Spellings = new(StringComparer.Ordinal)
    {
        ["ml"] = "mL",
        ["l"] = "L",
        ["µl"] = "µL",
        ["μl"] = "µL",
        ["ul"] = "µL",
        ["C"] = "°C",
        ["M"] = "mol/L",
        ["barg"] = "bar(g)",
        ["psig"] = "psi(g)",
    };

    /// <summary>
    /// Reads what was typed. A comma with three digits behind it, as in <c>1,000</c>, may be meant either way and is left as it is.
    /// </summary>
    /// <param name="text">What was typed.</param>
    /// <param name="units">Symbols of the units that the field takes.</param>
    public static TypedNumber Read(string? text, IReadOnlyList<string> units)
    {
        ArgumentNullException.ThrowIfNull(units);
        string typed = (text ?? "").Replace('\u00a0', ' ').Trim();
        Match match = Shape.Match(typed);
        if (!match.Success)
        {
            return new TypedNumber(typed, null);
        }

        string tail = match.Groups["unit"].Value;
        string? unit = tail.Length == 0 ? null : UnitOf(tail, units);
        return (tail.Length > 0 && unit is null) || IsAmbiguous(match)
            ? new TypedNumber(typed, null)
            : new TypedNumber(Written(match), unit);
    }

    private static bool IsAmbiguous(Match match) =>
        match.Groups["mark"].Value is "," && match.Groups["part"].Value.Length == 3 && match.Groups["whole"].Value is { Length: >= 1 and <= 3 } whole && whole[0] != '0';

    private static string Written(Match match)
    {
        string sign = match.Groups["sign"].Value is "-" or "−" ? "-" : "";
        string whole = match.Groups["whole"].Value.TrimStart('0');
        string part = match.Groups["part"].Value;
        return sign + (whole.Length > 0 ? whole : "0") + (part.Length > 0 ? "." + part : "") + match.Groups["power"].Value;
    }

    private static string? UnitOf(string spelling, IReadOnlyList<string> units)
    {
        string symbol = Spellings.GetValueOrDefault(spelling) ?? (UnitTable.TryFind(spelling, out Unit? unit) ? unit.Symbol : spelling);
        return units.Contains(symbol, StringComparer.Ordinal) ? symbol : null;
    }

    [GeneratedRegex(@"^(?<sign>[-+−]?)(?=[0-9]|[.,][0-9])(?<whole>[0-9]*)(?<mark>[.,]?)(?<part>[0-9]*)(?<power>(?:[eE][-+]?[0-9]+)?)\s*(?<unit>[^0-9.,\s].*)?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Shape { get; }
}
