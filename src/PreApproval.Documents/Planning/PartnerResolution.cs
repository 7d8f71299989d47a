using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Planning;

/// <summary>
/// Finds who may meet whom by a word: a CAS number, a name, a SMILES, a named solution (with everything in the bottle), air, or
/// what a vessel is made of.
/// </summary>
public static class PartnerResolution
{
    /// <summary>Words that stand for no substance.</summary>
    public static IReadOnlyList<string> Surroundings { get; } = [EncounterTable.Air, .. EncounterTable.Construction];

    /// <summary>Null: nobody knows the word.</summary>
    public static PairPartner? Find(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        string text = word.Trim();
        if (string.Equals(text, "brass", StringComparison.OrdinalIgnoreCase))
        {
            return new PairPartner(EncounterTable.CopperAlloy, [EncounterTable.CopperAlloy]);
        }

        if (Surroundings.FirstOrDefault(name => string.Equals(name, text, StringComparison.OrdinalIgnoreCase)) is { } surrounding)
        {
            return new PairPartner(surrounding, [surrounding]);
        }

        if (SubstanceResolution.Resolve(text, Catalog.Default) is { Known: not null } named)
        {
            return new PairPartner(named.Name, FamilyTable.Default.Of(named));
        }

        if (Catalog.Default.TryFindBySmiles(text, out Substance? drawn))
        {
            return new PairPartner(drawn.Identity.Name, FamilyTable.Default.Of(new PlanSubstance(drawn.Key, drawn.Identity.Name, drawn)));
        }

        if (SolutionCatalog.Default.TryFindByCas(text, out NamedSolution? solution) || SolutionCatalog.Default.TryFind(text, out solution))
        {
            return new PairPartner(solution.Name, FamilyTable.Default.Of(new PlanSubstance(solution.Name, text, null))) { IsCryogenic = solution.DensityTemperatureK < PairAssessment.CryogenicK };
        }

        // what nobody lists may still show what it is in its structure
        IReadOnlyList<string> signs = FamilyTable.Default.Of(new PlanSubstance(text, text, null, text));
        return signs.Count > 0 ? new PairPartner(text, signs) : null;
    }
}
