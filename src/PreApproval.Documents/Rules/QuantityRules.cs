using System.Globalization;
using FluentValidation;
using FluentValidation.Results;

namespace PreApproval.Documents.Rules;

/// <summary>Rules for single values, said in the words of the trade.</summary>
internal static class QuantityRules
{
    private const int FirstYear = 1950;
    private const int LastYear = 2150;

    /// <summary>In the range of what the unit measures, or in the given one.</summary>
    public static void Credible<T>(this IRuleBuilder<T, Quantity?> rule, CredibleRange? range = null) =>
        rule.Custom((quantity, context) =>
        {
            if (quantity is not null && (range ?? CredibleRange.Of(quantity.Definition.Dimension))?.Fault(quantity) is { } fault)
            {
                context.AddFailure(new ValidationFailure($"{context.PropertyPath}.Value", fault));
            }
        });

    /// <summary>Gauge pressures in Pa below this are none: the digits of an atmosphere that was typed.</summary>
    private const double NoPressurePa = 1;

    /// <summary>A rating: a gauge pressure of zero or more.</summary>
    /// <param name="rule">What it holds for.</param>
    /// <param name="aboveZero">True for what opens: at the atmosphere it would let everything out at once.</param>
    public static void CredibleRating<T>(this IRuleBuilder<T, Quantity?> rule, bool aboveZero = false) =>
        rule.Custom((quantity, context) =>
        {
            if (quantity is null)
            {
                return;
            }

            string? fault = CredibleRange.AbsolutePressure.Fault(quantity)
                ?? (quantity.PaGauge < 0 ? $"{quantity.Value.ToString("R", CultureInfo.InvariantCulture)} {quantity.Unit} is below the atmosphere; a rating is usually a gauge pressure: write bar(g) or psi(g)"
                : aboveZero && quantity.PaGauge < NoPressurePa ? "must be above 0 bar(g): a relief device opens above the atmosphere"
                : null);
            if (fault is not null)
            {
                context.AddFailure(new ValidationFailure($"{context.PropertyPath}.Value", fault));
            }
        });

    public static void CredibleDate<T>(this IRuleBuilder<T, DateOnly?> rule) =>
        rule.Must(date => date is null or { Year: >= FirstYear and <= LastYear })
            .WithMessage(string.Create(CultureInfo.InvariantCulture, $"is no credible date; years {FirstYear} to {LastYear} are allowed"));

    public static void Within<T>(this IRuleBuilder<T, double?> rule, double least, double most) =>
        rule.Must(number => number is null || (number >= least && number <= most))
            .WithMessage(string.Create(CultureInfo.InvariantCulture, $"must be from {least} to {most}"));

    public static void Equivalents<T>(this IRuleBuilder<T, double> rule) =>
        rule.Must(number => number is > 0 and <= 10_000).WithMessage("must be above 0 and at most 10000 equivalents");
}
