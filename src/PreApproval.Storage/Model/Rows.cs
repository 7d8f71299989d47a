using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage.Model;

internal sealed class GroupRow
{
    public required Guid Id { get; init; }

    public required string Name { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }
}

internal sealed class GroupPolicyRow
{
    public required Guid GroupId { get; init; }

    public required bool CountersignDangers { get; init; }

    public required int ReviewDays { get; init; }
}

internal sealed class MembershipRow
{
    public required Guid GroupId { get; init; }

    public required Guid AccountId { get; init; }

    public required DateTimeOffset Since { get; init; }

    /// <summary>Written with every change of roles or competences, so that the row's lock covers them.</summary>
    public required DateTimeOffset ChangedAt { get; init; }
}

internal sealed class RoleRow
{
    public required Guid GroupId { get; init; }

    public required Guid AccountId { get; init; }

    public required GroupRole Role { get; init; }

    public required Guid GrantedBy { get; init; }

    public required DateTimeOffset GrantedAt { get; init; }
}

internal sealed class CompetenceRow
{
    public required Guid GroupId { get; init; }

    public required Guid AccountId { get; init; }

    public required Hazard Hazard { get; init; }

    public required Guid GrantedBy { get; init; }

    public required DateTimeOffset GrantedAt { get; init; }
}

internal sealed class RoutingRuleRow
{
    public required Guid GroupId { get; init; }

    public required int Order { get; init; }

    public required Hazard Hazard { get; init; }

    public required Guid ReviewerId { get; init; }

    public Guid? DeputyId { get; init; }
}

internal sealed class EditorRow
{
    public required Guid ProcedureId { get; init; }

    public required Guid AccountId { get; init; }

    public required Guid GroupId { get; init; }
}

/// <summary>How often a person was refused to sign a revision for one reason; the first of each window is an event.</summary>
internal sealed class SignRefusalRow
{
    public required Guid ProcedureId { get; init; }

    public required int Revision { get; init; }

    public required Guid AccountId { get; init; }

    public required string Reason { get; init; }

    public required Guid GroupId { get; init; }

    public required DateTimeOffset WindowStart { get; init; }

    /// <summary>Refusals since <see cref="WindowStart"/>.</summary>
    public required int Count { get; init; }

    /// <summary>Refusals in the window before, of which the history shows one.</summary>
    public required int PreviousCount { get; init; }
}

/// <summary>A notice that is still to be sent, or was.</summary>
internal sealed class OutboxRow
{
    public required Guid NoticeId { get; init; }

    public required Guid GroupId { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }

    public int Attempts { get; init; }

    public DateTimeOffset? SentAt { get; init; }
}

internal sealed class AuditHeadRow
{
    public required Guid GroupId { get; init; }

    /// <summary>Number of events.</summary>
    public required long Size { get; init; }

    /// <summary>Right edge of the tree.</summary>
    public required byte[] CompactRange { get; init; }
}

internal sealed class IdempotencyRow
{
    public required Guid AccountId { get; init; }

    public required string Key { get; init; }

    public required byte[] RequestHash { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }

    /// <summary>Null while the request is carried out, which nobody but its own transaction sees.</summary>
    public int? Status { get; init; }

    public string? Headers { get; init; }

    public byte[]? Body { get; init; }
}
