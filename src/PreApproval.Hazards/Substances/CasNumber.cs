namespace PreApproval.Hazards.Substances;

/// <summary>CAS registry numbers.</summary>
public static class CasNumber
{
    /// <summary>
    /// True when the text is a CAS registry number, two to seven digits, two digits and a check digit, and the check digit is
    /// right: the weighted sum of the other digits, counted from the right, modulo ten.
    /// </summary>
    public static bool IsValid(string? text)
    {
        if (text is null)
        {
            return false;
        }

        var parts = text.Split('-');
        if (parts.Length != 3 || parts[0].Length is < 2 or > 7 || parts[1].Length != 2 || parts[2].Length != 1)
        {
            return false;
        }

        var sum = 0;
        var weight = 1;
        var digits = parts[0] + parts[1];
        for (var i = digits.Length - 1; i >= 0; i--)
        {
            if (!char.IsAsciiDigit(digits[i]))
            {
                return false;
            }

            sum += weight++ * (digits[i] - '0');
        }

        return char.IsAsciiDigit(parts[2][0]) && sum % 10 == parts[2][0] - '0';
    }
}
