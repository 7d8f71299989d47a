namespace PreApproval.Procedures.Workflow;

/// <summary>What roles of a group allow in general, before any rule about one procedure.</summary>
public static class Access
{
    /// <summary>May draft and submit.</summary>
    public static bool MayWrite(Actor actor) => actor.Is(GroupRole.Member) || ReviewsOrLeads(actor.Is);

    /// <summary>May read the bodies of submitted procedures: everybody of the group but those who only administer it.</summary>
    public static bool MayRead(Actor actor) => MayWrite(actor) || actor.Is(GroupRole.Auditor);

    /// <summary>Reviewers and leads: who decides on procedures, and writes what findings depend on.</summary>
    /// <param name="roles">Whether the person has a role.</param>
    internal static bool ReviewsOrLeads(Func<GroupRole, bool> roles) => roles(GroupRole.Reviewer) || roles(GroupRole.Lead);

    internal static Refusal RefuseWriting(Actor actor) => actor.Roles.Count == 0
        ? Refusal.NotFound
        : Refusal.Because(RefusalKind.Forbidden, "Your role in this group does not write procedures.");

    internal static Refusal RefuseReading(Actor actor) => actor.Roles.Count == 0
        ? Refusal.NotFound
        : Refusal.Because(RefusalKind.Forbidden, "Administrators manage accounts and do not read procedures.");
}
