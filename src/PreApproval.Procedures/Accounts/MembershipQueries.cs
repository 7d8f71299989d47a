using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Accounts;

/// <summary>Who belongs to which group.</summary>
public sealed class MembershipQueries(IGroupStore groups)
{
    /// <summary>Groups of an account that is not deactivated; empty when it is.</summary>
    public async Task<IReadOnlyList<Membership>> ForAccountAsync(Guid userId, CancellationToken cancellationToken) =>
        await groups.MembershipsAsync(userId, cancellationToken);

    /// <summary>The active members of the actor's group, by name; nobody for those who do not belong to it.</summary>
    public async Task<IReadOnlyList<MemberView>> OfGroupAsync(Actor actor, CancellationToken cancellationToken)
    {
        if (actor.Roles.Count == 0)
        {
            return [];
        }

        IReadOnlyList<Standing> people = await groups.StandingsAsync(actor.GroupId, cancellationToken);
        return
        [
            .. people.Where(person => person.Active).Select(person => new MemberView(
                person.AccountId,
                person.UserName,
                person.Name,
                [.. person.Roles.Select(grant => grant.Value).Order()],
                [.. person.Competences.Select(grant => grant.Value).Order()])),
        ];
    }
}
