using System.Globalization;

namespace PreApproval.Hazards.Screening;

/// <summary>A number in a sentence, with its unit. It writes itself into the sentence without a string of its own.</summary>
/// <param name="Value">Already rounded as it is to be shown.</param>
/// <param name="Unit">With the space before it; empty where the sentence says the unit.</param>
internal readonly record struct NumberWords(double Value, string Unit) : ISpanFormattable
{
    // a whole number up to the largest double, three decimals, a sign
    private const int LongestNumber = 320;

    public static implicit operator string(NumberWords words) => words.Written();

    public override string ToString() => Written();

    public string ToString(string? format, IFormatProvider? formatProvider) => Written();

    private string Written()
    {
        Span<char> room = stackalloc char[LongestNumber + Unit.Length];
        return TryFormat(room, out var written, [], null) ? new string(room[..written]) : throw new System.Diagnostics.UnreachableException();
    }

    public bool TryFormat(Span<char> destination, out int charsWritten, ReadOnlySpan<char> format, IFormatProvider? provider)
    {
        if (!(Value == 0 ? 0 : Value).TryFormat(destination, out charsWritten, "0.###", CultureInfo.InvariantCulture) || !Unit.TryCopyTo(destination[charsWritten..]))
        {
            charsWritten = 0;
            return false;
        }

        destination[..charsWritten].Replace('-', '−');
        charsWritten += Unit.Length;
        return true;
    }
}
