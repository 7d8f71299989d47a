using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Screening;

/// <summary>
/// Substances nobody knows. A reagent without catalogue entry and without structure cannot be assessed and goes to review;
/// one with a structure goes there when it is heated beyond 150 °C, shut in and heated, warmed with a reactive sign in its
/// structure, or shares a vessel with a reactive family.
/// </summary>
public sealed class UnknownSubstanceScreen : IScreen
{
    /// <summary>Up to here a quiet solute may be heated in the open, in K (150 °C). Common practice, no source.</summary>
    private const double HotK = 423.15;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var unknown = context.Plan.Materials
            .Where(static material => Holds(material, static substance => substance.Known is null))
            .SelectMany(static material => AmountConversion.Parts(material.Composition).Select(part => (Material: material, part.Substance)))
            .Where(static pair => pair.Substance.Known is null)
            .ToArray();
        foreach (var group in unknown.GroupBy(static pair => pair.Substance.Key, StringComparer.Ordinal))
        {
            yield return Unknown(group.First().Substance, [.. group.Select(static pair => pair.Material)], context);
        }

        foreach (var contradiction in StructureContradictions.Find(context))
        {
            yield return contradiction;
        }

        var unassessed = context.Plan.Materials
            .Where(static material => Holds(material, static substance => substance.Known is not null && FamilyTable.Default.Of(substance).Count == 0))
            .Select(static material => material.Id)
            .Order(StringComparer.Ordinal)
            .ToArray();
        if (unassessed.Length > 0)
        {
            yield return new Finding
            {
                Code = "data.encounters-not-assessed",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Materials = unassessed,
                Statement = $"What {Wording.List(unassessed.Select(static id => $"“{id}”"))} may do to other materials is not assessed; not assessed does not mean compatible.",
            };
        }
    }

    private static bool Holds(Material material, Func<PlanSubstance, bool> which)
    {
        var parts = AmountConversion.Parts(material.Composition);
        for (var index = 0; index < parts.Count; index++)
        {
            if (which(parts[index].Substance))
            {
                return true;
            }
        }

        return false;
    }

    private static Finding Unknown(PlanSubstance substance, Material[] materials, ScreeningContext context)
    {
        var ids = materials.Select(static material => material.Id).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToArray();
        var states = context.Walk.States.Where(state => state.Contents.Any(content => string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal))).ToArray();
        var product = Array.TrueForAll(materials, static material => material.Role == Role.Product);
        var hazardous = states.Where(state => IsHazardous(state, substance, product, context)).ToArray();
        var undone = hazardous.Length > 0 || (substance.Structure?.Molecule is null && !product && FamilyTable.Default.Of(substance).Count == 0);
        var advice = SolutionCatalog.Default.TryFind(substance.Name, out var solution) ? $" It names a solution or a mixture ({solution.Contents}), which cannot stand for one substance here: name its parts." : "";
        var where = hazardous.Length > 0 ? $" in {Wording.Steps([.. hazardous.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)])}" : "";
        return new Finding
        {
            Code = "data.unknown-substance",
            Hazard = Hazard.Data,
            Severity = undone ? Severity.Caution : Severity.Notice,
            Steps = [.. states.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
            Materials = ids,
            Statement = $"{Wording.Capital(substance.Name)} is not in the catalogue{UnknownSubstanceWords.Because(substance)}: {UnknownSubstanceWords.NotAssessed(substance)} cannot be assessed{where}.{UnknownSubstanceWords.FromStructure(substance)}{advice}",
            Evidence = UnknownSubstanceWords.Evidence(substance),
            LeavesCheckUndone = undone,
        };
    }

    /// <summary>
    /// A solute with a structure that shows no reactive sign, or the product of the plan, may be warmed in an open vessel;
    /// hotter, shut in or beside something reactive it is not assessed.
    /// </summary>
    private static bool IsHazardous(StepState state, PlanSubstance substance, bool product, ScreeningContext context) =>
        (state.Heated && (HottestK(state) > HotK || !IsQuiet(state, substance, product)))
        || (state.Sealed && (state.Heated || state.HeatedOrGassingSinceClosing) && !IsBounded(state, context))
        || (!HasFamiliesByStructure(substance) && state.Contents.Any(content => !content.Spent && !string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal)
            && content.Substance.Known is not { PhaseAt298K: Phase.Gas, NonFlammable.Value: true }
            && FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(FamilyTable.Default.IsReactive)));

    /// <summary>True where the pressure stays below a warning even with all of it as gas.</summary>
    private static bool IsBounded(StepState state, ScreeningContext context) =>
        context.Closed(state) is { } closed && UnlistedBound.Of(closed, GoverningRating.For(state), context.Policy) is not null;

    /// <summary>A readable structure has been held against the families and the table of encounters like a listed substance.</summary>
    private static bool HasFamiliesByStructure(PlanSubstance substance) => substance.Structure?.Molecule is not null;

    /// <summary>Contents of an open vessel get no hotter than their highest boiling liquid boils, whatever the surface under it, in K.</summary>
    private static double HottestK(StepState state) => state.Sealed
        ? state.WorstTemperatureK
        : Math.Min(state.WorstTemperatureK, state.Contents.Max(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid } liquid ? liquid.BoilingPointK?.Value ?? double.PositiveInfinity : (double?)null) ?? double.PositiveInfinity);

    /// <summary>What a nitro or azide group shows as well.</summary>
    private static readonly string[] SignsOfEnergeticGroups = ["nitrogen bound to nitrogen or oxygen", "charged atom"];

    /// <summary>Energetic groups of the structure with a heat and an onset on file, which the energetic screen judges by number, and what shows with them.</summary>
    private static IEnumerable<string> JudgedByNumber(PlanSubstance substance)
    {
        var judged = EnergeticProfile.Of(substance) is { FromStructure: true, HighJPerKg: not null } profile
            ? profile.Groups.Where(static one => one.Group.HasFigures).Select(static one => one.Group.Name).ToArray()
            : [];
        return judged.Length == 0 ? [] : judged.Concat(SignsOfEnergeticGroups);
    }

    /// <summary>Dissolved in something known, and either the product or of a structure without a reactive sign.</summary>
    private static bool IsQuiet(StepState state, PlanSubstance substance, bool product) =>
        (product || (substance.Structure?.Groups is { } groups && !groups.ReactiveSigns.Except(JudgedByNumber(substance), StringComparer.Ordinal).Any()))
        && !FamilyTable.Default.Of(substance).Any(FamilyTable.Default.IsReactive)
        && state.Contents.Any(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid });
}
