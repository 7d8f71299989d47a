using System.Globalization;
using FluentValidation;
using FluentValidation.Results;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Rules;

/// <summary>Every vessel is used, and something is put into it: else a name or a step is wrong.</summary>
internal static class VesselUse
{
    /// <summary>Places of vessels that no step names; none where no step is there, or where a step names none.</summary>
    public static IReadOnlyList<int> Unnamed(ProcedureDocument document)
    {
        if (document.Steps.Count == 0 || document.Steps.Any(step => step.Vessel.Length == 0))
        {
            return [];
        }

        HashSet<string> named = new(document.Steps.Select(step => step.Vessel).Concat(document.Steps.Select(step => step.To).OfType<string>()), StringComparer.Ordinal);
        return [.. document.Vessels.Index().Where(vessel => vessel.Item.Id.Length > 0 && !named.Contains(vessel.Item.Id)).Select(vessel => vessel.Index)];
    }

    public static void Check(ProcedureDocument document, ValidationContext<ProcedureDocument> context)
    {
        // An unreadable vessel name could mean any of them.
        if (document.Steps.Count == 0 || document.Steps.Any(step => step.Vessel.Length == 0))
        {
            return;
        }

        HashSet<string> used = new(document.Steps.Select(step => step.Vessel), StringComparer.Ordinal);
        HashSet<string> charged = new(
            document.Steps.Where(step => step.Materials is { Count: > 0 } || step.Action is null or StepAction.Pressurise).Select(step => step.Vessel),
            StringComparer.Ordinal);
        foreach (string to in document.Steps.Select(step => step.To).OfType<string>())
        {
            used.Add(to);
            charged.Add(to);
        }

        foreach ((int index, VesselEntry vessel) in document.Vessels.Index())
        {
            if (vessel.Id.Length == 0 || charged.Contains(vessel.Id))
            {
                continue;
            }

            context.AddFailure(new ValidationFailure(
                string.Create(CultureInfo.InvariantCulture, $"Vessels[{index}].Id"),
                used.Contains(vessel.Id)
                    ? $"nothing is ever put into \"{vessel.Id}\": no step charges it, adds or transfers to it"
                    : $"\"{vessel.Id}\" is never used: no step names it. Remove it, or name it in the steps"));
        }
    }
}
