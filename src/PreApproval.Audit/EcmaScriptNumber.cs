using System.Globalization;

namespace PreApproval.Audit;

/// <summary>Number::toString of ECMA-262 for radix 10, which RFC 8785 section 3.2.2.3 prescribes.</summary>
internal static class EcmaScriptNumber
{
    /// <summary>The shortest decimal text that reads back as the same double, laid out as ECMAScript lays it out; negative zero is <c>0</c>.</summary>
    /// <exception cref="FormatException">NaN or an infinity.</exception>
    public static string Format(double number)
    {
        if (!double.IsFinite(number))
        {
            throw new FormatException("JSON has no NaN and no infinities.");
        }

        if (number == 0)
        {
            return "0";
        }

        string sign = number < 0 ? "-" : string.Empty;
        (string digits, int point) = ShortestDigits(Math.Abs(number));
        return sign + Layout(digits, point);
    }

    /// <summary>Digits without leading or trailing zeros, and n such that the value is 0.digits × 10^n.</summary>
    private static (string Digits, int Point) ShortestDigits(double magnitude)
    {
        // since .NET Core 3.0 "R" gives the shortest digits that round-trip; only its layout differs
        string shortest = magnitude.ToString("R", CultureInfo.InvariantCulture);
        int exponentMark = shortest.IndexOf('E', StringComparison.Ordinal);
        string mantissa = exponentMark < 0 ? shortest : shortest[..exponentMark];
        int exponent = exponentMark < 0 ? 0 : int.Parse(shortest.AsSpan(exponentMark + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);

        int dot = mantissa.IndexOf('.', StringComparison.Ordinal);
        string all = mantissa.Replace(".", string.Empty, StringComparison.Ordinal);
        string withoutLeading = all.TrimStart('0');
        int point = exponent + (dot < 0 ? mantissa.Length : dot) - (all.Length - withoutLeading.Length);
        return (withoutLeading.TrimEnd('0'), point);
    }

    /// <summary>The cases of ECMA-262, Number::toString, with k digits and n = point.</summary>
    private static string Layout(string digits, int point)
    {
        int count = digits.Length;
        if (count <= point && point <= 21)
        {
            return digits + new string('0', point - count);
        }

        if (point is > 0 and <= 21)
        {
            return $"{digits[..point]}.{digits[point..]}";
        }

        if (point is > -6 and <= 0)
        {
            return $"0.{new string('0', -point)}{digits}";
        }

        int exponent = point - 1;
        string power = (exponent < 0 ? "-" : "+") + Math.Abs(exponent).ToString(CultureInfo.InvariantCulture);
        return count == 1 ? $"{digits}e{power}" : $"{digits[..1]}.{digits[1..]}e{power}";
    }
}
