using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Reactivity;

/// <summary>What an oxidising salt can burn: perchlorates of the alkali and alkaline earth metals keep by themselves, and are dried and regenerated hot every day; what explodes is the mixture with a fuel. From memory (Bretherick's Handbook).</summary>
internal static class Fuel
{
    /// <summary>Elements of which nothing burns in an oxide, a halide or an oxyanion.</summary>
    private static readonly FrozenSet<string> Spent = new[] { "Li", "Na", "K", "Rb", "Cs", "Mg", "Ca", "Sr", "Ba", "Al", "Si", "O", "H", "F", "Cl", "Br" }.ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Oxygen or a halogen has them already.</summary>
    private static readonly string[] Takers = ["O", "F", "Cl", "Br"];

    /// <summary>True where the salt brings its own fuel (ammonium, amines, sensitive metals), or something that may burn shares the vessel; what nobody knows may.</summary>
    public static bool IsThere(IReadOnlyList<Content> salt, StepState state)
    {
        for (var index = 0; index < salt.Count; index++)
        {
            if (Burns(salt[index].Substance))
            {
                return true;
            }
        }

        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index] is { Spent: false, Mol: null or > 0 } content && Burns(content.Substance))
            {
                return true;
            }
        }

        return state.Headspace is Headspace.Gas gas && gas.Substance.Known?.Identity.Formula is "H2" or "CO";
    }

    private static bool Burns(PlanSubstance substance) =>
        substance.Known is not { Identity.Formula: { } formula } || Formula.Atoms(formula) is not { } atoms || !atoms.Keys.All(Spent.Contains) || !Takers.Any(atoms.ContainsKey);
}
