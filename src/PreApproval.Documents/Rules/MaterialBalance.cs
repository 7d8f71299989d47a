using System.Globalization;
using FluentValidation;
using FluentValidation.Results;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Rules;

/// <summary>The steps do not use more of a material than the list has, where both are given in the same kind of unit.</summary>
internal static class MaterialBalance
{
    /// <summary>Rounding of typed numbers.</summary>
    private const double Tolerance = 1e-3;

    public static void Check(ProcedureDocument document, ValidationContext<ProcedureDocument> context)
    {
        foreach (MaterialEntry material in document.Materials.Where(material => material.Amount is not null))
        {
            Quantity total = material.Amount!;
            Dimension dimension = total.Definition.Dimension;
            double used = 0;
            foreach ((int step, int place, Quantity amount) in UsesOf(document, material.Id))
            {
                // what was taken in another kind of unit only adds to it; the engine counts that, which knows densities
                if (amount.Definition.Dimension != dimension)
                {
                    continue;
                }

                used += amount.Si;
                if (used > total.Si * (1 + Tolerance))
                {
                    double inUnit = (used - total.Definition.Offset) / total.Definition.Factor;
                    context.AddFailure(new ValidationFailure(
                        string.Create(CultureInfo.InvariantCulture, $"Steps[{step}].Materials[{place}].Amount"),
                        string.Create(CultureInfo.InvariantCulture, $"brings the use of \"{material.Id}\" to {inUnit:0.######} {total.Unit}, but the list of materials has {total.Value:R} {total.Unit}{OfAMove(document.Steps[step])}")));
                    break;
                }
            }
        }
    }

    /// <summary>Who names 5 of 10 mL in a transfer means a part of the contents; it is read as rinsings.</summary>
    private static string OfAMove(StepEntry step) => step.Action is StepAction.Transfer or StepAction.Filter or StepAction.Discard
        ? ". A step that moves the contents moves all of them, and the materials it names are added from the list, as rinsings are; to use a part, charge that part into a vessel of its own"
        : "";

    private static IEnumerable<(int Step, int Place, Quantity Amount)> UsesOf(ProcedureDocument document, string material) =>
        from step in document.Steps.Index()
        from use in (step.Item.Materials ?? []).Index()
        where use.Item.Amount is not null && string.Equals(use.Item.Id, material, StringComparison.Ordinal)
        select (step.Index, use.Index, use.Item.Amount);
}
