using System.Text;
using PreApproval.Documents.Reading;

namespace PreApproval.Procedures.Workflow;

/// <summary>Limits of what people type, before it goes into an event and a database column.</summary>
public static class TypedText
{
    /// <summary>Longest reason, condition or answer, in UTF-16 units: an event must stay under 65,535 bytes.</summary>
    public const int Longest = 4000;

    /// <summary>Longest title in lists and events; the document keeps its own.</summary>
    public const int LongestTitle = 200;

    /// <summary>What is wrong with the text, or null.</summary>
    public static string? Fault(string text)
    {
        if (text.Length > Longest)
        {
            return $"At most {Longest} characters.";
        }

        return text.EnumerateRunes().Any(rune => rune == Rune.ReplacementChar || InvisibleText.Has(rune) || (Rune.IsControl(rune) && rune.Value is not ('\n' or '\r' or '\t')))
            ? "It has characters that can't be shown."
            : null;
    }

    /// <summary>One line for lists and events: without control and invisible characters and broken surrogates, shortened where too long.</summary>
    public static string Title(string text)
    {
        var kept = new StringBuilder();
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (kept.Length + rune.Utf16SequenceLength > LongestTitle - 1)
            {
                kept.Append('…');
                break;
            }

            kept.Append(Rune.IsControl(rune) || InvisibleText.Has(rune) ? " " : rune.ToString());
        }

        return kept.ToString().Trim();
    }
}
