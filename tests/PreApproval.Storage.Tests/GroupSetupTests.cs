using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class GroupSetupTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task SetMembership_ByLead_AppointsReviewersOnly()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor lena = await world.ActorAsync(world.Lena);
        Assert.Equal(RefusalKind.Forbidden, (await SetAsync(world, lena, world.Max, [GroupRole.Member, GroupRole.Lead])).Error?.Kind);
        Assert.Equal(RefusalKind.Forbidden, (await SetAsync(world, lena, world.Max, [])).Error?.Kind);
        MemberView max = TestWorld.Must(await SetAsync(world, lena, world.Max, [GroupRole.Member, GroupRole.Reviewer], Hazard.Gas));
        Assert.Equal([GroupRole.Member, GroupRole.Reviewer], max.Roles);
        Assert.Equal(2, await world.ScalarAsync<long>($"SELECT count(*) FROM audit_event WHERE actor_id = '{world.Lena}' AND subject_id = '{world.Max}'"));
        Assert.Equal(RefusalKind.Forbidden, (await SetAsync(world, await world.ActorAsync(world.Mia), world.Mia, [GroupRole.Lead])).Error?.Kind);
    }

    [Fact]
    public async Task SetMembership_SelfGrantedReviewer_CannotDecideOnTheSameDay()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor lena = await world.ActorAsync(world.Lena);
        TestWorld.Must(await SetAsync(world, lena, world.Lena, [GroupRole.Lead, GroupRole.Reviewer], Hazard.Gas));
        TestWorld.Must(await world.CallAsync<GroupSetup, Result<IReadOnlyList<RoutingRule>, Refusal>>(x => x.SetRoutingAsync(lena, [new RoutingRule(1, Hazard.Gas, world.Lena, null)], None)));
        RevisionView revision = await world.SubmitAsync("Gas", "gas/warning");
        Assert.Equal(world.Lena, Assert.Single(revision.Slots).AssigneeId);
        Assert.Equal(RefusalKind.Forbidden, (await world.DecideAsync(world.Lena, revision.ProcedureId, TestWorld.Approval(1, "gas/warning"))).Error?.Kind);
        world.Clock.Advance(TimeSpan.FromHours(24));
        Assert.True((await world.DecideAsync(world.Lena, revision.ProcedureId, TestWorld.Approval(1, "gas/warning"))).IsOk);
    }

    [Fact]
    public async Task Deactivate_EndsMembershipsTokensAndDecisionsAtOnce()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        Actor rosa = await world.ActorAsync(world.Rosa);
        (string token, _) = await world.CallAsync<ApiTokens, (string, DateTimeOffset)>(x => x.IssueAsync(world.Rosa, TimeSpan.FromHours(1), None));
        Actor adam = await world.ActorAsync(world.Adam);
        Assert.Equal(RefusalKind.Forbidden, (await world.CallAsync<GroupSetup, Result<Guid, Refusal>>(x => x.DeactivateAsync(rosa, world.Rosa, "Left.", None))).Error?.Kind);
        TestWorld.Must(await world.CallAsync<GroupSetup, Result<Guid, Refusal>>(x => x.DeactivateAsync(adam, world.Rosa, "Left.", None)));

        Assert.Null(await world.CallAsync<ApiTokens, (Guid, DateTimeOffset)?>(x => x.ResolveAsync(token, None)));
        Assert.Empty((await world.ActorAsync(world.Rosa)).Roles);
        Result<RevisionView, Refusal> decision = await world.CallAsync<Procedures.Decisions.DecisionHandler, Result<RevisionView, Refusal>>(
            x => x.DecideAsync(rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning"), None));
        Assert.Equal(RefusalKind.Forbidden, decision.Error?.Kind);
        Assert.Equal(RefusalKind.Conflict, (await world.CallAsync<GroupSetup, Result<Guid, Refusal>>(x => x.DeactivateAsync(adam, world.Rosa, "Left.", None))).Error?.Kind);
    }

    [Fact]
    public async Task CreateAccount_WeakPasswordOrTakenName_NamesTheFieldAndStoresNothing()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        long accounts = await world.ScalarAsync<long>("SELECT count(*) FROM account");
        Actor adam = await world.ActorAsync(world.Adam);
        Result<Guid, Refusal> weak = await world.CallAsync<GroupSetup, Result<Guid, Refusal>>(x => x.CreateAccountAsync(adam, "new", "New Person", "abc", None));
        Assert.Contains(weak.Error!.Faults, fault => fault.Path.Equals("/password", StringComparison.Ordinal));
        Result<Guid, Refusal> taken = await world.CallAsync<GroupSetup, Result<Guid, Refusal>>(x => x.CreateAccountAsync(adam, "MIA", "Other Mia", TestWorld.Password, None));
        Assert.Equal("/userName", Assert.Single(taken.Error!.Faults).Path);
        Assert.Equal(accounts, await world.ScalarAsync<long>("SELECT count(*) FROM account"));
    }

    [Fact]
    public async Task SetRouting_NamingAStranger_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor lena = await world.ActorAsync(world.Lena);
        Result<IReadOnlyList<RoutingRule>, Refusal> result = await world.CallAsync<GroupSetup, Result<IReadOnlyList<RoutingRule>, Refusal>>(
            x => x.SetRoutingAsync(lena, [new RoutingRule(1, Hazard.Gas, world.Fred, null)], None));
        Assert.Equal("/rules/0/reviewer", Assert.Single(result.Error!.Faults).Path);
        Assert.Equal(2, await world.ScalarAsync<long>("SELECT count(*) FROM routing_rule"));
    }

    [Fact]
    public async Task Token_ResolvesUntilItExpiresOrIsRevoked_AndIsStoredHashedOnly()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        (string token, _) = await world.CallAsync<ApiTokens, (string, DateTimeOffset)>(x => x.IssueAsync(world.Mia, TimeSpan.FromHours(1), None));
        Assert.Equal(1, await world.ScalarAsync<long>($"SELECT count(*) FROM api_token WHERE hash = sha256('{token}'::bytea)"));
        Assert.Equal(world.Mia, (await world.CallAsync<ApiTokens, (Guid AccountId, DateTimeOffset)?>(x => x.ResolveAsync(token, None)))?.AccountId);
        Assert.Null(await world.CallAsync<ApiTokens, (Guid, DateTimeOffset)?>(x => x.ResolveAsync(token + "x", None)));
        world.Clock.Advance(TimeSpan.FromMinutes(61));
        Assert.Null(await world.CallAsync<ApiTokens, (Guid, DateTimeOffset)?>(x => x.ResolveAsync(token, None)));

        (string second, _) = await world.CallAsync<ApiTokens, (string, DateTimeOffset)>(x => x.IssueAsync(world.Mia, TimeSpan.FromHours(1), None));
        Assert.False(await world.CallAsync<ApiTokens, bool>(x => x.RevokeAsync(world.Max, second, None)));
        Assert.True(await world.CallAsync<ApiTokens, bool>(x => x.RevokeAsync(world.Mia, second, None)));
        Assert.Null(await world.CallAsync<ApiTokens, (Guid, DateTimeOffset)?>(x => x.ResolveAsync(second, None)));
    }

    private static Task<Result<MemberView, Refusal>> SetAsync(TestWorld world, Actor by, Guid person, GroupRole[] roles, params Hazard[] competences) =>
        world.CallAsync<GroupSetup, Result<MemberView, Refusal>>(x => x.SetMembershipAsync(by, person, roles, competences, None));
}
