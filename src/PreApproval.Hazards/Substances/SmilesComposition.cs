using System.Globalization;
using System.Text;

namespace PreApproval.Hazards.Substances;

/// <summary>The atoms of a SMILES beside hydrogen, counted without reading its bonds: enough to catch a structure of another substance.</summary>
internal static class SmilesComposition
{
    /// <summary>Element symbols with their counts; null where a character is no part of a SMILES.</summary>
    public static Dictionary<string, int>? HeavyAtoms(string smiles)
    {
        var counts = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < smiles.Length; i++)
        {
            var c = smiles[i];
            if (c == '[')
            {
                var close = smiles.IndexOf(']', i);
                if (close < 0)
                {
                    return null;
                }

                Count(counts, BracketSymbol(smiles.AsSpan(i + 1, close - i - 1)));
                i = close;
            }
            else if (i + 1 < smiles.Length && ((c == 'C' && smiles[i + 1] == 'l') || (c == 'B' && smiles[i + 1] == 'r')))
            {
                Count(counts, smiles.Substring(i, 2));
                i++;
            }
            else if (c is 'B' or 'C' or 'N' or 'O' or 'P' or 'S' or 'F' or 'I' or 'b' or 'c' or 'n' or 'o' or 'p' or 's')
            {
                Count(counts, char.ToUpperInvariant(c).ToString());
            }
            else if (!char.IsAsciiDigit(c) && c is not ('(' or ')' or '=' or '#' or '-' or ':' or '/' or '\\' or '.' or '%' or '$'))
            {
                return null;
            }
        }

        return counts;
    }

    /// <summary>The same of a formula.</summary>
    public static Dictionary<string, int> HeavyAtomsOfFormula(string formula)
    {
        var counts = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < formula.Length;)
        {
            var start = i++;
            while (i < formula.Length && char.IsAsciiLetterLower(formula[i]))
            {
                i++;
            }

            var element = formula[start..i];
            var number = i;
            while (i < formula.Length && char.IsAsciiDigit(formula[i]))
            {
                i++;
            }

            Count(counts, element, i > number ? int.Parse(formula.AsSpan(number, i - number), NumberStyles.None, CultureInfo.InvariantCulture) : 1);
        }

        return counts;
    }

    /// <summary>True when both have the same atoms.</summary>
    public static bool AreSame(Dictionary<string, int> first, Dictionary<string, int> second)
    {
        foreach (var (element, count) in first)
        {
            if (!second.TryGetValue(element, out var other) || other != count)
            {
                return false;
            }
        }

        return first.Count == second.Count;
    }

    /// <summary>The atoms in ordinal order, as <c>C2O1</c>.</summary>
    public static string Text(Dictionary<string, int> counts)
    {
        var text = new StringBuilder();
        foreach (var (element, count) in counts.OrderBy(static pair => pair.Key, StringComparer.Ordinal))
        {
            text.Append(element).Append(count.ToString(CultureInfo.InvariantCulture));
        }

        return text.ToString();
    }

    private static string BracketSymbol(ReadOnlySpan<char> atom)
    {
        while (!atom.IsEmpty && char.IsAsciiDigit(atom[0]))
        {
            atom = atom[1..];
        }

        var length = atom.Length > 1 && char.IsAsciiLetterLower(atom[1]) ? 2 : 1;
        return atom.IsEmpty ? "" : string.Create(CultureInfo.InvariantCulture, $"{char.ToUpperInvariant(atom[0])}{atom[1..Math.Min(length, atom.Length)]}");
    }

    private static void Count(Dictionary<string, int> counts, string element, int count = 1)
    {
        if (element is not ("H" or "D"))
        {
            counts[element] = counts.GetValueOrDefault(element) + count;
        }
    }
}
