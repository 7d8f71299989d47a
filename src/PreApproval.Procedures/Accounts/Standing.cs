using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Accounts;

/// <summary>A role or competence with its origin.</summary>
public sealed record Grant<T>(T Value, Guid GrantedBy, DateTimeOffset GrantedAt)
    where T : struct, Enum;

/// <summary>What a person may do in a group, read from the database in the transaction that depends on it.</summary>
public sealed record Standing
{
    public required Guid AccountId { get; init; }

    public required string UserName { get; init; }

    public required string Name { get; init; }

    /// <summary>False when the account was deactivated.</summary>
    public required bool Active { get; init; }

    public required IReadOnlyList<Grant<GroupRole>> Roles { get; init; }

    public required IReadOnlyList<Grant<Hazard>> Competences { get; init; }

    public bool Is(GroupRole role) => Roles.Any(grant => grant.Value == role);

    public bool IsCompetentIn(Hazard hazard) => Competences.Any(grant => grant.Value == hazard);

    /// <summary>May ever decide in the group, whatever the procedure.</summary>
    public bool MayDecide => Active && Access.ReviewsOrLeads(Is) && !Is(GroupRole.Administrator);
}
