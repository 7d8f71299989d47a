using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Exposure;

/// <summary>
/// Partial pressure of a gas over its solution in water, as it stands in a vessel: hydrochloric and hydrofluoric acid, aqueous ammonia. From <see cref="SolutionVapour"/>; docs/methods/airborne.md.
/// </summary>
internal static class DissolvedGas
{
    private static readonly string[] Acids = ["mineral acids", "organic acids", "concentrated sulfuric and superacids", "ammonium salts"];

    private static readonly string[] Bases = ["amines", "alkali hydroxides", "carbonates", "ammonia", "fluoride salts"];

    /// <summary>Partial pressure in Pa; null where the gas did not come as a solution in water, nothing is on file, or an amount that decides is not known.</summary>
    public static double? Pa(StepState state, Content gas)
    {
        if (gas is not { Spent: false, MassFraction: < 1 and var strength, Substance.Known: { PhaseAt298K: Phase.Gas, Key: var key } known } || !SolutionVapour.HasAqueous(key))
        {
            return null;
        }

        double? solute = 0;
        double? water = 0;
        double? bound = 0;
        var mine = false;
        var isAcid = IsAny(gas, Acids);
        var isBase = IsAny(gas, Bases);
        for (var index = 0; index < state.Contents.Count; index++)
        {
            var other = state.Contents[index];
            if (other.Spent)
            {
                continue;
            }

            if (string.Equals(other.Substance.Key, key, StringComparison.Ordinal))
            {
                solute += other.Mol;
            }
            else if (other.Substance.Key is SolutionVapour.Water)
            {
                water += other.Mol;
                mine |= string.Equals(other.MaterialId, gas.MaterialId, StringComparison.Ordinal);
            }
            else if (isAcid ? IsAny(other, Bases) : isBase && IsAny(other, Acids))
            {
                // acid and base bind each other; of what has two, both count
                bound += other.Mol * Equivalents(other, isAcid ? Bases : Acids);
            }
        }

        if (!mine || bound is not { } taken)
        {
            return null;
        }

        if (solute is { } mol && water is > 0 and var diluted)
        {
            return mol <= taken ? 0 : SolutionVapour.Aqueous(known, mol - taken, diluted, state.TemperatureK)?.SolutePa;
        }

        // the amount is not known, the strength on the bottle is
        return taken > 0 || known.Identity.MolarMassKgPerMol is not { } molarMass ? null : SolutionVapour.Aqueous(known, strength / molarMass, (1 - strength) / WaterKgPerMol, state.TemperatureK)?.SolutePa;
    }

    private const double WaterKgPerMol = 0.018015;

    private static bool IsAny(Content content, string[] families)
    {
        var own = FamilyTable.Default.Of(content.Substance, content.MassFraction);
        for (var index = 0; index < own.Count; index++)
        {
            if (Array.IndexOf(families, own[index]) >= 0)
            {
                return true;
            }
        }

        return false;
    }

    private static double Equivalents(Content content, string[] families)
    {
        double most = 1;
        foreach (var family in families)
        {
            most = Math.Max(most, FamilyTable.Default.Equivalents(content.Substance, family));
        }

        return most;
    }
}
