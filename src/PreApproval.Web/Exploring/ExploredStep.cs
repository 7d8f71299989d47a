using PreApproval.Hazards.Plans;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>A step that can be explored: its vessel is closed or heated.</summary>
/// <param name="Index">Place of the step in the document.</param>
/// <param name="StepId">Its identifier.</param>
/// <param name="VesselId">Its vessel.</param>
/// <param name="VesselIndex">Place of the vessel in the document, which stays where its short name changes.</param>
/// <param name="Words">For the list of steps.</param>
public sealed record ExploredStep(int Index, string StepId, string VesselId, int VesselIndex, string Words)
{
    /// <summary>Names it in addresses; a transfer has two vessels.</summary>
    public string Key => $"{StepId}/{VesselId}";

    public static ExploredStep Of(StepState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        string action = state.Step.Action.ToString().ToLowerInvariant();
        return new ExploredStep(state.Index, state.Step.Id, state.Vessel.Id, state.VesselIndex,
            $"Step {state.Step.Id}: {action} {state.Vessel.Id}, {(state.Sealed ? "closed" : "open")}, {ExplorerWords.Celsius(state.TemperatureK)}");
    }

    /// <summary>The step of a key or an identifier; else the closed one that is hottest, else the hottest; null: there is none.</summary>
    public static ExploredStep? Find(IReadOnlyList<StepState> states, string? asked)
    {
        ArgumentNullException.ThrowIfNull(states);
        StepState? found = states.FirstOrDefault(s => string.Equals(Of(s).Key, asked, StringComparison.Ordinal))
            ?? states.FirstOrDefault(s => string.Equals(s.Step.Id, asked, StringComparison.Ordinal))

            // The vessel has another short name since.
            ?? states.FirstOrDefault(s => asked?.StartsWith(s.Step.Id + "/", StringComparison.Ordinal) == true)
            ?? states.OrderByDescending(static s => s.Sealed).ThenByDescending(static s => s.TemperatureK).FirstOrDefault();
        return found is null ? null : Of(found);
    }
}
