using Microsoft.AspNetCore.Identity;

namespace PreApproval.Procedures.Accounts;

/// <summary>A person's account. Deactivated, never deleted; its key is never used again.</summary>
public sealed class Account : IdentityUser<Guid>
{
    /// <summary>Printed name, as on signatures.</summary>
    public required string DisplayName { get; set; }

    public DateTimeOffset? DeactivatedAt { get; set; }
}

/// <summary>A person's place in a group.</summary>
/// <param name="GroupId">Group.</param>
/// <param name="GroupName">Its name.</param>
/// <param name="Roles">Roles there.</param>
/// <param name="Competences">Hazards a reviewer is competent in.</param>
public sealed record Membership(Guid GroupId, string GroupName, IReadOnlyList<Workflow.GroupRole> Roles, IReadOnlyList<Hazards.Screening.Hazard> Competences);

/// <summary>A person of the group, for lists.</summary>
public sealed record MemberView(Guid UserId, string UserName, string DisplayName, IReadOnlyList<Workflow.GroupRole> Roles, IReadOnlyList<Hazards.Screening.Hazard> Competences);
