using System.Globalization;
using System.Text;

namespace PreApproval.Documents.Reading;

/// <summary>How foreign text and numbers appear inside messages.</summary>
internal static class Shown
{
    private const int LongestText = 60;

    /// <summary>Shortened, with control and invisible characters made visible.</summary>
    public static string Text(string text)
    {
        var shown = new StringBuilder();
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (shown.Length >= LongestText)
            {
                shown.Append('…');
                break;
            }

            if (Rune.IsControl(rune) || InvisibleText.Has(rune))
            {
                shown.Append(CultureInfo.InvariantCulture, $"\\u{rune.Value:x4}");
            }
            else
            {
                shown.Append(rune.ToString());
            }
        }

        return shown.ToString();
    }

    public static string Number(double number) => number.ToString("R", CultureInfo.InvariantCulture);

    /// <summary><c>a, b or c</c>.</summary>
    public static string Choice(IReadOnlyList<string> words) => words.Count switch
    {
        0 => "",
        1 => words[0],
        _ => $"{string.Join(", ", words.Take(words.Count - 1))} or {words[^1]}",
    };
}
