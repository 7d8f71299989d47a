using PreApproval.Hazards.Mixtures;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Substances;

/// <summary>Rules that no single row shows: one substance against itself, and names against each other.</summary>
internal static class CatalogChecks
{
    private const double AgreementK = 2;

    /// <summary>Checks one substance as read and as built.</summary>
    public static void Check(SubstanceDraft draft, Substance substance, List<string> faults)
    {
        CheckBoilingPoint(draft, substance, faults);
        if (draft.Best(Quantity.BoilingPoint) is { } boiling && draft.MostCautious(Quantity.FlashPoint, highest: false) is { } flash && flash.Value.Value > boiling.Value.Value)
        {
            faults.Add(flash.Row.Fault(ValueRows.Value, FormattableString.Invariant($"the flash point of {draft.Identity.Name} lies above its boiling point ({boiling.Value.Value} K)")));
        }

        if (draft.MostCautious(Quantity.LowerLimit, highest: false) is { } lower && draft.MostCautious(Quantity.UpperLimit, highest: true) is { } upper && lower.Value.Value >= upper.Value.Value)
        {
            faults.Add(lower.Row.Fault(ValueRows.Value, FormattableString.Invariant($"the lower flammable limit of {draft.Identity.Name} is not below the upper ({upper.Value.Value})")));
        }

        if (draft.Best(Quantity.CriticalTemperature) is { } critical && draft.Best(Quantity.BoilingPoint) is { } normal && normal.Value.Value >= critical.Value.Value)
        {
            faults.Add(critical.Row.Fault(ValueRows.Value, FormattableString.Invariant($"the critical temperature of {draft.Identity.Name} is not above its boiling point ({normal.Value.Value} K)")));
        }
    }

    /// <summary>A name or synonym may stand for one substance only.</summary>
    public static void CheckNames(SpellingIndex index, IReadOnlyList<SubstanceDraft> drafts, List<string> faults)
    {
        foreach (var (name, first, second) in index.Shared())
        {
            faults.Add($"{drafts[second].Row.File}, line {drafts[second].Row.Line}, column synonyms: '{name}' names {drafts[second].Identity.Name} and, in line {drafts[first].Row.Line}, {drafts[first].Identity.Name}; keep it with one of them");
        }
    }

    // Where the preferred correlation reaches a published boiling point, one of them must agree with it within 2 K.
    private static void CheckBoilingPoint(SubstanceDraft draft, Substance substance, List<string> faults)
    {
        var published = draft.All(Quantity.BoilingPoint);
        if (substance.BoilingPointK is null || substance.VapourPressure.Count == 0)
        {
            return;
        }

        foreach (var value in published)
        {
            var boilingK = value.Value.Value;
            if (VapourPressure.At(substance, boilingK - AgreementK).Pascal < AtmospherePa && !(VapourPressure.At(substance, boilingK + AgreementK).Pascal <= AtmospherePa))
            {
                return;
            }
        }

        faults.Add(draft.Best(Quantity.BoilingPoint)!.Row.Fault(
            ValueRows.Value,
            $"the boiling point of {draft.Identity.Name} and its preferred vapour pressure ({substance.VapourPressure[0].Source}) differ by more than 2 K; prefer another correlation or mend the value"));
    }
}
