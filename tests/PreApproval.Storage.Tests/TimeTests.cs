using Npgsql;
using PreApproval.Documents;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class TimeTests(PostgresServer server)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Event_AfterTheClockWasSetBack_IsNotBeforeTheEventBeforeIt()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.DraftAsync("Before");
        world.Clock.Advance(TimeSpan.FromHours(-1));
        await world.DraftAsync("After");
        Assert.Equal(0, await world.ScalarAsync<long>(
            "SELECT count(*) FROM audit_event e JOIN audit_event b ON b.group_id = e.group_id AND b.seq = e.seq - 1 WHERE e.at < b.at"));
    }

    [Fact]
    public async Task Decide_AfterWaitingForTheProcedure_IsSignedAtTheTimeOfTheSignature()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        await using var connection = new NpgsqlConnection(world.Database.Owner);
        await connection.OpenAsync(Token);
        await using NpgsqlTransaction holder = await connection.BeginTransactionAsync(Token);
        await using (var hold = new NpgsqlCommand("SELECT 1 FROM procedure FOR UPDATE", connection))
        {
            await hold.ExecuteNonQueryAsync(Token);
        }

        Task<Result<RevisionView, Refusal>> decision = world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning"));
        while (await world.ScalarAsync<long>("SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'") == 0)
        {
            await Task.Delay(20, Token);
        }

        world.Clock.Advance(TimeSpan.FromMinutes(3));
        await holder.CommitAsync(Token);
        TestWorld.Must(await decision);
        Assert.Equal(world.Clock.GetUtcNow().UtcDateTime, await world.ScalarAsync<DateTime>("SELECT signed_at FROM decision"));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM decision d JOIN audit_event e ON e.action = 'decision.approved' WHERE e.at < d.signed_at"));
    }
}
