using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Gas that encounters make in a closed vessel although the plan does not declare it.</summary>
/// <param name="Mol">Amount in mol; null when it cannot be had.</param>
/// <param name="Words">For a sentence, for instance <c>hydrogen from sodium hydride and water, which the plan does not declare</c>.</param>
internal sealed record UndeclaredGas(double? Mol, string Words);

internal static class GasEvolution
{
    /// <summary>
    /// Undeclared gas up to the limiting amount; null when the vessel is open, when nothing gasses, or when the plan
    /// declares gas for this closed period itself.
    /// </summary>
    public static UndeclaredGas? Undeclared(StepState state)
    {
        if (state.Closing is null || state.GasEvolvedMol is not 0)
        {
            return null;
        }

        var gassing = Meeting.At(state).Where(static meeting => meeting.Encounter.Gas is not null).ToArray();
        if (gassing.Length == 0)
        {
            return null;
        }

        // one partner can lose its gas only once, whoever it meets
        var strongest = gassing.GroupBy(static meeting => meeting.A.Count > 0 ? meeting.A[0].Substance.Key : meeting.Encounter.A, StringComparer.Ordinal)
            .Select(static group => group.MaxBy(static meeting => (meeting.GasMol ?? double.MaxValue, meeting.Encounter.Key))!)
            .ToArray();
        var mol = Array.Exists(strongest, static meeting => meeting.GasMol is null)
            ? null
            : (double?)strongest.Sum(static meeting => meeting.GasMol!.Value);
        var words = strongest.Select(static meeting => $"{meeting.Encounter.Gas} from {meeting.A[0].Substance.Name} and {meeting.B[0].Substance.Name}");
        return new UndeclaredGas(mol, $"{Screening.Wording.List(words)}, which the plan does not declare");
    }
}
