namespace PreApproval.Documents.Rules;

/// <summary>The check digit of CAS registry numbers, for saying what it should be.</summary>
internal static class CasCheckDigit
{
    /// <summary>
    /// The last digit equals the sum of the others, each times its place counted from the right, modulo 10
    /// (CAS, "Check Digit Verification of CAS Registry Numbers": 107-07-3 gives 1·7 + 2·0 + 3·7 + 4·0 + 5·1 = 33).
    /// </summary>
    public static int Of(string cas)
    {
        int[] digits = [.. cas.Where(char.IsAsciiDigit).Select(digit => digit - '0')];
        return digits.SkipLast(1).Reverse().Select((digit, index) => digit * (index + 1)).Sum() % 10;
    }
}
