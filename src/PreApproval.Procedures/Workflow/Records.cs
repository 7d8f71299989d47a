using PreApproval.Hazards.Screening;

namespace PreApproval.Procedures.Workflow;

/// <summary>A procedure: what its revisions and its draft have in common.</summary>
public sealed record ProcedureRecord
{
    public required Guid Id { get; init; }

    public required Guid GroupId { get; init; }

    public required Guid AuthorId { get; init; }

    /// <summary>Title of the latest saved draft.</summary>
    public required string Title { get; init; }

    /// <summary>Number of the latest revision; 0 before the first submission.</summary>
    public int LatestRevision { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }

    public required DateTimeOffset UpdatedAt { get; init; }
}

/// <summary>The draft of a procedure. It stays after a submission and is then equal to the revision <see cref="SubmittedAs"/>.</summary>
public sealed record DraftRecord
{
    public required Guid ProcedureId { get; init; }

    public required Guid GroupId { get; init; }

    public required string Title { get; init; }

    public required byte[] Document { get; init; }

    /// <summary>From 1; counts up with each save and each submission.</summary>
    public required int Version { get; init; }

    public required DateTimeOffset SavedAt { get; init; }

    /// <summary>The revision this draft was submitted as, or null when it was edited since.</summary>
    public int? SubmittedAs { get; init; }
}

/// <summary>A submitted revision. Only <see cref="State"/> and <see cref="Version"/> ever change.</summary>
public sealed record RevisionRecord
{
    public required Guid ProcedureId { get; init; }

    public required int Number { get; init; }

    public required Guid GroupId { get; init; }

    public required Guid AuthorId { get; init; }

    public required string Title { get; init; }

    public required ProcedureState State { get; init; }

    public required int Version { get; init; }

    public required DateTimeOffset SubmittedAt { get; init; }

    /// <summary>Exact bytes as submitted.</summary>
    public required byte[] Document { get; init; }

    public required string DocumentDigest { get; init; }

    /// <summary>The canonical report.</summary>
    public required byte[] Screening { get; init; }

    public required string ScreeningDigest { get; init; }

    public required Verdict Verdict { get; init; }

    /// <summary>Null without findings.</summary>
    public Severity? Worst { get; init; }

    public required int FindingCount { get; init; }

    public required string EngineVersion { get; init; }

    public required string DataDigest { get; init; }

    public required string PolicyDigest { get; init; }
}

/// <summary>State and lock of a revision, without its documents.</summary>
public sealed record RevisionHead(int Number, ProcedureState State, int Version, DateTimeOffset SubmittedAt);

/// <summary>A finding of a revision's screening, for answers, filters and counts.</summary>
public sealed record FindingRecord
{
    public required Guid ProcedureId { get; init; }

    public required int Revision { get; init; }

    /// <summary>Place in the report, from 0.</summary>
    public required int Ordinal { get; init; }

    public required Guid GroupId { get; init; }

    public required string FindingId { get; init; }

    public required Hazard Hazard { get; init; }

    public required Severity Severity { get; init; }

    /// <summary>True for a missing datum that left a check of a hazardous step undone.</summary>
    public required bool LeavesCheckUndone { get; init; }
}

public enum SlotKind
{
    Review,
    Countersign,
}

/// <summary>A place in a review, routed to one person.</summary>
public sealed record SlotRecord
{
    public required Guid ProcedureId { get; init; }

    public required int Revision { get; init; }

    /// <summary><c>review</c>, <c>review-2</c> or <c>countersign</c>.</summary>
    public required string Slot { get; init; }

    public required Guid GroupId { get; init; }

    public required SlotKind Kind { get; init; }

    public required Guid AssigneeId { get; init; }

    public required IReadOnlyList<Hazard> Hazards { get; init; }

    /// <summary>Hazards in which the assignee must be competent when deciding; those without a competent person are left out.</summary>
    public required IReadOnlyList<Hazard> RequiredCompetences { get; init; }

    /// <summary>The role needed when deciding; a reviewer's slot may also be decided by a lead.</summary>
    public required GroupRole RequiredRole { get; init; }

    public required string Reason { get; init; }

    /// <summary>False for a countersignature that waits for the review.</summary>
    public required bool Open { get; init; }

    public required DateTimeOffset Since { get; init; }

    public required DateTimeOffset Due { get; init; }
}

/// <summary>A signed decision. Never changed.</summary>
public sealed record DecisionRecord
{
    public required Guid ProcedureId { get; init; }

    public required int Revision { get; init; }

    public required string Slot { get; init; }

    public required Guid GroupId { get; init; }

    public required DecisionKind Decision { get; init; }

    public required string Reason { get; init; }

    public required IReadOnlyList<FindingAnswer> Answers { get; init; }

    public required Guid SignerId { get; init; }

    public required string SignerName { get; init; }

    public required string SignerRole { get; init; }

    public required string Meaning { get; init; }

    public required DateTimeOffset SignedAt { get; init; }

    public required string AuthenticationMethod { get; init; }

    public required DateTimeOffset AuthenticatedAt { get; init; }

    /// <summary>The canonical JSON that was signed.</summary>
    public required byte[] Bound { get; init; }

    /// <summary>SHA-256 of <see cref="Bound"/>.</summary>
    public required string BoundDigest { get; init; }
}
