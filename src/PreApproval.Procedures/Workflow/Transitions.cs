namespace PreApproval.Procedures.Workflow;

/// <summary>What moves a revision from one state to another.</summary>
public enum WorkflowAction
{
    /// <summary>A screening without a flag.</summary>
    Clear,

    /// <summary>A flagged screening, or a revision after one that was sent back, goes to named persons.</summary>
    Route,

    /// <summary>One slot was approved and others still wait: the state stays.</summary>
    ApproveSlot,

    /// <summary>The last slot was approved.</summary>
    Approve,

    RequestChanges,

    Decline,

    /// <summary>The author takes it back.</summary>
    Withdraw,

    /// <summary>A later revision of the same procedure was cleared or approved.</summary>
    Supersede,

    /// <summary>Its time ran out.</summary>
    Expire,

    /// <summary>A near miss, an incident, an overdue inspection or a worse screening.</summary>
    Suspend,
}

/// <summary>
/// The one table of transitions of a revision. The state before a first submission is <see cref="ProcedureState.Draft"/>;
/// <c>submitted</c> is an event that passes at once and no state.
/// </summary>
public static class Transitions
{
    /// <summary>The state after the action, or null when the state does not allow it.</summary>
    public static ProcedureState? Next(ProcedureState from, WorkflowAction action) => action switch
    {
        WorkflowAction.Clear => from is ProcedureState.Draft ? ProcedureState.Cleared : null,
        WorkflowAction.Route => from is ProcedureState.Draft ? ProcedureState.InReview : null,
        WorkflowAction.ApproveSlot => from is ProcedureState.InReview ? ProcedureState.InReview : null,
        WorkflowAction.Approve => from is ProcedureState.InReview ? ProcedureState.Approved : null,
        WorkflowAction.RequestChanges => from is ProcedureState.InReview ? ProcedureState.ChangesRequested : null,
        WorkflowAction.Decline => from is ProcedureState.InReview ? ProcedureState.Declined : null,
        WorkflowAction.Withdraw => from is ProcedureState.InReview or ProcedureState.Cleared ? ProcedureState.Withdrawn : null,
        WorkflowAction.Supersede => IsRunnable(from) ? ProcedureState.Superseded : null,
        WorkflowAction.Expire => IsRunnable(from) ? ProcedureState.Expired : null,
        WorkflowAction.Suspend => IsRunnable(from) ? ProcedureState.Suspended : null,
    };

    /// <summary>True when work may start under a revision of this state.</summary>
    public static bool IsRunnable(ProcedureState state) => state is ProcedureState.Cleared or ProcedureState.Approved;
}
