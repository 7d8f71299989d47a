using Microsoft.EntityFrameworkCore;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Workflow;
using PreApproval.Storage.Model;

namespace PreApproval.Storage.Stores;

internal sealed class GroupStore(PreApprovalDbContext db) : IGroupStore
{
    public async Task AddGroupAsync(Guid groupId, string name, GroupPolicy policy, DateTimeOffset at, CancellationToken cancellationToken)
    {
        db.Groups.Add(new GroupRow { Id = groupId, Name = name, CreatedAt = at });
        db.Policies.Add(new GroupPolicyRow { GroupId = groupId, CountersignDangers = policy.CountersignDangers, ReviewDays = policy.ReviewDays });
        await db.SaveChangesAsync(cancellationToken);
    }

    public Task<bool> GroupNameTakenAsync(string name, CancellationToken cancellationToken) => db.Groups.AnyAsync(x => x.Name == name, cancellationToken);

    public async Task<IReadOnlyList<Membership>> MembershipsAsync(Guid accountId, CancellationToken cancellationToken)
    {
        var groups = await db.Memberships
            .Where(x => x.AccountId == accountId && db.Users.Any(account => account.Id == accountId && account.DeactivatedAt == null))
            .Join(db.Groups, x => x.GroupId, group => group.Id, (x, group) => new { group.Id, group.Name })
            .OrderBy(x => x.Name).ToListAsync(cancellationToken);
        List<RoleRow> roles = await db.Roles.AsNoTracking().Where(x => x.AccountId == accountId).ToListAsync(cancellationToken);
        List<CompetenceRow> competences = await db.Competences.AsNoTracking().Where(x => x.AccountId == accountId).ToListAsync(cancellationToken);
        return
        [
            .. groups.Select(group => new Membership(
                group.Id,
                group.Name,
                [.. roles.Where(x => x.GroupId == group.Id).Select(x => x.Role).Order()],
                [.. competences.Where(x => x.GroupId == group.Id).Select(x => x.Hazard).Order()])).Where(membership => membership.Roles.Count > 0),
        ];
    }

    public Task<IReadOnlyList<Standing>> StandingsAsync(Guid groupId, CancellationToken cancellationToken) => ReadStandingsAsync(groupId, null, cancellationToken);

    public async Task<Standing?> LockStandingAsync(Guid groupId, Guid accountId, CancellationToken cancellationToken)
    {
        List<Guid> locked = await db.Database.SqlQuery<Guid>(
            $"""
            SELECT m.account_id AS "Value" FROM membership m JOIN account a ON a.id = m.account_id
            WHERE m.group_id = {groupId} AND m.account_id = {accountId} FOR SHARE OF m, a
            """).ToListAsync(cancellationToken);
        return locked.Count == 0 ? null : (await ReadStandingsAsync(groupId, accountId, cancellationToken))[0];
    }

