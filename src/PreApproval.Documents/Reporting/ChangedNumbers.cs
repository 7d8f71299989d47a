using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Reporting;

/// <summary>The two numbers of a change as text, without their unit: with as many digits as tell them apart.</summary>
/// <param name="Before">Null: none.</param>
/// <param name="After">Null: none.</param>
/// <param name="LimitBefore">Set where the limits differ.</param>
/// <param name="LimitAfter">Set where the limits differ.</param>
public sealed record ChangedNumbers(string? Before, string? After, string? LimitBefore, string? LimitAfter)
{
    /// <summary>A report carries no more.</summary>
    private const int MostDigits = 6;

    /// <summary>True where the number is the same and its severity is what changed.</summary>
    public bool IsStill => Before is not null && string.Equals(Before, After, StringComparison.Ordinal);

    /// <param name="change">The change.</param>
    /// <param name="write">Writes a number with so many significant digits.</param>
    /// <param name="digits">How many are enough where they show the difference.</param>
    public static ChangedNumbers Of(HazardChange change, Func<double, int, string> write, int digits)
    {
        ArgumentNullException.ThrowIfNull(change);
        ArgumentNullException.ThrowIfNull(write);
        double? before = Finite(change.Before?.Value);
        double? after = Finite(change.After?.Value);
        if (before is { } was && after is { } becomes)
        {
            // where no figure tells them apart they are the same, and the usual figures do
            int[] enough = [.. Enumerable.Range(digits, MostDigits + 1 - digits).Where(figures => !string.Equals(write(was, figures), write(becomes, figures), StringComparison.Ordinal))];
            digits = enough.Length > 0 ? enough[0] : digits;
        }

        (double? old, double? now) = (Finite(change.Before?.Limit), Finite(change.After?.Limit));
        bool limits = old is not null && now is not null && !string.Equals(write(old.Value, MostDigits), write(now.Value, MostDigits), StringComparison.Ordinal);
        return new ChangedNumbers(Text(before), Text(after), limits ? write(old!.Value, digits) : null, limits ? write(now!.Value, digits) : null);

        string? Text(double? number) => number is { } value ? write(value, digits) : null;
    }

    private static double? Finite(double? value) => value is { } number && double.IsFinite(number) ? number : null;
}
