using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>An encounter that still happens at a step, with its severity there.</summary>
/// <param name="State">Step and vessel.</param>
/// <param name="Meeting">Who meets whom.</param>
/// <param name="Severity">As planned.</param>
/// <param name="Because">What lowered or raised it, in words.</param>
/// <param name="IsNews">False when the same partners were told before and matters are no worse.</param>
internal sealed record Happening(StepState State, Meeting Meeting, Severity Severity, IReadOnlyList<string> Because, bool IsNews);

/// <summary>Every encounter of a plan in the order of its steps, without those whose partners have reacted away.</summary>
internal static class Happenings
{
    public static IReadOnlyList<Happening> Of(WalkResult walk, Plan plan)
    {
        var histories = new VesselHistories([.. plan.Materials.Where(static material => material.Role == Role.Catalyst).Select(static material => material.Id)]);
        var all = new List<Happening>();
        foreach (var state in walk.States)
        {
            var history = histories.At(state);
            var meetings = state.Meetings;
            foreach (var meeting in meetings)
            {
                if (history.StillHappens(meeting))
                {
                    var (severity, because) = MeetingSeverity.Of(meeting, state, history.WasDosedCold(meeting, state));
                    all.Add(new Happening(state, meeting, severity, because, history.IsNews(meeting, severity, state)));
                }
            }

            history.Close(state, meetings);
        }

        return all;
    }
}
