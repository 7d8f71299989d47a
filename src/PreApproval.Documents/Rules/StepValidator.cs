using FluentValidation;
using FluentValidation.Results;
using PreApproval.Documents.Reading;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Rules;

/// <summary>Credible values of a step, what its action needs, and what its action cannot take.</summary>
internal sealed class StepValidator : AbstractValidator<StepEntry>
{
    /// <summary>Above any weather at sea level, in Pa: the highest reading is 1084 hPa (WMO record, from memory).</summary>
    private const double HighestAtmospherePa = 1.1e5;

    public StepValidator()
    {
        var substance = new SubstanceValidator();
        RuleFor(step => step.Temperature).Credible();
        RuleFor(step => step.SurfaceTemperature).Credible();
        RuleFor(step => step.Duration).Credible();
        RuleFor(step => step.Over).Credible();
        RuleFor(step => step.Pressure).Credible();
        RuleForEach(step => step.Materials).ChildRules(use => use.RuleFor(entry => entry.Amount).Credible());

        // A gas given as a substance stands where its word would stand: no further level in the path.
        RuleFor(step => step.Headspace == null ? null : step.Headspace.Substance).SetValidator(substance).OverridePropertyName(nameof(StepEntry.Headspace));
        RuleFor(step => step.Gas == null ? null : step.Gas.Substance).SetValidator(substance).OverridePropertyName(nameof(StepEntry.Gas));
        RuleFor(step => step).Custom(CheckAction);
    }

    private static void CheckAction(StepEntry step, ValidationContext<StepEntry> context)
    {
        if (step.Action is not { } action)
        {
            return;
        }

        string word = Words.Actions.WordOf(action);
        foreach ((string member, bool given, string hint) in NeededBy(action, step))
        {
            if (!given)
            {
                Fail(context, member, $"is missing: \"{word}\" needs {hint}");
            }
        }

        Only(context, nameof(StepEntry.Closure), step.Closure is not null, action, [StepAction.Seal], "");
        Only(context, nameof(StepEntry.To), step.To is not null, action, [StepAction.Transfer, StepAction.Filter], "");
        Only(context, nameof(StepEntry.Gas), step.Gas is not null, action, [StepAction.Pressurise], "; the gas over the contents is \"headspace\"");
        Only(context, nameof(StepEntry.Pressure), step.Pressure is not null, action, [StepAction.Pressurise, StepAction.Evacuate, StepAction.Concentrate, StepAction.Distil], "");
        if (action is StepAction.Concentrate or StepAction.Distil && step.Pressure?.Si > HighestAtmospherePa)
        {
            Fail(context, nameof(StepEntry.Pressure), $"is above the atmosphere: \"{word}\" goes on at the atmosphere or under vacuum, for instance {{\"value\": 80, \"unit\": \"mbar\"}}");
        }
    }

    private static IEnumerable<(string Member, bool Given, string Hint)> NeededBy(StepAction action, StepEntry step)
    {
        switch (action)
        {
            case StepAction.Charge:
            case StepAction.Add:
            case StepAction.Quench:
                yield return (nameof(StepEntry.Materials), step.Materials is { Count: > 0 }, "the materials that go in");
                break;
            case StepAction.Heat:
            case StepAction.Cool:
                yield return (nameof(StepEntry.Temperature), step.Temperature is not null, "the temperature to reach");
                break;
            case StepAction.Pressurise:
                yield return (nameof(StepEntry.Gas), step.Gas is not null, "the gas, for instance \"hydrogen\"");
                yield return (nameof(StepEntry.Pressure), step.Pressure is not null, "the pressure to reach");
                break;
            case StepAction.Seal:
            case StepAction.Open:
            case StepAction.Vent:
            case StepAction.Purge:
            case StepAction.Evacuate:
            case StepAction.Hold:
            case StepAction.Stir:
            case StepAction.Reflux:
            case StepAction.Distil:
            case StepAction.Filter:
            case StepAction.Transfer:
            case StepAction.Extract:
            case StepAction.Concentrate:
            case StepAction.Store:
            case StepAction.Discard:
            case StepAction.Degas:
            case StepAction.Irradiate:
            case StepAction.Grind:
            case StepAction.Dry:
            case StepAction.Wash:
            case StepAction.Chromatograph:
                break;
        }
    }

    private static void Only(ValidationContext<StepEntry> context, string member, bool given, StepAction action, StepAction[] allowed, string hint)
    {
        if (given && !allowed.Contains(action))
        {
            Fail(context, member, $"does not belong to \"{Words.Actions.WordOf(action)}\", only to {Shown.Choice([.. allowed.Select(Words.Actions.WordOf)])}{hint}");
        }
    }

    private static void Fail(ValidationContext<StepEntry> context, string member, string message) =>
        context.AddFailure(new ValidationFailure(context.PropertyChain.BuildPropertyPath(member), message));
}