    public Task AddMembershipAsync(Guid groupId, Guid accountId, DateTimeOffset at, CancellationToken cancellationToken) =>
        db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO membership (group_id, account_id, since, changed_at) VALUES ({groupId}, {accountId}, {at}, {at})
            ON CONFLICT (group_id, account_id) DO UPDATE SET changed_at = excluded.changed_at
            """,
            cancellationToken);

    public async Task GrantAsync(Guid groupId, Guid accountId, GroupRole role, Guid by, DateTimeOffset at, CancellationToken cancellationToken)
    {
        db.Roles.Add(new RoleRow { GroupId = groupId, AccountId = accountId, Role = role, GrantedBy = by, GrantedAt = at });
        await db.SaveChangesAsync(cancellationToken);
    }

    public Task RevokeAsync(Guid groupId, Guid accountId, GroupRole role, CancellationToken cancellationToken) =>
        db.Roles.Where(x => x.GroupId == groupId && x.AccountId == accountId && x.Role == role).ExecuteDeleteAsync(cancellationToken);

    public async Task GrantAsync(Guid groupId, Guid accountId, Hazard competence, Guid by, DateTimeOffset at, CancellationToken cancellationToken)
    {
        db.Competences.Add(new CompetenceRow { GroupId = groupId, AccountId = accountId, Hazard = competence, GrantedBy = by, GrantedAt = at });
        await db.SaveChangesAsync(cancellationToken);
    }

    public Task RevokeAsync(Guid groupId, Guid accountId, Hazard competence, CancellationToken cancellationToken) =>
        db.Competences.Where(x => x.GroupId == groupId && x.AccountId == accountId && x.Hazard == competence).ExecuteDeleteAsync(cancellationToken);

    public async Task<IReadOnlyList<Guid>> GroupsOfAsync(Guid accountId, CancellationToken cancellationToken) =>
        await db.Memberships.Where(x => x.AccountId == accountId).Select(x => x.GroupId).ToListAsync(cancellationToken);

    public async Task<bool> DeactivateAsync(Guid accountId, DateTimeOffset at, CancellationToken cancellationToken) =>
        await db.Users.Where(x => x.Id == accountId && x.DeactivatedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.DeactivatedAt, at), cancellationToken) == 1;

    public async Task<IReadOnlyList<RoutingRule>> RulesAsync(Guid groupId, CancellationToken cancellationToken) =>
        await db.RoutingRules.Where(x => x.GroupId == groupId).OrderBy(x => x.Order)
            .Select(x => new RoutingRule(x.Order, x.Hazard, x.ReviewerId, x.DeputyId)).ToListAsync(cancellationToken);

    public async Task ReplaceRulesAsync(Guid groupId, IReadOnlyList<RoutingRule> rules, CancellationToken cancellationToken)
    {
        await db.RoutingRules.Where(x => x.GroupId == groupId).ExecuteDeleteAsync(cancellationToken);
        db.RoutingRules.AddRange(rules.Select(rule => new RoutingRuleRow
        {
            GroupId = groupId,
            Order = rule.Order,
            Hazard = rule.Hazard,
            ReviewerId = rule.ReviewerId,
            DeputyId = rule.DeputyId,
        }));
        await db.SaveChangesAsync(cancellationToken);
        db.ChangeTracker.Clear();
    }

    public async Task<GroupPolicy> PolicyAsync(Guid groupId, CancellationToken cancellationToken) =>
        await db.Policies.Where(x => x.GroupId == groupId).Select(x => new GroupPolicy(x.CountersignDangers, x.ReviewDays)).SingleAsync(cancellationToken);

    public Task SetPolicyAsync(Guid groupId, GroupPolicy policy, CancellationToken cancellationToken) =>
        db.Policies.Where(x => x.GroupId == groupId).ExecuteUpdateAsync(
            set => set.SetProperty(x => x.CountersignDangers, policy.CountersignDangers).SetProperty(x => x.ReviewDays, policy.ReviewDays), cancellationToken);

    private async Task<IReadOnlyList<Standing>> ReadStandingsAsync(Guid groupId, Guid? only, CancellationToken cancellationToken)
    {
        var people = await db.Memberships.Where(x => x.GroupId == groupId && (only == null || x.AccountId == only))
            .Join(db.Users, x => x.AccountId, account => account.Id, (x, account) => new { account.Id, account.UserName, account.DisplayName, account.DeactivatedAt })
            .OrderBy(x => x.DisplayName).ThenBy(x => x.Id).ToListAsync(cancellationToken);
        ILookup<Guid, RoleRow> roles = (await db.Roles.AsNoTracking().Where(x => x.GroupId == groupId && (only == null || x.AccountId == only)).ToListAsync(cancellationToken)).ToLookup(x => x.AccountId);
        ILookup<Guid, CompetenceRow> competences = (await db.Competences.AsNoTracking().Where(x => x.GroupId == groupId && (only == null || x.AccountId == only)).ToListAsync(cancellationToken)).ToLookup(x => x.AccountId);
        return
        [
            .. people.Select(person => new Standing
            {
                AccountId = person.Id,
                UserName = person.UserName ?? string.Empty,
                Name = person.DisplayName,
                Active = person.DeactivatedAt is null,
                Roles = [.. roles[person.Id].Select(x => new Grant<GroupRole>(x.Role, x.GrantedBy, x.GrantedAt))],
                Competences = [.. competences[person.Id].Select(x => new Grant<Hazard>(x.Hazard, x.GrantedBy, x.GrantedAt))],
            }),
        ];
    }
}
