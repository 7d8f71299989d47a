using PreApproval.Documents;
using PreApproval.Hazards.Screening;

namespace PreApproval.Procedures.Workflow;

/// <summary>One line of the list of procedures.</summary>
public sealed record ProcedureSummary
{
    public required Guid Id { get; init; }

    public required string Title { get; init; }

    public required ProcedureState State { get; init; }

    /// <summary>Latest revision, or null while there is only a draft.</summary>
    public int? Revision { get; init; }

    public required string AuthorName { get; init; }

    public required Guid AuthorId { get; init; }

    public required DateTimeOffset UpdatedAt { get; init; }

    /// <summary>Worst severity of the latest screening, or null.</summary>
    public Severity? Worst { get; init; }

    public int FindingCount { get; init; }

    /// <summary>Who has it now, and since when.</summary>
    public IReadOnlyList<SlotView> Waiting { get; init; } = [];
}

/// <summary>One place in a review that one named person fills.</summary>
public sealed record SlotView
{
    /// <summary><c>review</c> or <c>countersign</c>, with a number where there are several: unique in the revision.</summary>
    public required string Slot { get; init; }

    public required Guid AssigneeId { get; init; }

    public required string AssigneeName { get; init; }

    /// <summary>Hazards for which it was routed here.</summary>
    public required IReadOnlyList<Hazard> Hazards { get; init; }

    /// <summary>Why this person, in words.</summary>
    public required string Reason { get; init; }

    public required DateTimeOffset Since { get; init; }

    public required DateTimeOffset Due { get; init; }

    /// <summary>True when this slot may be decided now (a countersignature waits for the review).</summary>
    public required bool Open { get; init; }

    public DecisionView? Decision { get; init; }
}

/// <summary>The answer of a reviewer to one finding.</summary>
/// <param name="FindingId">Identifier of the finding in the screening.</param>
/// <param name="Answer">Kind of answer.</param>
/// <param name="Text">Reason or condition.</param>
public sealed record FindingAnswer(string FindingId, AnswerKind Answer, string Text);

/// <summary>A signed decision.</summary>
public sealed record DecisionView
{
    public required string Slot { get; init; }

    public required DecisionKind Decision { get; init; }

    public required string Reason { get; init; }

    public required IReadOnlyList<FindingAnswer> Answers { get; init; }

    public required string SignerName { get; init; }

    public required Guid SignerId { get; init; }

    public required string SignerRole { get; init; }

    /// <summary>Meaning of the signature in words.</summary>
    public required string Meaning { get; init; }

    public required DateTimeOffset SignedAt { get; init; }

    /// <summary>SHA-256 over revision, screening, engine, data and policy.</summary>
    public required string BoundDigest { get; init; }
}

/// <summary>One immutable revision.</summary>
public sealed record RevisionView
{
    public required Guid ProcedureId { get; init; }

    public required int Number { get; init; }

    public required ProcedureState State { get; init; }

    public required string Title { get; init; }

    public required Guid AuthorId { get; init; }

    public required string AuthorName { get; init; }

    public required DateTimeOffset SubmittedAt { get; init; }

    /// <summary>Exact bytes as submitted.</summary>
    public required ReadOnlyMemory<byte> Document { get; init; }

    public required string DocumentDigest { get; init; }

    /// <summary>Report of the contract, canonical bytes.</summary>
    public required ReadOnlyMemory<byte> Screening { get; init; }

    public required string ScreeningDigest { get; init; }

    /// <summary>Digest of the thresholds it was screened under; a revision keeps them.</summary>
    public required string PolicyDigest { get; init; }

    public required Verdict Verdict { get; init; }

    public required IReadOnlyList<SlotView> Slots { get; init; }

    /// <summary>Optimistic lock of the revision row.</summary>
    public required int Version { get; init; }
}

/// <summary>A procedure: its draft (for those who may edit it) and its revisions.</summary>
public sealed record ProcedureView
{
    public required Guid Id { get; init; }

    public required Guid GroupId { get; init; }

    public required string Title { get; init; }

    public required ProcedureState State { get; init; }

    public required Guid AuthorId { get; init; }

    public required string AuthorName { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }

    /// <summary>Numbers and states of the revisions, newest first.</summary>
    public required IReadOnlyList<(int Number, ProcedureState State, DateTimeOffset SubmittedAt)> Revisions { get; init; }

    public DraftView? Draft { get; init; }
}

/// <summary>The draft of a procedure.</summary>
public sealed record DraftView
{
    public required Guid ProcedureId { get; init; }

    public required string Title { get; init; }

    /// <summary>State of the procedure: <see cref="ProcedureState.Draft"/> until the first submission.</summary>
    public required ProcedureState State { get; init; }

    /// <summary>Exact bytes as saved.</summary>
    public required ReadOnlyMemory<byte> Document { get; init; }

    /// <summary>The ETag counts up with each save.</summary>
    public required int Version { get; init; }

    public required DateTimeOffset SavedAt { get; init; }

    /// <summary>What still keeps it from being submitted.</summary>
    public required IReadOnlyList<Fault> Faults { get; init; }
}

/// <summary>One event of the history.</summary>
public sealed record EventView
{
    public required long Sequence { get; init; }

    public required DateTimeOffset At { get; init; }

    public required Guid ActorId { get; init; }

    public required string ActorName { get; init; }

    public required string ActorRole { get; init; }

    /// <summary>For instance <c>procedure.submitted</c>, <c>decision.approved</c>.</summary>
    public required string Action { get; init; }

    public Guid? ProcedureId { get; init; }

    public string? ProcedureTitle { get; init; }

    public int? Revision { get; init; }

    public string? Reason { get; init; }

    /// <summary>One plain sentence for people.</summary>
    public required string Summary { get; init; }

    /// <summary>SHA-256 leaf hash, hexadecimal.</summary>
    public required string LeafHash { get; init; }

    /// <summary>The canonical leaf, exact bytes.</summary>
    public required ReadOnlyMemory<byte> Leaf { get; init; }
}

/// <summary>A page of results with a cursor for the next; null: no more.</summary>
public sealed record Page<T>(IReadOnlyList<T> Items, string? Next);
