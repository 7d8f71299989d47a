using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.History;

/// <summary>What happened, before it has a place in the log.</summary>
public sealed record AuditEntry
{
    /// <summary>Subject type of events about procedures.</summary>
    public const string ProcedureSubject = "procedure";

    public required string Action { get; init; }

    /// <summary>For instance <c>procedure</c>, <c>account</c>, <c>group</c>.</summary>
    public required string SubjectType { get; init; }

    public required Guid SubjectId { get; init; }

    public string? ProcedureTitle { get; init; }

    public int? Revision { get; init; }

    public string? Reason { get; init; }

    /// <summary>Meaning of the signature, for signed acts.</summary>
    public string? Meaning { get; init; }

    /// <summary>State, role or setting before.</summary>
    public string? Before { get; init; }

    public string? After { get; init; }

    /// <summary>Digest of what the event is about: the document, the signed decision.</summary>
    public string? PayloadDigest { get; init; }

    /// <summary>Engine, data and policy under which it was decided.</summary>
    public string? RuleSet { get; init; }

    /// <summary>The role in which the actor acted; null: all roles held.</summary>
    public string? ActorRole { get; init; }

    /// <summary>One plain sentence for people.</summary>
    public required string Summary { get; init; }

    /// <summary>An event about a revision.</summary>
    public static AuditEntry About(ProcedureRecord procedure, int? revision, string action, string summary) => new()
    {
        Action = action,
        SubjectType = ProcedureSubject,
        SubjectId = procedure.Id,
        ProcedureTitle = procedure.Title,
        Revision = revision,
        Summary = summary,
    };
}

/// <summary>An event in its place. Every member but <see cref="Leaf"/> and <see cref="LeafHash"/> repeats what the leaf says.</summary>
public sealed record AuditEventRecord
{
    public required Guid GroupId { get; init; }

    /// <summary>From 0, without gaps in the group.</summary>
    public required long Sequence { get; init; }

    public required byte[] Leaf { get; init; }

    public required byte[] LeafHash { get; init; }

    public required DateTimeOffset At { get; init; }

    public required Guid ActorId { get; init; }

    public required string ActorName { get; init; }

    public required string ActorRole { get; init; }

    public required string Action { get; init; }

    public required string SubjectType { get; init; }

    public required Guid SubjectId { get; init; }

    public Guid? ProcedureId { get; init; }

    public string? ProcedureTitle { get; init; }

    public int? Revision { get; init; }

    public string? Reason { get; init; }

    public required string Summary { get; init; }

    public required string RequestId { get; init; }
}
