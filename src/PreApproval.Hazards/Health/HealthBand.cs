namespace PreApproval.Hazards.Health;

/// <summary>How readily a liquid evaporates at the temperature of work.</summary>
public enum Evaporability
{
    Low,
    Medium,
    High,
}

/// <summary>
/// Bands for what has no exposure limit, by hazard statements and volatility (R. M. Russell, S. C. Maidment, I. Brooke, M. D. Topping, An introduction to a UK scheme to help small firms control health risks
/// from chemicals, Ann. Occup. Hyg. 1998, 42, 367, and I. Brooke, ibid. 377; from memory). A band sorts; it is no measurement.
/// </summary>
public static class HealthBand
{
    private static readonly string[] B = ["H302", "H312", "H332", "H371"];

    private static readonly string[] C = ["H301", "H311", "H331", "H314", "H317", "H318", "H335", "H370", "H373"];

    private static readonly string[] D = ["H300", "H310", "H330", "H351", "H360", "H361", "H362", "H372"];

    private static readonly string[] E = ["H334", "H340", "H341", "H350"];

    /// <summary>The worst band of a set of statements, A to E. A letter after the number (H360D, H350i) does not change it.</summary>
    public static char Of(IEnumerable<string> codes)
    {
        ArgumentNullException.ThrowIfNull(codes);
        var worst = 'A';
        foreach (var code in codes)
        {
            var plain = code.Length > 4 && code[0] == 'H' ? code[..4] : code;
            var band = E.Contains(plain, StringComparer.Ordinal) ? 'E' : D.Contains(plain, StringComparer.Ordinal) ? 'D' : C.Contains(plain, StringComparer.Ordinal) ? 'C' : B.Contains(plain, StringComparer.Ordinal) ? 'B' : 'A';
            worst = band > worst ? band : worst;
        }

        return worst;
    }

    /// <summary>High where the boiling point is at most 2 T + 10 °C, low where it is at least 5 T + 50 °C, else medium; at 20 °C that is 50 and 150 °C.</summary>
    /// <param name="boilingC">Boiling point in °C.</param>
    /// <param name="workC">Temperature of work in °C.</param>
    public static Evaporability At(double boilingC, double workC) =>
        boilingC <= (2 * workC) + 10 ? Evaporability.High : boilingC >= (5 * workC) + 50 ? Evaporability.Low : Evaporability.Medium;
}
