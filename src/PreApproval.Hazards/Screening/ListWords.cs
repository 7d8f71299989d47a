using System.Globalization;
using System.Runtime.CompilerServices;

namespace PreApproval.Hazards.Screening;

/// <summary>Names in a sentence as “a, b and c”. They write themselves into the sentence without a string of their own.</summary>
/// <param name="Names">In their order; none: nothing is written.</param>
internal readonly record struct ListWords(IReadOnlyList<string> Names) : ISpanFormattable
{
    public static implicit operator string(ListWords words) => words.Written();

    public override string ToString() => Written();

    public string ToString(string? format, IFormatProvider? formatProvider) => Written();

    private string Written()
    {
        if (Names.Count < 2)
        {
            return Names.Count == 0 ? "" : Names[0];
        }

        var sentence = new DefaultInterpolatedStringHandler(0, 0, CultureInfo.InvariantCulture);
        for (var index = 0; index < Names.Count; index++)
        {
            sentence.AppendLiteral(Before(index));
            sentence.AppendLiteral(Names[index]);
        }

        return sentence.ToStringAndClear();
    }

    public bool TryFormat(Span<char> destination, out int charsWritten, ReadOnlySpan<char> format, IFormatProvider? provider)
    {
        charsWritten = 0;
        for (var index = 0; index < Names.Count; index++)
        {
            var before = Before(index);
            if (!before.TryCopyTo(destination[charsWritten..]) || !Names[index].TryCopyTo(destination[(charsWritten + before.Length)..]))
            {
                charsWritten = 0;
                return false;
            }

            charsWritten += before.Length + Names[index].Length;
        }

        return true;
    }

    private string Before(int index) => index == 0 ? "" : index == Names.Count - 1 ? " and " : ", ";
}
