using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

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

    /// <summary>
    /// Signs in a SMILES as typed that something may decompose, react with water or polymerise: nitrogen to nitrogen and
    /// to oxygen, peroxides, nitro groups, nitrogen to halogen, alkynes, metals, halides of phosphorus, sulfur, silicon
    /// and boron, three-membered rings, isolated charges.
    /// </summary>
    private static readonly string[] ReactiveSigns =
    [
        "NN", "N=N", "N#N", "nn", "[N+]", "[N-]", "[n+]", "NO", "N=O", "ON", "On", "no", "on", "OO", "NCl", "NBr", "NI", "ClN", "BrN", "OCl", "ClO", "OBr", "BrO", "C#C", "S(=O)(=O)Cl", "C(Cl)=O", "C(=O)Cl", "ClC(=O)", "C(Br)=O", "C(=O)Br", "BrC(=O)",
        "[Li", "[Na", "[K", "[Mg", "[Al", "[Zn", "[Cu", "[Ag", "[Hg", "[Pb", "[H-", "[B", "[P", "[Si](Cl", "[SiH", "Cl[Si", "PCl", "ClP", "SCl", "ClS", "BCl", "N=C=O", "N=C=S", "C=C=O", "C1CO1", "C1OC1", "O1CC1", "C1NC1", "C1CN1", "[C-", "[c-", "C=CC=C",
    ];

    /// <summary>Signs of energetic groups, which the energetic screen judges by number where it reads the structure.</summary>
    private static readonly string[] EnergeticSigns = ["NN", "N=N", "N#N", "nn", "[N+]", "[N-]", "NO", "N=O", "ON", "On", "no", "on", "OO"];

    /// <summary>An alkene at the end of a chain may polymerise; inside a chain it rarely does.</summary>
    private static bool IsTerminalAlkene(string smiles) => smiles.StartsWith("C=C", StringComparison.Ordinal) || smiles.EndsWith("C=C", StringComparison.Ordinal) || smiles.Contains("(C=C)", StringComparison.Ordinal);

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var unknown = context.Plan.Materials
            .SelectMany(static material => AmountConversion.Parts(material.Composition).Select(part => (Material: material, part.Substance)))
            .Where(static pair => pair.Substance.Known is null)
            .ToArray();
        foreach (var group in unknown.GroupBy(static pair => pair.Substance.Key, StringComparer.Ordinal))
        {
            yield return Unknown(group.First().Substance, [.. group.Select(static pair => pair.Material)], context);
        }

        var unassessed = context.Plan.Materials
            .Where(static material => AmountConversion.Parts(material.Composition).Any(static part => part.Substance.Known is not null && FamilyTable.Default.Of(part.Substance).Count == 0))
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

    private static Finding Unknown(PlanSubstance substance, Material[] materials, ScreeningContext context)
    {
        var ids = materials.Select(static material => material.Id).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToArray();
        var states = context.Walk.States.Where(state => state.Contents.Any(content => string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal))).ToArray();
        var product = Array.TrueForAll(materials, static material => material.Role == Role.Product);
        var hazardous = states.Where(state => IsHazardous(state, substance, product)).ToArray();
        var undone = hazardous.Length > 0 || (substance.Smiles is null && !product && FamilyTable.Default.Of(substance).Count == 0);
        var advice = SolutionCatalog.Default.TryFind(substance.Name, out var solution) ? $" It names a solution or a mixture ({solution.Contents}), which cannot stand for one substance here: name its parts." : "";
        var where = hazardous.Length > 0 ? $" in {Wording.Steps([.. hazardous.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)])}" : "";
        return new Finding
        {
            Code = "data.unknown-substance",
            Hazard = Hazard.Data,
            Severity = undone ? Severity.Caution : Severity.Notice,
            Steps = [.. states.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
            Materials = ids,
            Statement = $"{Wording.Capital(substance.Name)} is not in the catalogue{(substance.Smiles is null ? " and has no structure" : "")}: its fire, vapour pressure and reactivity cannot be assessed{where}.{advice}",
            LeavesCheckUndone = undone,
        };
    }

    /// <summary>
    /// A solute with a structure that shows no reactive sign, or the product of the plan, may be warmed in an open vessel;
    /// hotter, shut in or beside something reactive it is not assessed.
    /// </summary>
    private static bool IsHazardous(StepState state, PlanSubstance substance, bool product) =>
        (state.Heated && (state.Sealed || HottestK(state) > HotK || !IsQuiet(state, substance, product)))
        || (state.Sealed && state.HeatedOrGassingSinceClosing)
        || (!HasFamiliesByStructure(substance) && state.Contents.Any(content => !content.Spent && !string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal)
            && content.Substance.Known is not { PhaseAt298K: Phase.Gas, NonFlammable.Value: true }
            && FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(FamilyTable.Default.IsReactive)));

    /// <summary>A readable structure has been held against the families and the table of encounters like a listed substance.</summary>
    private static bool HasFamiliesByStructure(PlanSubstance substance) => substance.Smiles is { } smiles && SmilesReader.TryRead(smiles, out _, out _);

    /// <summary>Contents of an open vessel get no hotter than their highest boiling liquid boils, whatever the surface under it, in K.</summary>
    private static double HottestK(StepState state) => state.Sealed
        ? state.WorstTemperatureK
        : Math.Min(state.WorstTemperatureK, state.Contents.Max(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid } liquid ? liquid.BoilingPointK?.Value ?? double.PositiveInfinity : (double?)null) ?? double.PositiveInfinity);

    /// <summary>Dissolved in something known, and either the product or of a structure without a reactive sign.</summary>
    private static bool IsQuiet(StepState state, PlanSubstance substance, bool product) =>
        (product || (substance.Smiles is { } smiles && !Array.Exists(Energy.EnergeticProfile.Of(substance) is { FromStructure: true } ? [.. ReactiveSigns.Except(EnergeticSigns, StringComparer.Ordinal)] : ReactiveSigns, sign => smiles.Contains(sign, StringComparison.Ordinal)) && !IsTerminalAlkene(smiles)))
        && !FamilyTable.Default.Of(substance).Any(FamilyTable.Default.IsReactive)
        && state.Contents.Any(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid });
}
