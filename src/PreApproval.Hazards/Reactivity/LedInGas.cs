using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// Gas that a step leads into an open vessel: all of it may leave again. Only what declared reactions of the step use up is taken off; what dissolves or reacts
/// undeclared is not, and a balloon keeps its gas until it is opened. What is entered as a solvent or as a quench is not led in. docs/methods/gas.md.
/// </summary>
internal static class LedInGas
{
    /// <summary>Vapour pressure in Pa up to which a gas condenses in the cold vessel for the most part: half an atmosphere. Common practice, no source.</summary>
    private const double CondensesUpToPa = AtmospherePa / 2;

    /// <summary>What a step leads in; empty in a closed vessel.</summary>
    public static IReadOnlyList<OpenGas> Of(StepState state, ScreeningContext context)
    {
        if (state.Sealed || state.Additions.Count == 0)
        {
            return [];
        }

        List<OpenGas>? gases = null;
        for (var index = 0; index < state.Additions.Count; index++)
        {
            var addition = state.Additions[index];
            if (Brought(addition, context) is { Role: not (Role.Quench or Role.Solvent) } material && HoldsGas(state, addition))
            {
                Add(gases ??= [], addition, material, state);
            }
        }

        return gases ?? [];
    }

    private static Material? Brought(Addition addition, ScreeningContext context)
    {
        for (var index = 0; index < context.Plan.Materials.Count; index++)
        {
            if (string.Equals(context.Plan.Materials[index].Id, addition.MaterialId, StringComparison.Ordinal))
            {
                return context.Plan.Materials[index];
            }
        }

        return null;
    }

    /// <summary>False, at little cost, for the usual addition, which holds no gas at all.</summary>
    private static bool HoldsGas(StepState state, Addition addition)
    {
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index] is { Spent: false, Substance.Known.PhaseAt298K: Phase.Gas } content && string.Equals(content.MaterialId, addition.MaterialId, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static void Add(List<OpenGas> gases, Addition addition, Material material, StepState state)
    {
        var parts = state.Contents.Where(content => !content.Spent && string.Equals(content.MaterialId, addition.MaterialId, StringComparison.Ordinal)).ToArray();
        if (!Array.TrueForAll(parts, part => IsLedIn(part, state, material)))
        {
            return;
        }

        var all = parts.Aggregate((double?)0, static (sum, part) => sum + part.Mol);
        foreach (var part in parts)
        {
            var added = parts.Length == 1 ? addition.Mol : addition.Mol * part.Mol / all;
            gases.Add(new OpenGas(part.Substance.Name, part.Substance.Known, Math.Max(0, (added - UsedUp(part, state)) ?? double.NaN) is var left && !double.IsNaN(left) ? left : null, "what is led in", [addition.MaterialId]) { IsLedIn = true });
        }
    }

    /// <summary>True for a gas that stays one at the temperature of the contents and that no balloon holds back.</summary>
    private static bool IsLedIn(Content content, StepState state, Material material) =>
        content is { Substance.Known: { PhaseAt298K: Phase.Gas } gas }
        && (content.MassFraction is not < 1 || IsMixtureOfGases(material))
        && VapourPressure.At(gas, state.TemperatureK) is not { Volatility: Volatility.Condensable, Pascal: <= CondensesUpToPa }
        && !(state is { Vent: Closure.Balloon, Headspace: Headspace.Gas { Substance: var over } } && string.Equals(over.Key, content.Substance.Key, StringComparison.Ordinal));

    private static bool IsMixtureOfGases(Material material) =>
        material.Composition is Composition.Mixture mixture && mixture.Parts.All(static part => part.Substance.Known?.PhaseAt298K == Phase.Gas);

    /// <summary>What the declared reactions of the step take up, in mol.</summary>
    private static double UsedUp(Content content, StepState state) =>
        state.Reactions.Count == 0
            ? 0
            : Math.Max(0, (content.Mol - state.Remaining.Where(left => string.Equals(left.MaterialId, content.MaterialId, StringComparison.Ordinal) && string.Equals(left.Substance.Key, content.Substance.Key, StringComparison.Ordinal)).Sum(static left => left.Mol ?? 0)) ?? 0);
}
