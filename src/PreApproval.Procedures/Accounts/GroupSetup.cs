using Microsoft.AspNetCore.Identity;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Accounts;

/// <summary>
/// Sets up and administers a group: each change with its event. Administrators manage accounts and roles; leads appoint reviewers, set
/// routing and policy. <see cref="SetupActor"/> stands for whoever installs the program, before anybody has an account.
/// </summary>
public sealed class GroupSetup(IUnitOfWork work, IGroupStore groups, IAuditStore log, AuditTrail trail, UserManager<Account> accounts, TimeProvider clock)
{
    /// <summary>Acts for the installation in a group. Never built from a request.</summary>
    public static Actor SetupActor(Guid groupId, TimeProvider clock) =>
        new(Guid.Empty, "Set-up", groupId, [GroupRole.Administrator, GroupRole.Lead], clock.GetUtcNow(), "set-up", "set-up");

    /// <summary>A new group with the default policy and an empty log; its identifier.</summary>
    public async Task<Result<Guid, Refusal>> CreateGroupAsync(string name, CancellationToken cancellationToken)
    {
        string trimmed = TypedText.Title(name);
        if (trimmed.Length == 0)
        {
            return new Refusal(RefusalKind.Invalid, "The group needs a name.", [new Fault("/name", "From 1 to 200 characters.")]);
        }

        DateTimeOffset now = clock.GetUtcNow();
        Guid groupId = Guid.CreateVersion7(now);
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await groups.GroupNameTakenAsync(trimmed, cancellationToken))
        {
            return Refusal.Because(RefusalKind.Conflict, "There is a group of this name.");
        }

        await groups.AddGroupAsync(groupId, trimmed, GroupPolicy.Default, now, cancellationToken);
        await log.AddLogAsync(groupId, cancellationToken);
        await trail.AppendAsync(SetupActor(groupId, clock), [Entry("group.created", "group", groupId, $"The group '{trimmed}' was created.")], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return groupId;
    }

    /// <summary>
    /// Founds a group with its first two people, an administrator and a lead: all of it, with its events, or nothing. For the installation, before
    /// anybody can sign in; never for a request. The faults begin with <c>/group</c>, <c>/administrator</c> or <c>/lead</c>.
    /// </summary>
    public async Task<Result<FoundedGroup, Refusal>> FoundAsync(string groupName, Founder administrator, Founder lead, CancellationToken cancellationToken)
    {
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        Result<Guid, Refusal> group = await CreateGroupAsync(groupName, cancellationToken);
        if (!group.IsOk)
        {
            return At("/group", group.Error);
        }

        Result<Guid, Refusal> first = await FoundAsync(group.Value, administrator, GroupRole.Administrator, cancellationToken);
        if (!first.IsOk)
        {
            return At("/administrator", first.Error);
        }

        Result<Guid, Refusal> second = await FoundAsync(group.Value, lead, GroupRole.Lead, cancellationToken);
        if (!second.IsOk)
        {
            return At("/lead", second.Error);
        }

        await scope.CommitAsync(cancellationToken);
        return new FoundedGroup(group.Value, first.Value, second.Value);

        static Refusal At(string place, Refusal refusal) => refusal with { Faults = [.. refusal.Faults.Select(fault => fault with { Path = place + fault.Path })] };
    }

