using System.Globalization;
using System.Text;

namespace PreApproval.Hazards.Substances;

/// <summary>Molecular formulae in Hill order, and molar masses from the IUPAC standard atomic weights 2021.</summary>
/// <remarks>Source: Prohaska et al., Pure Appl. Chem. 94 (2022) 573, doi:10.1515/pac-2019-0603 (abridged values). D is deuterium.</remarks>
public static class Formula
{
    /// <summary>Molar mass in kg/mol, or null when the text is no formula of known elements.</summary>
    public static double? MolarMassKgPerMol(string formula)
    {
        if (!TryCount(formula, out var counts))
        {
            return null;
        }

        var grams = 0.0;
        foreach (var (element, count) in counts)
        {
            grams += AtomicWeight(element) * count;
        }

        return grams / 1000;
    }

    /// <summary>The formula in Hill order (C, H, then by letter; by letter throughout without carbon), or null when the text is no formula.</summary>
    public static string? InHillOrder(string formula)
    {
        if (!TryCount(formula, out var counts))
        {
            return null;
        }

        var organic = counts.ContainsKey("C");
        var text = new StringBuilder();
        foreach (var (element, count) in counts.OrderBy(c => Rank(c.Key, organic)).ThenBy(c => c.Key, StringComparer.Ordinal))
        {
            text.Append(element);
            if (count > 1)
            {
                text.Append(count.ToString(CultureInfo.InvariantCulture));
            }
        }

        return text.ToString();
    }

    /// <summary>Molar mass in kg/mol of a formula that is written in Hill order; false for any other text.</summary>
    internal static bool TryReadHill(ReadOnlySpan<char> formula, out double massKgPerMol)
    {
        var organic = StartsWithCarbon(formula);
        var grams = 0.0;
        ReadOnlySpan<char> previous = default;
        var at = 0;
        while (at < formula.Length)
        {
            var element = Element(formula[at..]);
            var weight = AtomicWeight(element);
            var digits = DigitCount(formula[(at + element.Length)..]);
            var count = 1;
            var number = formula.Slice(at + element.Length, digits);
            // Hill order writes no count of one and no element twice.
            if (weight == 0 || (digits > 0 && (number[0] == '0' || !int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out count) || count == 1))
                || (at > 0 && !ComesBefore(previous, element, organic)))
            {
                massKgPerMol = double.NaN;
                return false;
            }

            grams += weight * count;
            previous = element;
            at += element.Length + digits;
        }

        massKgPerMol = grams / 1000;
        return grams > 0;
    }

    private static bool StartsWithCarbon(ReadOnlySpan<char> formula) => Element(formula) is "C";

    private static bool ComesBefore(ReadOnlySpan<char> first, ReadOnlySpan<char> second, bool organic)
    {
        var order = Rank(first, organic) - Rank(second, organic);
        return order < 0 || (order == 0 && first.SequenceCompareTo(second) < 0);
    }

    private static int Rank(ReadOnlySpan<char> element, bool organic) => !organic ? 2 : element is "C" ? 0 : element is "H" ? 1 : 2;

    // A capital letter and the small letters after it; empty where there is no capital letter.
    private static ReadOnlySpan<char> Element(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty || !char.IsAsciiLetterUpper(text[0]))
        {
            return default;
        }

        var length = 1;
        while (length < text.Length && char.IsAsciiLetterLower(text[length]))
        {
            length++;
        }

        return text[..length];
    }

    private static int DigitCount(ReadOnlySpan<char> text)
    {
        var count = 0;
        while (count < text.Length && char.IsAsciiDigit(text[count]))
        {
            count++;
        }

        return count;
    }

    // IUPAC 2021, abridged; 0 for no element of the list.
    private static double AtomicWeight(ReadOnlySpan<char> element) => element switch
    {
        "H" => 1.008,
        "D" => 2.014101778,
        "He" => 4.002602,
        "Li" => 6.94,
        "Be" => 9.0121831,
        "B" => 10.81,
        "C" => 12.011,
        "N" => 14.007,
        "O" => 15.999,
        "F" => 18.998403162,
        "Ne" => 20.1797,
        "Na" => 22.98976928,
        "Mg" => 24.305,
        "Al" => 26.9815384,
        "Si" => 28.085,
        "P" => 30.973761998,
        "S" => 32.06,
        "Cl" => 35.45,
        "Ar" => 39.95,
        "K" => 39.0983,
        "Ca" => 40.078,
        "Sc" => 44.955907,
        "Ti" => 47.867,
        "V" => 50.9415,
        "Cr" => 51.9961,
        "Mn" => 54.938043,
        "Fe" => 55.845,
        "Co" => 58.933194,
        "Ni" => 58.6934,
        "Cu" => 63.546,
        "Zn" => 65.38,
        "Ga" => 69.723,
        "Ge" => 72.63,
        "As" => 74.921595,
        "Se" => 78.971,
        "Br" => 79.904,
        "Kr" => 83.798,
        "Rb" => 85.4678,
        "Sr" => 87.62,
        "Y" => 88.905838,
        "Zr" => 91.224,
        "Nb" => 92.90637,
        "Mo" => 95.95,
        "Ru" => 101.07,
        "Rh" => 102.90549,
        "Pd" => 106.42,
        "Ag" => 107.8682,
        "Cd" => 112.414,
        "In" => 114.818,
        "Sn" => 118.71,
        "Sb" => 121.76,
        "Te" => 127.6,
        "I" => 126.90447,
        "Xe" => 131.293,
        "Cs" => 132.90545196,
        "Ba" => 137.327,
        "La" => 138.90547,
        "Ce" => 140.116,
        "Pr" => 140.90766,
        "Nd" => 144.242,
        "Sm" => 150.36,
        "Eu" => 151.964,
        "Gd" => 157.25,
        "Tb" => 158.925354,
        "Dy" => 162.5,
        "Ho" => 164.930329,
        "Er" => 167.259,
        "Tm" => 168.934219,
        "Yb" => 173.045,
        "Lu" => 174.9668,
        "Hf" => 178.486,
        "Ta" => 180.94788,
        "W" => 183.84,
        "Re" => 186.207,
        "Os" => 190.23,
        "Ir" => 192.217,
        "Pt" => 195.084,
        "Au" => 196.96657,
        "Hg" => 200.592,
        "Tl" => 204.38,
        "Pb" => 207.2,
        "Bi" => 208.9804,
        "Th" => 232.0377,
        "U" => 238.02891,
        _ => 0,
    };

    /// <summary>Atoms of each element, or null when the text is no formula of known elements.</summary>
    public static IReadOnlyDictionary<string, int>? Atoms(string formula) => TryCount(formula, out var counts) ? counts : null;

    private static int Rank(string element, bool organic) => (organic, element) switch
    {
        (true, "C") => 0,
        (true, "H") => 1,
        _ => 2,
    };

    /// <summary>Atoms of each element; false when the text is no formula of known elements.</summary>
    internal static bool TryCount(string formula, out Dictionary<string, int> counts)
    {
        counts = new Dictionary<string, int>(StringComparer.Ordinal);
        var i = 0;
        while (i < formula.Length)
        {
            if (!char.IsAsciiLetterUpper(formula[i]))
            {
                return false;
            }

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

            var count = 1;
            if (AtomicWeight(element) == 0
                || (i > number && !int.TryParse(formula.AsSpan(number, i - number), NumberStyles.None, CultureInfo.InvariantCulture, out count)))
            {
                return false;
            }

            counts[element] = counts.GetValueOrDefault(element) + count;
        }

        return counts.Count > 0;
    }
}
