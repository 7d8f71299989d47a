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
    public async Task Deactivate_MemberOfTwoGroups_IsAnEventInBothAndTellsNothingOfTheOther()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        TestWorld.Must(await SetAsync(world, GroupSetup.SetupActor(world.ForeignGroupId, world.Clock), world.Rosa, [GroupRole.Reviewer], Hazard.Gas));
        Actor adam = await world.ActorAsync(world.Adam);
        TestWorld.Must(await world.CallAsync<GroupSetup, Result<Guid, Refusal>>(x => x.DeactivateAsync(adam, world.Rosa, "Left the synthesis group.", None)));
        Assert.Equal(1, await EventsAsync(world.GroupId));
        Assert.Equal(1, await EventsAsync(world.ForeignGroupId));
        Assert.Equal(0, await world.ScalarAsync<long>($"SELECT count(*) FROM audit_event WHERE group_id = '{world.ForeignGroupId}' AND position('ynthesis' in convert_from(leaf_bytes, 'UTF8')) > 0"));
        Assert.Equal("administrator of another group", await world.ScalarAsync<string>(
            $"SELECT actor_role FROM audit_event WHERE group_id = '{world.ForeignGroupId}' AND action = 'account.deactivated'"));

        Task<long> EventsAsync(Guid group) => world.ScalarAsync<long>(
            $"SELECT count(*) FROM audit_event WHERE group_id = '{group}' AND action = 'account.deactivated' AND subject_id = '{world.Rosa}' AND actor_id = '{world.Adam}'");
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

    [Fact]
    public async Task Found_NewGroup_HasAnAdministratorALeadAndTheirEvents()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        FoundedGroup founded = TestWorld.Must(await FoundAsync(world, "Third group (invented)", "ada", "leo"));
        Assert.Equal([GroupRole.Administrator], (await world.ActorAsync(founded.AdministratorId, founded.GroupId)).Roles);
        Assert.Equal([GroupRole.Lead], (await world.ActorAsync(founded.LeadId, founded.GroupId)).Roles);
        Assert.Equal("account.created,account.created,group.created,role.granted,role.granted", await world.ScalarAsync<string>(
            $"SELECT string_agg(action, ',' ORDER BY action) FROM audit_event WHERE group_id = '{founded.GroupId}'"));
    }

    [Theory]
    [InlineData("Synthesis group (invented)", "ada", "leo", TestWorld.Password, null)]
    [InlineData(" ", "ada", "leo", TestWorld.Password, "/group/name")]
    [InlineData("Third group (invented)", "mia", "leo", TestWorld.Password, "/administrator/userName")]
    [InlineData("Third group (invented)", "ada", "ADA", TestWorld.Password, "/lead/userName")]
    [InlineData("Third group (invented)", "ada", "leo", "abc", "/administrator/password")]
    public async Task Found_Refused_LeavesNothing(string group, string administrator, string lead, string password, string? path)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        const string Rows = "SELECT (SELECT count(*) FROM account) + (SELECT count(*) FROM research_group) + (SELECT count(*) FROM audit_event)";
        long before = await world.ScalarAsync<long>(Rows);
        Result<FoundedGroup, Refusal> result = await FoundAsync(world, group, administrator, lead, password);
        Assert.False(result.IsOk);
        if (path is null)
        {
            Assert.Equal(RefusalKind.Conflict, result.Error.Kind);
        }
        else
        {
            Assert.Contains(result.Error.Faults, fault => fault.Path.Equals(path, StringComparison.Ordinal));
        }

        Assert.Equal(before, await world.ScalarAsync<long>(Rows));
    }

    private static Task<Result<FoundedGroup, Refusal>> FoundAsync(TestWorld world, string group, string administrator, string lead, string password = TestWorld.Password) =>
        world.CallAsync<GroupSetup, Result<FoundedGroup, Refusal>>(x => x.FoundAsync(
            group, new Founder(administrator, "Ada Administrator", password), new Founder(lead, "Leo Lead", TestWorld.Password), None));

    private static Task<Result<MemberView, Refusal>> SetAsync(TestWorld world, Actor by, Guid person, GroupRole[] roles, params Hazard[] competences) =>
        world.CallAsync<GroupSetup, Result<MemberView, Refusal>>(x => x.SetMembershipAsync(by, person, roles, competences, None));
}
