using Npgsql;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>SQL through the application's own account, as if it had slipped into its connection: the database holds it to the workflow.</summary>
public sealed class GuardTests(PostgresServer server)
{
    private const string Signed = """
        INSERT INTO decision (procedure_id, revision, slot, group_id, decision, reason, answers, signer_id, signer_name, signer_role, meaning, signed_at,
            authentication_method, authenticated_at, bound, bound_digest)
        SELECT s.procedure_id, s.revision, s.slot, s.group_id, 'approve', '', '[]', s.assignee_id, 'Somebody', 'reviewer', 'm', now(), 'password', now(), '', 'sha256:' || encode(sha256(''), 'hex')
        FROM slot s WHERE
        """;

    [Theory]
    [InlineData("UPDATE revision SET state = 'approved', version = version + 1")]
    [InlineData("UPDATE revision SET state = 'declined', version = version + 1")]
    [InlineData("UPDATE revision SET state = 'changes-requested', version = version + 1")]
    [InlineData("UPDATE revision SET state = 'cleared', version = version + 1")]
    [InlineData("UPDATE revision SET state = 'superseded', version = version + 1")]
    [InlineData("UPDATE revision SET state = 'withdrawn'")]
    [InlineData("UPDATE revision SET state = 'withdrawn', version = version + 2")]
    [InlineData("UPDATE revision SET version = version - 1")]
    [InlineData("UPDATE slot SET open = false WHERE slot = 'review'")]
    [InlineData("UPDATE slot SET due = due + interval '1 year' WHERE slot = 'review'")]
    [InlineData(Signed + " s.slot = 'countersign'")]
    [InlineData("UPDATE audit_head SET size = size - 1")]
    [InlineData("UPDATE audit_head SET size = size + 1")]
    [InlineData("UPDATE audit_head SET compact_range = compact_range")]
    [InlineData("INSERT INTO audit_head (group_id, size, compact_range) SELECT group_id, size, compact_range FROM audit_head")]
    public async Task Application_OutsideTheWorkflow_IsRefused(string sql)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.SubmitAsync("Tube", "pressure/danger");
        PostgresException refusal = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Application, sql));
        Assert.Equal(PostgresErrorCodes.RestrictViolation, refusal.SqlState);
        Assert.Equal("in-review", await world.ScalarAsync<string>("SELECT state FROM revision"));
    }

    [Fact]
    public async Task Application_ApprovingWithOneOfTwoApprovals_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/danger");
        TestWorld.Must(await world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/danger")));
        await RefusedAsync(world, "UPDATE revision SET state = 'approved', version = version + 1");
        TestWorld.Must(await world.DecideAsync(world.Lena, revision.ProcedureId, TestWorld.Approval(1)));
        Assert.Equal("approved", await world.ScalarAsync<string>("SELECT state FROM revision"));
        await RefusedAsync(world, "UPDATE revision SET state = 'in-review', version = version + 1");
    }

    [Fact]
    public async Task Application_ClearingWhatFollowsAChangeRequest_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, revision.ProcedureId, new(1, DecisionKind.RequestChanges, "Use the rated vessel.", [], true)));
        const string Next = """
            INSERT INTO revision (procedure_id, number, group_id, author_id, title, state, version, submitted_at, document, document_digest, screening, screening_digest, verdict, worst, finding_count,
                engine_version, data_digest, policy_digest)
            SELECT procedure_id, 2, group_id, author_id, title, '{state}', 1, now(), document, document_digest, screening, screening_digest, 'clear', NULL, 0, engine_version, data_digest, policy_digest FROM revision
            """;
        await RefusedAsync(world, Next.Replace("{state}", "cleared", StringComparison.Ordinal));
        Assert.Equal(1, await TestWorld.ExecuteAsync(world.Database.Application, Next.Replace("{state}", "in-review", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Application_DecisionInSomebodyElsesPlace_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.SubmitAsync("Tube", "pressure/danger");
        await RefusedAsync(world, Signed.Replace("s.assignee_id, 'Somebody'", $"'{world.Rolf}'::uuid, 'Rolf'", StringComparison.Ordinal) + " s.slot = 'review'");
        Assert.Equal(1, await TestWorld.ExecuteAsync(world.Database.Application, Signed + " s.slot = 'review'"));
    }

    [Fact]
    public async Task Application_OnePersonSigningTwoSlots_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.SubmitAsync("Tube", "pressure/warning", "fire/warning");
        await TestWorld.ExecuteAsync(world.Database.Owner, $"ALTER TABLE slot DISABLE TRIGGER USER; UPDATE slot SET assignee_id = '{world.Rosa}'");
        Assert.Equal(1, await TestWorld.ExecuteAsync(world.Database.Application, Signed + " s.slot = 'review-1'"));
        await RefusedAsync(world, Signed + " s.slot = 'review-2'");
    }

    [Theory]
    [InlineData("cleared", "review", 1)]
    [InlineData("in-review", "clear", 1)]
    [InlineData("approved", "review", 1)]
    [InlineData("in-review", "review", 2)]
    public async Task Application_RevisionBornInAnotherState_IsRefused(string state, string verdict, int version)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.SubmitAsync("Tube", "pressure/danger");
        await RefusedAsync(world, $"""
            INSERT INTO revision SELECT (made).* FROM (
                SELECT jsonb_populate_record(r, jsonb_build_object('number', 2, 'state', '{state}', 'verdict', '{verdict}', 'version', {version})) AS made FROM revision r) x
            """);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public async Task Application_EventBeyondTheHead_IsRefusedAtTheCommit(int gap)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        long size = await world.ScalarAsync<long>($"SELECT size FROM audit_head WHERE group_id = '{world.GroupId}'");
        string insert = $"""
            INSERT INTO audit_event SELECT (copied).* FROM (
                SELECT jsonb_populate_record(e, jsonb_build_object('seq', {size + gap})) AS copied FROM audit_event e WHERE seq = 0 AND group_id = '{world.GroupId}') x
            """;
        await RefusedAsync(world, insert);
        if (gap > 0)
        {
            await RefusedAsync(world, $"{insert}; UPDATE audit_head SET size = {size + gap + 1}, compact_range = int8send({size + gap + 1}) WHERE group_id = '{world.GroupId}'");
        }
    }

    private static async Task RefusedAsync(TestWorld world, string sql)
    {
        PostgresException refusal = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Application, sql));
        Assert.Equal(PostgresErrorCodes.RestrictViolation, refusal.SqlState);
    }
}
