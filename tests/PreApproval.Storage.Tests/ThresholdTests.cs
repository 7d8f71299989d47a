using Npgsql;
using PreApproval.Documents;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>The group's thresholds: the lead sets them, versions stay, one event for each, and what is screened from then on is screened under them.</summary>
public sealed class ThresholdTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    private static readonly Policy Stricter = Policy.Default with { OvershootK = 20 };

    [Fact]
    public async Task Read_GroupThatSetNone_HasTheDefaultAsVersionOne()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        foreach (Guid person in (Guid[])[world.Mia, world.Otto, world.Adam])
        {
            PolicyView view = TestWorld.Must(await ReadAsync(world, person));
            Assert.Equal((1, Policy.Default, null), (view.Version, view.Policy, view.Setting));
            Assert.Equal(PolicyWriter.Digest(Policy.Default), view.Digest);
        }
    }

    [Fact]
    public async Task Set_ByTheLead_IsTheNextVersionWithOneEvent()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        PolicyView set = TestWorld.Must(await SetAsync(world, world.Lena, 1, Stricter with { DangerShare = 0.95 }));
        Assert.Equal((2, 20.0, "Lena Lead", "New blocks run past."), (set.Version, set.Policy.OvershootK, set.Setting?.By, set.Setting?.Reason));
        Assert.Equal(set.Digest, await world.ScalarAsync<string>("SELECT content_digest FROM policy_version"));
        Assert.Equal(
            "Lena Lead set the thresholds, now version 2: overshoot of a heat source 15 K → 20 K (stricter than the default); share of the rating: danger 90 % → 95 % (looser than the default).",
            await EventAsync(world, "summary"));
        Assert.Equal("overshoot of a heat source 15 K; share of the rating: danger 90 %", await EventAsync(world, "before"));
        Assert.Equal("overshoot of a heat source 20 K; share of the rating: danger 95 %", await EventAsync(world, "after"));
        Assert.Equal("New blocks run past.", await EventAsync(world, "reason"));
        Assert.Equal(set.Digest, await EventAsync(world, "payloadSha256"));
        Assert.Empty((await world.CheckLogAsync()).Faults);
    }

    [Fact]
    public async Task Versions_AfterTwoSettings_KeepEveryOneDownToTheDefault()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        TestWorld.Must(await SetAsync(world, world.Lena, 1, Stricter));
        TestWorld.Must(await SetAsync(world, world.Lena, 2, Policy.Default));
        Actor otto = await world.ActorAsync(world.Otto);
        IReadOnlyList<PolicyView> versions = TestWorld.Must(await world.CallAsync<PolicyHandler, Result<IReadOnlyList<PolicyView>, Refusal>>(handler => handler.VersionsAsync(otto, None)));
        Assert.Equal([(3, 15.0), (2, 20.0), (1, 15.0)], versions.Select(version => (version.Version, version.Policy.OvershootK)));
    }

    [Fact]
    public async Task Set_ByAnybodyElse_IsRefusedAndNothingIsKept()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        foreach (Guid person in (Guid[])[world.Mia, world.Rosa, world.Adam, world.Otto])
        {
            Assert.Equal(RefusalKind.Forbidden, (await SetAsync(world, person, 1, Stricter)).Error?.Kind);
        }

        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM policy_version"));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'thresholds.set'"));
    }

    [Fact]
    public async Task Set_InOneGroup_LeavesTheOtherAsItWas()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        TestWorld.Must(await SetAsync(world, world.Lena, 1, Stricter));
        Actor fred = await world.ActorAsync(world.Fred, world.ForeignGroupId);
        Assert.Equal(Policy.Default, await world.CallAsync<PolicyInUse, Policy>(policies => policies.OfAsync(fred, None)));
        Actor stranger = await world.ActorAsync(world.Fred, world.GroupId);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<PolicyHandler, Result<PolicyView, Refusal>>(handler => handler.ReadAsync(stranger, None))).Error);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<PolicyHandler, Result<PolicyView, Refusal>>(handler => handler.SetAsync(stranger, 2, Policy.Default, "mine", None))).Error);
        Assert.Equal(Policy.Default, await world.CallAsync<PolicyInUse, Policy>(policies => policies.OfAsync(stranger, None)));
    }

    [Fact]
    public async Task Set_TwoAtOnceOnOneVersion_OneIsStale()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Result<PolicyView, Refusal>[] both = await Task.WhenAll(SetAsync(world, world.Lena, 1, Stricter), SetAsync(world, world.Lena, 1, Policy.Default with { OvershootK = 30 }));
        Assert.Single(both, result => result.IsOk);
        Assert.Equal(RefusalKind.Stale, both.Single(result => !result.IsOk).Error?.Kind);
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM policy_version"));
    }

    [Theory]
    [InlineData(1.2, "why", "/policy/dangerShare")]
    [InlineData(0.6, "why", "/policy/warningShareMetal")]
    [InlineData(0.95, "  ", "/reason")]
    public async Task Set_OutOfRangeOrWithoutAReason_IsRefusedAtItsPlace(double dangerShare, string reason, string path)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Refusal refusal = (await SetAsync(world, world.Lena, 1, Policy.Default with { DangerShare = dangerShare }, reason)).Error!;
        Assert.Equal(RefusalKind.Invalid, refusal.Kind);
        Assert.Equal(path, Assert.Single(refusal.Faults).Path);
    }

    [Fact]
    public async Task Set_TheSame_MakesNoVersion()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Assert.Equal(1, TestWorld.Must(await SetAsync(world, world.Lena, 1, Policy.Default with { })).Version);
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'thresholds.set'"));
    }

    [Fact]
    public async Task Submit_AfterASetting_IsScreenedUnderItAndTheEarlierRevisionKeepsItsOwn()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube", "pressure/warning");
        Assert.Equal((ProcedureState.InReview, PolicyWriter.Digest(Policy.Default)), (first.State, first.PolicyDigest));
        TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, new(1, DecisionKind.Decline, "Not in this tube.", [], true)));
        PolicyView set = TestWorld.Must(await SetAsync(world, world.Lena, 1, Policy.Default with { ReviewFrom = Severity.Danger }));

        // the draft is as it was, and the thresholds are not
        RevisionView second = TestWorld.Must(await world.SubmitAsync(world.Mia, first.ProcedureId, 2));
        Assert.Equal((ProcedureState.Cleared, set.Digest), (second.State, second.PolicyDigest));
        Assert.Equal(PolicyWriter.Digest(Policy.Default), await world.ScalarAsync<string>("SELECT policy_digest FROM revision WHERE number = 1"));
        Assert.Equal(RefusalKind.Conflict, (await world.SubmitAsync(world.Mia, first.ProcedureId, 3)).Error?.Kind);
    }

    [Fact]
    public async Task Submit_WhileTheThresholdsAreSet_WaitsAndIsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid procedure = await world.DraftAsync("Tube", "pressure/warning");
        await using var lead = new NpgsqlConnection(world.Database.Owner);
        await lead.OpenAsync(TestContext.Current.CancellationToken);
        await using NpgsqlTransaction setting = await lead.BeginTransactionAsync(TestContext.Current.CancellationToken);
        await TestWorld.ExecuteAsync(lead, $"SELECT FROM group_policy WHERE group_id = '{world.GroupId}' FOR UPDATE");
        await TestWorld.ExecuteAsync(lead, $"INSERT INTO policy_version (group_id, version, author_id, at, reason, content, content_digest) VALUES ('{world.GroupId}', 2, '{world.Lena}', now(), 'test', '{{}}', 'sha256:' || encode(sha256('{{}}'), 'hex'))");

        Task<Result<RevisionView, Refusal>> submitting = world.SubmitAsync(world.Mia, procedure, 1);
        while (await world.ScalarAsync<long>("SELECT count(*) FROM pg_locks WHERE NOT granted") == 0 && !submitting.IsCompleted)
        {
            await Task.Delay(10, TestContext.Current.CancellationToken);
        }

        await setting.CommitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(RefusalKind.Conflict, (await submitting).Error?.Kind);
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM revision"));
        Assert.True((await world.SubmitAsync(world.Mia, procedure, 1)).IsOk);
    }

    [Theory]
    [InlineData("UPDATE policy_version SET reason = 'another'", PostgresErrorCodes.InsufficientPrivilege)]
    [InlineData("DELETE FROM policy_version", PostgresErrorCodes.InsufficientPrivilege)]
    [InlineData("INSERT INTO policy_version SELECT group_id, 4, author_id, at, reason, content, content_digest FROM policy_version", PostgresErrorCodes.RestrictViolation)]
    [InlineData("INSERT INTO policy_version SELECT group_id, 3, author_id, at, ' ', content, content_digest FROM policy_version", PostgresErrorCodes.CheckViolation)]
    [InlineData("INSERT INTO policy_version SELECT group_id, 3, author_id, at, reason, content || ' ', content_digest FROM policy_version", PostgresErrorCodes.CheckViolation)]
    public async Task Application_ChangingAVersionOrSkippingOne_IsRefused(string sql, string state)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        TestWorld.Must(await SetAsync(world, world.Lena, 1, Stricter));
        PostgresException refusal = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Application, sql));
        Assert.Equal(state, refusal.SqlState);
    }

    [Fact]
    public async Task Owner_ChangingAVersion_IsRefusedByTheTrigger()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        TestWorld.Must(await SetAsync(world, world.Lena, 1, Stricter));
        PostgresException refusal = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Owner, "UPDATE policy_version SET reason = 'another'"));
        Assert.Equal(PostgresErrorCodes.RestrictViolation, refusal.SqlState);
    }

    private static async Task<Result<PolicyView, Refusal>> ReadAsync(TestWorld world, Guid person)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<PolicyHandler, Result<PolicyView, Refusal>>(handler => handler.ReadAsync(actor, None));
    }

    private static async Task<Result<PolicyView, Refusal>> SetAsync(TestWorld world, Guid person, int version, Policy policy, string reason = "New blocks run past.")
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<PolicyHandler, Result<PolicyView, Refusal>>(handler => handler.SetAsync(actor, version, policy, reason, None));
    }

    private static Task<string> EventAsync(TestWorld world, string member) =>
        world.ScalarAsync<string>($"SELECT convert_from(leaf_bytes, 'UTF8')::jsonb ->> '{member}' FROM audit_event WHERE action = 'thresholds.set'");
}
