namespace PreApproval.Procedures.Workflow;

/// <summary>States of a revision. A draft is a row of its own, <see cref="Draft"/> is the state of a procedure without revisions.</summary>
public enum ProcedureState
{
    Draft,
    Cleared,
    InReview,
    Approved,
    ChangesRequested,
    Declined,
    Withdrawn,
    Expired,
    Superseded,
    Suspended,
}

public enum DecisionKind
{
    Approve,
    RequestChanges,
    Decline,
}

/// <summary>How a reviewer answers one finding.</summary>
public enum AnswerKind
{
    Accept,
    Condition,
    SendBack,
}
