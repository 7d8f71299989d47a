using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// A gas that encounters make in a closed vessel condenses at its own vapour pressure (nitrogen dioxide near 21 °C and 1 bar): no more of it presses. Up to the worst credible temperature;
/// what the heat of the reaction adds to that is not in it. docs/methods/pressure-screen.md.
/// </summary>
internal static class CondensableGas
{
    /// <summary>What does not press, in mol, and words for a sentence; zero and empty where nothing condenses.</summary>
    /// <param name="state">The closed step.</param>
    /// <param name="roomM3">Room over the contents in m³.</param>
    public static (double Mol, string Words) Condensed(StepState state, double roomM3)
    {
        var (condensed, words) = (0.0, new List<string>());
        foreach (var group in GasEvolution.UndeclaredMeetings(state)
            .Where(static entry => entry.Mol is > 0)
            .SelectMany(static entry => entry.Meeting.Encounter.Gases.Select(share => (Gas: OpenGas.Known(share.Name, entry.Meeting), Mol: entry.Mol!.Value * share.MolPerEquivalent / entry.Meeting.Encounter.GasPerEquivalent)))
            .Where(static made => made.Gas is not null)
            .GroupBy(static made => made.Gas!.Key, StringComparer.Ordinal)
            .OrderBy(static group => group.Key, StringComparer.Ordinal))
        {
            var gas = group.First().Gas!;
            if (VapourPressure.At(gas, state.WorstTemperatureK) is { Volatility: Volatility.Condensable, Pascal: var pascal }
                && group.Sum(static made => made.Mol) - (pascal * roomM3 / (GasConstant * state.WorstTemperatureK)) is > 0 and var liquid)
            {
                condensed += liquid;
                words.Add($"{gas.Identity.Name} counts up to its vapour pressure of {Wording.Figures(pascal / PascalPerBar)} bar at {Wording.Celsius(state.WorstTemperatureK)}, above which it condenses as long as heat does not drive it off");
            }
        }

        return (condensed, Wording.List(words));
    }

    private const double PascalPerBar = 1e5;
}
