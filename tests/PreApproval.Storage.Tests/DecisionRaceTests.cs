using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;
using PreApproval.Documents;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class DecisionRaceTests(PostgresServer server)
{
    private const int Rounds = 50;

    [Fact]
    public async Task Decide_TwoReviewersAtOnce_ExactlyOneWins()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        for (int round = 0; round < Rounds; round++)
        {
            RevisionView revision = await world.SubmitAsync($"Round {round}", "pressure/warning", "fire/warning");
            Assert.Equal([world.Rosa, world.Rolf], revision.Slots.Select(slot => slot.AssigneeId));
            await OneWinsAsync(world, revision.ProcedureId, world.Rosa, world.Rolf, new DecisionRequest(1, DecisionKind.Decline, "Not in this hood.", [], true));
        }
    }

    [Fact]
    public async Task Decide_SameReviewerTwiceAtOnce_ExactlyOneWins()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        for (int round = 0; round < Rounds; round++)
        {
            // With a danger the review leaves the state as it is: only the decision itself keeps the second one out.
            string flag = round % 2 == 0 ? "pressure/danger" : "pressure/warning";
            RevisionView revision = await world.SubmitAsync($"Round {round}", flag);
            await OneWinsAsync(world, revision.ProcedureId, world.Rosa, world.Rosa, TestWorld.Approval(1, flag));
        }
    }

    [Fact]
    public async Task Decide_TwoReviewersApproveTheirOwnSlotsAtOnce_BothCount()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        for (int round = 0; round < 10; round++)
        {
            RevisionView revision = await world.SubmitAsync($"Round {round}", "pressure/warning", "fire/warning");
            Result<RevisionView, Refusal>[] both = await Task.WhenAll(
                world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning")),
                world.DecideAsync(world.Rolf, revision.ProcedureId, TestWorld.Approval(1, "fire/warning")));
            Assert.All(both, result => Assert.True(result.IsOk));
            Assert.Single(both, result => result.Value!.State == ProcedureState.Approved);
        }
    }

    [Theory]
    [InlineData("INSERT INTO decision")]
    [InlineData("INSERT INTO outbox")]
    [InlineData("INSERT INTO audit_event")]
    [InlineData("UPDATE audit_head")]
    public async Task Decide_FailingWrite_LeavesNothing(string statement)
    {
        var fault = new FailAfter(statement);
        await using TestWorld world = await TestWorld.CreateAsync(server, builder => builder.AddInterceptors(fault));
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        long events = await world.ScalarAsync<long>("SELECT count(*) FROM audit_event");
        long notices = await world.ScalarAsync<long>("SELECT count(*) FROM notice");

        fault.Armed = true;
        Exception failure = await Assert.ThrowsAnyAsync<Exception>(() => world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
        fault.Armed = false;
        Assert.IsType<InjectedFaultException>(failure.GetBaseException());

        Assert.Equal("in-review", await world.ScalarAsync<string>("SELECT state FROM revision"));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM decision"));
        Assert.Equal(events, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event"));
        Assert.Equal(notices, await world.ScalarAsync<long>("SELECT count(*) FROM notice"));
        Assert.True((await world.CheckLogAsync()).Consistent);

        // And the same decision can still be made.
        TestWorld.Must(await world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
    }

    [Fact]
    public async Task Decide_RoleTakenAway_IsRefusedThoughTheSessionStillHasIt()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        Actor rosa = await world.ActorAsync(world.Rosa);
        await TestWorld.ExecuteAsync(world.Database.Owner, $"DELETE FROM membership_role WHERE account_id = '{world.Rosa}'");
        Result<RevisionView, Refusal> result = await world.CallAsync<DecisionHandler, Result<RevisionView, Refusal>>(
            handler => handler.DecideAsync(rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning"), CancellationToken.None));
        Assert.Equal(RefusalKind.Forbidden, result.Error?.Kind);
        Assert.Equal("sign.refused", await world.ScalarAsync<string>("SELECT action FROM audit_event ORDER BY at DESC, seq DESC LIMIT 1"));
    }

    [Fact]
    public async Task Decide_WithoutPassword_AsksAgainAndWritesIt()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        Result<RevisionView, Refusal> result = await world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning") with { PasswordConfirmed = false });
        Assert.Equal(RefusalKind.SignInAgain, result.Error?.Kind);
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'sign.refused'"));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM decision"));
    }

    private static async Task OneWinsAsync(TestWorld world, Guid procedureId, Guid one, Guid other, DecisionRequest request)
    {
        Result<RevisionView, Refusal>[] results = await Task.WhenAll(world.DecideAsync(one, procedureId, request), world.DecideAsync(other, procedureId, request));
        Assert.Single(results, result => result.IsOk);
        Assert.Equal(RefusalKind.Conflict, results.Single(result => !result.IsOk).Error?.Kind);
        Assert.Equal(1, await world.ScalarAsync<long>($"SELECT count(*) FROM decision WHERE procedure_id = '{procedureId}'"));
        Assert.Equal(1, await world.ScalarAsync<long>($"SELECT count(*) FROM audit_event WHERE procedure_id = '{procedureId}' AND action LIKE 'decision.%'"));
    }

#pragma warning disable RCS1194 // thrown here only
    private sealed class InjectedFaultException : Exception;
#pragma warning restore RCS1194

    /// <summary>Lets the statement through, then fails before the handler can go on: the write itself has happened.</summary>
    private sealed class FailAfter(string statement) : DbCommandInterceptor
    {
        public bool Armed { get; set; }

        public override ValueTask<DbDataReader> ReaderExecutedAsync(DbCommand command, CommandExecutedEventData eventData, DbDataReader result, CancellationToken cancellationToken = default)
        {
            Strike(command);
            return ValueTask.FromResult(result);
        }

        public override ValueTask<int> NonQueryExecutedAsync(DbCommand command, CommandExecutedEventData eventData, int result, CancellationToken cancellationToken = default)
        {
            Strike(command);
            return ValueTask.FromResult(result);
        }

        private void Strike(DbCommand command)
        {
            if (Armed && command.CommandText.Contains(statement, StringComparison.Ordinal))
            {
                throw new InjectedFaultException();
            }
        }
    }
}
