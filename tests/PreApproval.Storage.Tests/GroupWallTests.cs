using PreApproval.Documents;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Submission;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>A group sees nothing of another one, and an object of another group looks like one that is not there.</summary>
public sealed class GroupWallTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task EveryHandler_ForeignProcedure_AnswersAsIfItWereNotThere()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        Actor fred = await world.ActorAsync(world.Fred, world.ForeignGroupId);
        Assert.NotEmpty(fred.Roles);
        foreach (Guid id in (Guid[])[revision.ProcedureId, Guid.CreateVersion7()])
        {
            Refusal?[] refusals =
            [
                (await world.CallAsync<ProcedureQueries, Result<ProcedureView, Refusal>>(x => x.ReadAsync(fred, id, None))).Error,
                (await world.CallAsync<ProcedureQueries, Result<RevisionView, Refusal>>(x => x.ReadRevisionAsync(fred, id, 1, None))).Error,
                (await world.CallAsync<DraftHandler, Result<DraftView, Refusal>>(x => x.ReadAsync(fred, id, None))).Error,
                (await world.CallAsync<DraftHandler, Result<DraftView, Refusal>>(x => x.SaveAsync(fred, id, 2, FakeScreening.Document("Mine"), None))).Error,
                (await world.CallAsync<SubmissionHandler, Result<RevisionView, Refusal>>(x => x.SubmitAsync(fred, id, 2, None))).Error,
                (await world.CallAsync<SubmissionHandler, Result<RevisionView, Refusal>>(x => x.WithdrawAsync(fred, id, 1, "", None))).Error,
                (await world.CallAsync<Procedures.Decisions.DecisionHandler, Result<RevisionView, Refusal>>(x => x.DecideAsync(fred, id, TestWorld.Approval(1), None))).Error,
            ];
            Assert.All(refusals, refusal => Assert.Equal(Refusal.NotFound, refusal));
        }
    }

    [Fact]
    public async Task EveryHandler_ByAStrangerToTheGroup_AnswersAsIfItWereNotThere()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        Actor fred = await world.ActorAsync(world.Fred, world.GroupId);
        Assert.Empty(fred.Roles);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<ProcedureQueries, Result<ProcedureView, Refusal>>(x => x.ReadAsync(fred, revision.ProcedureId, None))).Error);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<ProcedureQueries, Result<Page<ProcedureSummary>, Refusal>>(x => x.ListAsync(fred, null, null, 10, None))).Error);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<DraftHandler, Result<DraftView, Refusal>>(x => x.CreateAsync(fred, FakeScreening.Document("Mine"), None))).Error);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<HistoryHandler, Result<Page<EventView>, Refusal>>(x => x.ListAsync(fred, new HistoryFilter(), null, 10, None))).Error);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<HistoryHandler, Result<LogStatus, Refusal>>(x => x.CheckAsync(fred, None))).Error);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<Procedures.Decisions.DecisionHandler, Result<RevisionView, Refusal>>(x => x.DecideAsync(fred, revision.ProcedureId, TestWorld.Approval(1), None))).Error);
        Assert.Empty(await world.CallAsync<Procedures.Accounts.MembershipQueries, IReadOnlyList<Procedures.Accounts.MemberView>>(x => x.OfGroupAsync(fred, None)));
    }

    [Fact]
    public async Task List_AndHistory_ShowNothingOfTheOtherGroup()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.SubmitAsync("Tube", "pressure/warning");
        Actor fred = await world.ActorAsync(world.Fred, world.ForeignGroupId);
        Assert.Empty(TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<Page<ProcedureSummary>, Refusal>>(x => x.ListAsync(fred, null, null, 10, None))).Items);
        Page<EventView> history = TestWorld.Must(await world.CallAsync<HistoryHandler, Result<Page<EventView>, Refusal>>(x => x.ListAsync(fred, new HistoryFilter(), null, 500, None)));
        Assert.NotEmpty(history.Items);
        Assert.All(history.Items, item => Assert.Null(item.ProcedureId));
    }

    [Fact]
    public async Task ForeignKeys_NeverReachIntoAnotherGroup()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        Npgsql.PostgresException refusal = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => TestWorld.ExecuteAsync(
            world.Database.Application,
            $"INSERT INTO finding VALUES ('{revision.ProcedureId}', 1, 99, '{world.ForeignGroupId}', 'x', 'fire', 'notice', false)"));
        Assert.Equal(Npgsql.PostgresErrorCodes.ForeignKeyViolation, refusal.SqlState);
    }

    [Fact]
    public async Task ForeignKeys_BetweenTablesOfAGroup_AllCarryTheGroup()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        const string Between = """
            FROM pg_constraint c
            JOIN pg_attribute own ON own.attrelid = c.conrelid AND own.attname = 'group_id'
            JOIN pg_attribute other ON other.attrelid = c.confrelid AND other.attname = 'group_id'
            WHERE c.contype = 'f'
            """;

        // Counted in the model: role, competence, rule (2), procedure, editor, draft, revision, finding, slot (2), decision (2), notice (2), outbox, refusal (2), version of an own substance (2), place of an agent, version of an entry of the inventory (2).
        Assert.Equal(23, await world.ScalarAsync<long>($"SELECT count(*) {Between}"));
        Assert.Equal(0, await world.ScalarAsync<long>($"SELECT count(*) {Between} AND NOT (own.attnum = ANY (c.conkey) AND other.attnum = ANY (c.confkey))"));
    }

    [Fact]
    public async Task FirstDraft_OfAnotherMember_IsNotThereForTheGroup()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("Mia's thought");
        foreach (Guid person in (Guid[])[world.Max, world.Rosa, world.Lena, world.Otto])
        {
            Actor actor = await world.ActorAsync(person);
            Assert.Equal(Refusal.NotFound, (await world.CallAsync<ProcedureQueries, Result<ProcedureView, Refusal>>(x => x.ReadAsync(actor, id, None))).Error);
            Assert.Equal(Refusal.NotFound, (await world.CallAsync<DraftHandler, Result<DraftView, Refusal>>(x => x.ReadAsync(actor, id, None))).Error);
            Assert.Empty(TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<Page<ProcedureSummary>, Refusal>>(x => x.ListAsync(actor, null, null, 10, None))).Items);
        }
    }

    [Fact]
    public async Task NextDraft_OfAnotherMember_IsClosedButTheRevisionIsOpen()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube");
        TestWorld.Must(await world.SaveAsync(world.Mia, revision.ProcedureId, 2, FakeScreening.Document("Secret next idea")));
        Actor max = await world.ActorAsync(world.Max);
        ProcedureView view = TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<ProcedureView, Refusal>>(x => x.ReadAsync(max, revision.ProcedureId, None)));
        Assert.Equal("Tube", view.Title);
        Assert.Null(view.Draft);
        Assert.Equal("Tube", Assert.Single(TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<Page<ProcedureSummary>, Refusal>>(x => x.ListAsync(max, null, null, 10, None))).Items).Title);
        Assert.Equal(RefusalKind.Forbidden, (await world.SaveAsync(world.Max, revision.ProcedureId, 3, FakeScreening.Document("Mine"))).Error?.Kind);
    }

    [Fact]
    public async Task Administrator_ReadsNoBodies()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube");
        Actor adam = await world.ActorAsync(world.Adam);
        Assert.Equal(RefusalKind.Forbidden, (await world.CallAsync<ProcedureQueries, Result<ProcedureView, Refusal>>(x => x.ReadAsync(adam, revision.ProcedureId, None))).Error?.Kind);
        Assert.Equal(RefusalKind.Forbidden, (await world.CallAsync<ProcedureQueries, Result<RevisionView, Refusal>>(x => x.ReadRevisionAsync(adam, revision.ProcedureId, 1, None))).Error?.Kind);
        Assert.Equal(RefusalKind.Forbidden, (await world.CallAsync<DraftHandler, Result<DraftView, Refusal>>(x => x.CreateAsync(adam, FakeScreening.Document("Mine"), None))).Error?.Kind);
    }
}