    /// <summary>A new account; its identifier. The faults are those of the name and password rules.</summary>
    public async Task<Result<Guid, Refusal>> CreateAccountAsync(Actor actor, string userName, string displayName, string password, CancellationToken cancellationToken)
    {
        if (!actor.Is(GroupRole.Administrator))
        {
            return Forbidden("Administrators manage accounts.");
        }

        if (TypedText.Title(displayName) is not { Length: > 0 } name)
        {
            return new Refusal(RefusalKind.Invalid, "The account needs a printed name.", [new Fault("/displayName", "As on signatures.")]);
        }

        DateTimeOffset now = clock.GetUtcNow();
        var account = new Account { Id = Guid.CreateVersion7(now), UserName = userName, DisplayName = name };
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        IdentityResult created = await accounts.CreateAsync(account, password);
        if (!created.Succeeded)
        {
            return new Refusal(RefusalKind.Invalid, "The account was not created.", [.. created.Errors.Select(error => new Fault(
                error.Code.StartsWith("Password", StringComparison.Ordinal) ? "/password" : "/userName", error.Description))]);
        }

        await trail.AppendAsync(actor, [Entry("account.created", "account", account.Id, $"{actor.Name} created the account of {account.DisplayName}.")], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return account.Id;
    }

    /// <summary>
    /// Sets exactly these roles and competences of a person in the actor's group; no roles at all ends the membership. One event
    /// for each role and competence that is given or taken. A lead may give and take only the reviewer's role and competences.
    /// </summary>
    public async Task<Result<MemberView, Refusal>> SetMembershipAsync(Actor actor, Guid accountId, IReadOnlyList<GroupRole> roles, IReadOnlyList<Hazard> competences, CancellationToken cancellationToken)
    {
        if (!actor.Is(GroupRole.Administrator) && !actor.Is(GroupRole.Lead))
        {
            return Forbidden("Administrators and leads set roles.");
        }

        DateTimeOffset now = clock.GetUtcNow();
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await accounts.FindByIdAsync(accountId.ToString()) is not { } account)
        {
            return Refusal.NotFound;
        }

        await groups.AddMembershipAsync(actor.GroupId, accountId, now, cancellationToken);
        Standing before = await groups.LockStandingAsync(actor.GroupId, accountId, cancellationToken)
            ?? throw new InvalidOperationException("The membership was just added.");
        GroupRole[] given = [.. roles.Distinct().Where(role => !before.Is(role))];
        GroupRole[] taken = [.. before.Roles.Select(grant => grant.Value).Where(role => !roles.Contains(role))];
        if (!actor.Is(GroupRole.Administrator) && (Array.Exists(given, role => role != GroupRole.Reviewer) || Array.Exists(taken, role => role != GroupRole.Reviewer)))
        {
            return Forbidden("Leads appoint reviewers; other roles are the administrators'.");
        }

        var entries = new List<AuditEntry>();
        foreach (GroupRole role in given)
        {
            await groups.GrantAsync(actor.GroupId, accountId, role, actor.UserId, now, cancellationToken);
            entries.Add(Entry("role.granted", "account", accountId, $"{actor.Name} made {account.DisplayName} {WireName.Of(role)}.") with { After = WireName.Of(role) });
        }

        foreach (GroupRole role in taken)
        {
            await groups.RevokeAsync(actor.GroupId, accountId, role, cancellationToken);
            entries.Add(Entry("role.revoked", "account", accountId, $"{actor.Name} ended {account.DisplayName}'s role {WireName.Of(role)}.") with { Before = WireName.Of(role) });
        }

        foreach (Hazard hazard in competences.Distinct().Where(hazard => !before.IsCompetentIn(hazard)))
        {
            await groups.GrantAsync(actor.GroupId, accountId, hazard, actor.UserId, now, cancellationToken);
            entries.Add(Entry("competence.granted", "account", accountId, $"{actor.Name} recorded that {account.DisplayName} is competent in {WireName.Of(hazard)}.") with { After = WireName.Of(hazard) });
        }

        foreach (Hazard hazard in before.Competences.Select(grant => grant.Value).Where(hazard => !competences.Contains(hazard)))
        {
            await groups.RevokeAsync(actor.GroupId, accountId, hazard, cancellationToken);
            entries.Add(Entry("competence.revoked", "account", accountId, $"{actor.Name} ended {account.DisplayName}'s competence in {WireName.Of(hazard)}.") with { Before = WireName.Of(hazard) });
        }

        await trail.AppendAsync(actor, entries, cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return new MemberView(accountId, account.UserName!, account.DisplayName, [.. roles.Distinct().Order()], [.. competences.Distinct().Order()]);
    }

    /// <summary>Deactivates an account for ever: it signs nothing from this moment on, and its key is never used again.</summary>
    public async Task<Result<Guid, Refusal>> DeactivateAsync(Actor actor, Guid accountId, string reason, CancellationToken cancellationToken)
    {
        if (!actor.Is(GroupRole.Administrator))
        {
            return Forbidden("Administrators manage accounts.");
        }

        if (TypedText.Fault(reason) is { } fault)
        {
            return new Refusal(RefusalKind.Invalid, "The reason can't be kept as it is.", [new Fault("/reason", fault)]);
        }

        DateTimeOffset now = clock.GetUtcNow();
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if ((await groups.StandingsAsync(actor.GroupId, cancellationToken)).FirstOrDefault(person => person.AccountId == accountId) is not { } standing)
        {
            return Refusal.NotFound;
        }

        if (!await groups.DeactivateAsync(accountId, now, cancellationToken))
        {
            return Refusal.Because(RefusalKind.Conflict, "The account was deactivated before.");
        }

        // In the log of every group of the person, in one order for all, so that two of these never wait for each other. Another group learns neither which one it was nor the reason.
        foreach (Guid group in (await groups.GroupsOfAsync(accountId, cancellationToken)).Order())
        {
            AuditEntry entry = Entry("account.deactivated", "account", accountId, $"{actor.Name} deactivated the account of {standing.Name}.");
            await trail.AppendAsync(
                actor with { GroupId = group },
                [group == actor.GroupId ? entry with { Reason = reason } : entry with { ActorRole = "administrator of another group" }],
                cancellationToken);
        }

        await scope.CommitAsync(cancellationToken);
        return accountId;
    }

    /// <summary>Replaces the routing rules; each names a person of the group.</summary>
    public async Task<Result<IReadOnlyList<RoutingRule>, Refusal>> SetRoutingAsync(Actor actor, IReadOnlyList<RoutingRule> rules, CancellationToken cancellationToken)
    {
        if (!actor.Is(GroupRole.Lead))
        {
            return Forbidden("The group lead sets the routing.");
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        Dictionary<Guid, string> people = (await groups.StandingsAsync(actor.GroupId, cancellationToken)).ToDictionary(person => person.AccountId, person => person.Name);
        Fault[] faults = [.. rules.SelectMany((rule, index) => Strangers(rule, index, people))];
        if (faults.Length > 0 || rules.Select(rule => rule.Order).Distinct().Count() != rules.Count)
        {
            return new Refusal(RefusalKind.Invalid, "The rules can't be used.", faults.Length > 0 ? faults : [new Fault("/rules", "Each rule needs an order of its own.")]);
        }

        await groups.ReplaceRulesAsync(actor.GroupId, rules, cancellationToken);
        string after = string.Join("; ", rules.OrderBy(rule => rule.Order).Select(rule =>
            $"{WireName.Of(rule.Hazard)} to {people[rule.ReviewerId]}{(rule.DeputyId is { } deputy ? $", deputy {people[deputy]}" : string.Empty)}"));
        await trail.AppendAsync(actor, [Entry("routing.changed", "group", actor.GroupId, $"{actor.Name} set the routing: {after}.") with { After = after }], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return Result<IReadOnlyList<RoutingRule>, Refusal>.Ok(rules);
    }

    /// <summary>Sets the group's policy.</summary>
    public async Task<Result<GroupPolicy, Refusal>> SetPolicyAsync(Actor actor, GroupPolicy policy, CancellationToken cancellationToken)
    {
        if (!actor.Is(GroupRole.Lead))
        {
            return Forbidden("The group lead sets the policy.");
        }

        if (policy.ReviewDays is < 1 or > 365)
        {
            return new Refusal(RefusalKind.Invalid, "The policy can't be used.", [new Fault("/reviewDays", "From 1 to 365 days.")]);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        GroupPolicy before = await groups.PolicyAsync(actor.GroupId, cancellationToken);
        await groups.SetPolicyAsync(actor.GroupId, policy, cancellationToken);
        await trail.AppendAsync(actor, [Entry("policy.changed", "group", actor.GroupId, $"{actor.Name} changed the policy to: {Words(policy)}.") with { Before = Words(before), After = Words(policy) }], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return policy;
    }

    private async Task<Result<Guid, Refusal>> FoundAsync(Guid groupId, Founder founder, GroupRole role, CancellationToken cancellationToken)
    {
        Actor installer = SetupActor(groupId, clock);
        Result<Guid, Refusal> account = await CreateAccountAsync(installer, founder.UserName, founder.DisplayName, founder.Password, cancellationToken);
        if (account.IsOk && await SetMembershipAsync(installer, account.Value, [role], [], cancellationToken) is { IsOk: false } refused)
        {
            return refused.Error;
        }

        return account;
    }

    private static IEnumerable<Fault> Strangers(RoutingRule rule, int index, Dictionary<Guid, string> people)
    {
        if (!people.ContainsKey(rule.ReviewerId))
        {
            yield return new Fault(FormattableString.Invariant($"/rules/{index}/reviewer"), "This person does not belong to the group.");
        }

        if (rule.DeputyId is { } deputy && !people.ContainsKey(deputy))
        {
            yield return new Fault(FormattableString.Invariant($"/rules/{index}/deputy"), "This person does not belong to the group.");
        }
    }

    private static string Words(GroupPolicy policy) =>
        FormattableString.Invariant($"{(policy.CountersignDangers ? "dangers are countersigned" : "dangers are not countersigned")}, reviews are due in {policy.ReviewDays} days");

    private static Refusal Forbidden(string message) => Refusal.Because(RefusalKind.Forbidden, message);

    private static AuditEntry Entry(string action, string subjectType, Guid subjectId, string summary) =>
        new() { Action = action, SubjectType = subjectType, SubjectId = subjectId, Summary = summary };
}
