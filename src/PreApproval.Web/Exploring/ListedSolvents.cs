using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using PreApproval.Web.Catalogue;

namespace PreApproval.Web.Exploring;

/// <summary>A liquid of the vessel that can be exchanged for the same volume of another.</summary>
/// <param name="Material">Index of the material in the document.</param>
/// <param name="Id">Its short name.</param>
/// <param name="Substance">The liquid.</param>
/// <param name="IsSolventOfSolution">True where the material is a solution and its solvent is exchanged.</param>
/// <param name="Mol">What of it is in the vessel.</param>
public sealed record ExchangeableLiquid(int Material, string Id, Substance Substance, bool IsSolventOfSolution, double Mol);

/// <summary>What may be exchanged for what: liquids for which pressure, flash point and volume can be computed.</summary>
public static class ListedSolvents
{
    /// <summary>All of the catalogue, by name.</summary>
    public static IReadOnlyList<Substance> All { get; } =
        [.. Catalog.Default.Substances.Where(IsListed).OrderBy(static s => s.Identity.Name, StringComparer.OrdinalIgnoreCase)];

    /// <summary>A liquid at 25 °C with vapour pressure, density, molar mass and, where it burns, flash point and autoignition temperature.</summary>
    public static bool IsListed(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return substance is { PhaseAt298K: Phase.Liquid, Involatile: false, DensityKgPerM3: not null, VapourPressure.Count: > 0, UnifacGroups: not null, Identity.MolarMassKgPerMol: > 0 }
            && (substance is { NonFlammable.Value: true } or { FlashPointK: not null, AutoignitionK: not null });
    }

    /// <summary>The listed solvent that a name or a CAS number means; null: none.</summary>
    public static Substance? Find(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        return SubstanceCard.Find(typed.Trim()) is { } found && IsListed(found) ? found : null;
    }

    /// <summary>Listed solvents that fit what was typed, best first.</summary>
    public static IReadOnlyList<Substance> Search(string typed, int most) =>
        [.. SubstanceSearch.Search(typed, 4 * most, []).Where(static f => f.Solution is null).Select(static f => SubstanceCard.Find(f.Key)).OfType<Substance>().Where(IsListed).Take(most)];

    /// <summary>The liquids of the step that a single material brings, the largest volume first, solvents before others.</summary>
    public static IReadOnlyList<ExchangeableLiquid> In(Plan plan, StepState state)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(state);
        List<(ExchangeableLiquid Liquid, bool IsSolvent)> found = [];
        for (int i = 0; i < plan.Materials.Count; i++)
        {
            Material material = plan.Materials[i];
            (Substance? liquid, bool isSolution) = material.Composition switch
            {
                Composition.Pure pure => (pure.Substance.Known, false),
                Composition.Solution solution when material.ReadAs is null => (solution.Solvent.Known, true),
                _ => (null, false),
            };
            if (liquid is not { PhaseAt298K: Phase.Liquid, DensityKgPerM3: not null, Identity.MolarMassKgPerMol: > 0 })
            {
                continue;
            }

            double mol = state.Contents
                .Where(c => string.Equals(c.MaterialId, material.Id, StringComparison.Ordinal) && string.Equals(c.Substance.Known?.Key, liquid.Key, StringComparison.Ordinal))
                .Sum(static c => c.Mol ?? 0);
            if (mol > 0)
            {
                found.Add((new ExchangeableLiquid(i, material.Id, liquid, isSolution, mol), material.Role == Role.Solvent));
            }
        }

        return [.. found.OrderByDescending(static f => f.IsSolvent)
            .ThenByDescending(static f => f.Liquid.Mol * f.Liquid.Substance.Identity.MolarMassKgPerMol / f.Liquid.Substance.DensityKgPerM3!.Value)
            .Select(static f => f.Liquid)];
    }
}
