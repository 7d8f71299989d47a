using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Accounts;

/// <summary>Groups, who belongs to them, and how they review.</summary>
public interface IGroupStore
{
    Task AddGroupAsync(Guid groupId, string name, GroupPolicy policy, DateTimeOffset at, CancellationToken cancellationToken);

    Task<bool> GroupNameTakenAsync(string name, CancellationToken cancellationToken);

    Task<IReadOnlyList<Membership>> MembershipsAsync(Guid accountId, CancellationToken cancellationToken);

    /// <summary>Everybody who belongs to the group, also the deactivated, by name.</summary>
    Task<IReadOnlyList<Standing>> StandingsAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>One person's standing; it can't change before the end of the transaction.</summary>
    Task<Standing?> LockStandingAsync(Guid groupId, Guid accountId, CancellationToken cancellationToken);

    Task AddMembershipAsync(Guid groupId, Guid accountId, DateTimeOffset at, CancellationToken cancellationToken);

    Task GrantAsync(Guid groupId, Guid accountId, GroupRole role, Guid by, DateTimeOffset at, CancellationToken cancellationToken);

    Task RevokeAsync(Guid groupId, Guid accountId, GroupRole role, CancellationToken cancellationToken);

    Task GrantAsync(Guid groupId, Guid accountId, Hazard competence, Guid by, DateTimeOffset at, CancellationToken cancellationToken);

    Task RevokeAsync(Guid groupId, Guid accountId, Hazard competence, CancellationToken cancellationToken);

    /// <summary>Every group the person ever belonged to.</summary>
    Task<IReadOnlyList<Guid>> GroupsOfAsync(Guid accountId, CancellationToken cancellationToken);

    /// <summary>False when there is no such account or it was deactivated before.</summary>
    Task<bool> DeactivateAsync(Guid accountId, DateTimeOffset at, CancellationToken cancellationToken);

    Task<IReadOnlyList<RoutingRule>> RulesAsync(Guid groupId, CancellationToken cancellationToken);

    Task ReplaceRulesAsync(Guid groupId, IReadOnlyList<RoutingRule> rules, CancellationToken cancellationToken);

    Task<GroupPolicy> PolicyAsync(Guid groupId, CancellationToken cancellationToken);

    Task SetPolicyAsync(Guid groupId, GroupPolicy policy, CancellationToken cancellationToken);
}
