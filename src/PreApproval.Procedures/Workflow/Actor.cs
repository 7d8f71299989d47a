namespace PreApproval.Procedures.Workflow;

/// <summary>Roles of a person in one group.</summary>
public enum GroupRole
{
    Member,
    Reviewer,
    Lead,
    Administrator,
    Auditor,
}

/// <summary>Who asks, in which group, with which roles there. Built once per request from the database, never from the client.</summary>
/// <param name="UserId">Account.</param>
/// <param name="Name">Printed name.</param>
/// <param name="GroupId">Group the request is about.</param>
/// <param name="Roles">Roles in that group; empty: not a member.</param>
/// <param name="AuthenticatedAt">When the person last proved who they are.</param>
/// <param name="AuthenticationMethod">For instance <c>password</c> or <c>token</c>.</param>
/// <param name="RequestId">Correlates the event with the log.</param>
public sealed record Actor(
    Guid UserId,
    string Name,
    Guid GroupId,
    IReadOnlyList<GroupRole> Roles,
    DateTimeOffset AuthenticatedAt,
    string AuthenticationMethod,
    string RequestId)
{
    public bool Is(GroupRole role) => Roles.Contains(role);
}
