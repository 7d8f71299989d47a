using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Screening;

/// <summary>One kind of check over a plan that has been followed step by step.</summary>
public interface IScreen
{
    /// <summary>What it finds, in any order.</summary>
    IEnumerable<Finding> Find(ScreeningContext context);
}

/// <summary>A check that looks at the plan and at what the other checks found.</summary>
public interface IFollowUpScreen
{
    /// <summary>What it finds, in any order.</summary>
    IEnumerable<Finding> Find(ScreeningContext context, IReadOnlyList<Finding> findings);
}

/// <summary>What every check reads. Not shared between threads.</summary>
public sealed class ScreeningContext(Plan plan, Policy policy, WalkResult walk)
{
    private readonly Dictionary<StepState, ClosedAssessment?> closed = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, ClosedAssessment> latest = new(StringComparer.Ordinal);
    private JudgedSafeguard[]? safeguards;
    private (string Container, Content[] Contents)[]? wasteContainers;
    private IReadOnlyList<Happening>? happenings;

    public Plan Plan { get; } = plan;

    public Policy Policy { get; } = policy;

    public WalkResult Walk { get; } = walk;

    /// <summary>True while a change is tried: a screen then offers no changes of its own.</summary>
    internal bool IsTrial { get; init; }

    /// <summary>The safeguards of the plan, each judged once.</summary>
    internal IReadOnlyList<JudgedSafeguard> Safeguards => safeguards ??= [.. Plan.Safeguards.Select(JudgedSafeguard.Of)];

    /// <summary>What each waste container gets, worked out once.</summary>
    internal IReadOnlyList<(string Container, Content[] Contents)> WasteContainers => wasteContainers ??= [.. ReactivityScreen.ContainersOf(this)];

    /// <summary>Every encounter in the vessels, in the order of the steps, found once.</summary>
    internal IReadOnlyList<Happening> Happenings => happenings ??= Reactivity.Happenings.Of(Walk, Plan);

    /// <summary>What is shut in at a step, where it has been looked at already.</summary>
    internal SealedCharge? ChargeOf(StepState state) => closed.GetValueOrDefault(state)?.Charge;

    /// <summary>The closed vessel at a step, computed once; null when open or when its volume is not known.</summary>
    internal ClosedAssessment? Closed(StepState state)
    {
        if (!state.Sealed)
        {
            return null;
        }

        if (!closed.TryGetValue(state, out var assessment))
        {
            assessment = ClosedAssessment.Of(state, latest.GetValueOrDefault(state.Vessel.Id));
            if (assessment is not null)
            {
                latest[state.Vessel.Id] = assessment;
            }

            closed[state] = assessment;
        }

        return assessment;
    }
}
