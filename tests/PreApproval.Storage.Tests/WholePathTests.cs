using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Submission;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class WholePathTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Submit_WithoutFlag_IsClearedAndRoutedToNobody()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Aqueous work-up", "temperature/caution");
        Assert.Equal(ProcedureState.Cleared, revision.State);
        Assert.Equal(Verdict.Clear, revision.Verdict);
        Assert.Empty(revision.Slots);
        Assert.Equal(["procedure.created", "procedure.submitted", "procedure.cleared"], await ActionsAsync(world, revision.ProcedureId), StringComparer.Ordinal);
    }

    [Fact]
    public async Task Danger_ReviewedThenCountersigned_IsApprovedWithItsHistory()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView submitted = await world.SubmitAsync("Closed tube", "pressure/danger", "temperature/notice");
        Assert.Equal(ProcedureState.InReview, submitted.State);
        Assert.Equal([("review", world.Rosa, true), ("countersign", world.Lena, false)], submitted.Slots.Select(slot => (slot.Slot, slot.AssigneeId, slot.Open)));

        Result<RevisionView, Refusal> tooEarly = await world.DecideAsync(world.Lena, submitted.ProcedureId, TestWorld.Approval(1));
        Assert.Equal(RefusalKind.Conflict, tooEarly.Error?.Kind);

        world.Clock.Advance(TimeSpan.FromHours(2));
        RevisionView reviewed = TestWorld.Must(await world.DecideAsync(world.Rosa, submitted.ProcedureId, TestWorld.Approval(1, "pressure/danger")));
        Assert.Equal(ProcedureState.InReview, reviewed.State);
        Assert.Equal([("review", false), ("countersign", true)], reviewed.Slots.Select(slot => (slot.Slot, slot.Open)));
        Assert.Equal(world.Clock.GetUtcNow(), reviewed.Slots[1].Since);

        RevisionView approved = TestWorld.Must(await world.DecideAsync(world.Lena, submitted.ProcedureId, TestWorld.Approval(1)));
        Assert.Equal(ProcedureState.Approved, approved.State);
        Assert.Equal(["reviewer", "lead"], approved.Slots.Select(slot => slot.Decision!.SignerRole), StringComparer.Ordinal);
        Assert.Equal(
            ["procedure.created", "procedure.submitted", "review.routed", "review.routed", "decision.approved", "decision.approved"],
            await ActionsAsync(world, submitted.ProcedureId));

        Assert.True((await world.CheckLogAsync()).Consistent);
    }

    [Fact]
    public async Task Decide_Approve_BindsSignatureToRevisionScreeningAndAnswers()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView submitted = await world.SubmitAsync("Warm closed tube", "pressure/warning");
        RevisionView approved = TestWorld.Must(await world.DecideAsync(world.Rosa, submitted.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
        string bound = await world.ScalarAsync<string>("SELECT convert_from(bound, 'UTF8') FROM decision");
        Assert.Contains($"\"document\":\"{submitted.DocumentDigest}\"", bound, StringComparison.Ordinal);
        Assert.Contains($"\"screening\":\"{submitted.ScreeningDigest}\"", bound, StringComparison.Ordinal);
        Assert.Contains("\"decision\":\"approve\"", bound, StringComparison.Ordinal);
        Assert.Contains($"\"finding\":\"{FakeScreening.FindingId("pressure/warning")}\"", bound, StringComparison.Ordinal);

        // SHA-256 by PostgreSQL, not by us.
        Assert.Equal(await world.ScalarAsync<string>("SELECT 'sha256:' || encode(sha256(bound), 'hex') FROM decision"), Assert.Single(approved.Slots).Decision?.BoundDigest);
    }

    [Fact]
    public async Task RequestChanges_ThenNewRevision_KeepsTheFirstRevisionsBytes()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube", "pressure/warning");
        RevisionView returned = TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, new DecisionRequest(1, DecisionKind.RequestChanges, "Use the rated vessel.", [], true)));
        Assert.Equal(ProcedureState.ChangesRequested, returned.State);

        DraftView draft = TestWorld.Must(await world.SaveAsync(world.Mia, first.ProcedureId, 2, FakeScreening.Document("Tube in the rated vessel")));
        Assert.Equal(3, draft.Version);
        TestWorld.Must(await world.SaveAsync(world.Mia, first.ProcedureId, 3, FakeScreening.Document("Tube in a rated vessel")));
        RevisionView second = TestWorld.Must(await world.SubmitAsync(world.Mia, first.ProcedureId, 4));
        Assert.Equal((2, ProcedureState.InReview), (second.Number, second.State));

        Actor otto = await world.ActorAsync(world.Otto);
        RevisionView stored = TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<RevisionView, Refusal>>(queries => queries.ReadRevisionAsync(otto, first.ProcedureId, 1, None)));
        Assert.Equal(first.Document.ToArray(), stored.Document.ToArray());
        Assert.Equal(ProcedureState.ChangesRequested, stored.State);
        Assert.Single(await ActionsAsync(world, first.ProcedureId), "revision.begun".Equals);
    }

    [Fact]
    public async Task RequestChanges_NextRevisionForAnotherHazard_ComesBackToWhoAsked()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, new DecisionRequest(1, DecisionKind.RequestChanges, "Use the rated vessel.", [], true)));
        TestWorld.Must(await world.SaveAsync(world.Mia, first.ProcedureId, 2, FakeScreening.Document("Tube over a hotplate", "fire/warning")));
        RevisionView second = TestWorld.Must(await world.SubmitAsync(world.Mia, first.ProcedureId, 3));
        SlotView followUp = Assert.Single(second.Slots, slot => slot.Slot.Equals("follow-up-1", StringComparison.Ordinal));
        Assert.Equal(("Rosa Reviewer", true), (followUp.AssigneeName, followUp.Open));
        RevisionView after = TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, new DecisionRequest(2, DecisionKind.Approve, "Seen.", [], true)));
        Assert.Equal(ProcedureState.InReview, after.State);
    }

    /// <summary>Requirement of the workflow: what somebody sent back is cleared by nobody's wording alone.</summary>
    [Fact]
    public async Task RequestChanges_NextRevisionFlagsNothing_StillComesBackToWhoAsked()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, new DecisionRequest(1, DecisionKind.RequestChanges, "Use the rated vessel.", [], true)));
        TestWorld.Must(await world.SaveAsync(world.Mia, first.ProcedureId, 2, FakeScreening.Document("Tube, rated by its label")));
        RevisionView second = TestWorld.Must(await world.SubmitAsync(world.Mia, first.ProcedureId, 3));
        Assert.Equal(ProcedureState.InReview, second.State);
        SlotView followUp = Assert.Single(second.Slots);
        Assert.Equal(("follow-up-1", "Rosa Reviewer"), (followUp.Slot, followUp.AssigneeName));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'procedure.cleared'"));
        RevisionView after = TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, new DecisionRequest(2, DecisionKind.Approve, "Seen.", [], true)));
        Assert.Equal(ProcedureState.Approved, after.State);
    }

    [Fact]
    public async Task RequestChanges_NextRevisionWithdrawnInBetween_StillComesBackToWhoAsked()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, new DecisionRequest(1, DecisionKind.RequestChanges, "Use the rated vessel.", [], true)));
        TestWorld.Must(await world.SaveAsync(world.Mia, first.ProcedureId, 2, FakeScreening.Document("Tube, rated by its label")));
        TestWorld.Must(await world.SubmitAsync(world.Mia, first.ProcedureId, 3));
        Actor mia = await world.ActorAsync(world.Mia);
        TestWorld.Must(await world.CallAsync<SubmissionHandler, Result<RevisionView, Refusal>>(handler => handler.WithdrawAsync(mia, first.ProcedureId, 2, "Once more.", None)));
        RevisionView third = TestWorld.Must(await world.SubmitAsync(world.Mia, first.ProcedureId, 4));
        Assert.Equal(("Rosa Reviewer", ProcedureState.InReview), (Assert.Single(third.Slots).AssigneeName, third.State));
    }

    [Fact]
    public async Task Decide_WithThePassword_SaysThatItWasGivenAtTheSignature()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView submitted = await world.SubmitAsync("Warm closed tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, submitted.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM decision WHERE authenticated_at = signed_at AND authentication_method = 'password'"));
    }

    [Fact]
    public async Task SecondRevision_UntilApproved_LeavesTheFirstRunnable()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
        TestWorld.Must(await world.SaveAsync(world.Mia, first.ProcedureId, 2, FakeScreening.Document("Tube, larger", "pressure/warning")));
        TestWorld.Must(await world.SubmitAsync(world.Mia, first.ProcedureId, 3));
        Assert.Equal([(2, ProcedureState.InReview), (1, ProcedureState.Approved)], await StatesAsync(world, first.ProcedureId));

        TestWorld.Must(await world.DecideAsync(world.Rosa, first.ProcedureId, TestWorld.Approval(2, "pressure/warning")));
        Assert.Equal([(2, ProcedureState.Approved), (1, ProcedureState.Superseded)], await StatesAsync(world, first.ProcedureId));
        Assert.Contains("revision.superseded", await ActionsAsync(world, first.ProcedureId), StringComparer.Ordinal);
    }

    [Fact]
    public async Task Withdraw_InReview_EndsTheReviewAndTellsTheReviewer()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView submitted = await world.SubmitAsync("Tube", "pressure/warning");
        world.Clock.Advance(TimeSpan.FromMinutes(5));
        Actor mia = await world.ActorAsync(world.Mia);
        Actor rosa = await world.ActorAsync(world.Rosa);
        RevisionView withdrawn = TestWorld.Must(await world.CallAsync<SubmissionHandler, Result<RevisionView, Refusal>>(handler => handler.WithdrawAsync(mia, submitted.ProcedureId, 1, "Wrong scale.", None)));
        Assert.Equal(ProcedureState.Withdrawn, withdrawn.State);
        Assert.Equal(RefusalKind.Conflict, (await world.DecideAsync(world.Rosa, submitted.ProcedureId, TestWorld.Approval(1, "pressure/warning"))).Error?.Kind);
        IReadOnlyList<NoticeRecord> notices = await world.CallAsync<NoticeQueries, IReadOnlyList<NoticeRecord>>(queries => queries.ListAsync(rosa, unreadOnly: true, None));
        Assert.Equal(["procedure.withdrawn", "review.assigned"], notices.Select(notice => notice.Kind), StringComparer.Ordinal);
        Assert.Equal(notices.Count, await world.ScalarAsync<int>($"SELECT count(*) FROM outbox o JOIN notice n ON n.id = o.notice_id WHERE n.recipient_id = '{world.Rosa}'"));

        // The same draft may be submitted again after a withdrawal.
        Assert.Equal(2, TestWorld.Must(await world.SubmitAsync(world.Mia, submitted.ProcedureId, 2)).Number);
    }

    [Fact]
    public async Task ReviewQueue_ShowsOnlyWhatThePersonMayDecideNow()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView submitted = await world.SubmitAsync("Tube", "pressure/danger");
        Assert.Equal([submitted.ProcedureId], await QueueAsync(world, world.Rosa));
        Assert.Empty(await QueueAsync(world, world.Lena));
        TestWorld.Must(await world.DecideAsync(world.Rosa, submitted.ProcedureId, TestWorld.Approval(1, "pressure/danger")));
        Assert.Empty(await QueueAsync(world, world.Rosa));
        Assert.Equal([submitted.ProcedureId], await QueueAsync(world, world.Lena));
    }

    [Fact]
    public async Task List_InPages_GivesEachProcedureOnceNewestFirst()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        var made = new List<Guid>();
        for (int i = 0; i < 5; i++)
        {
            made.Add((await world.SubmitAsync($"Procedure {i}")).ProcedureId);
            world.Clock.Advance(i == 2 ? TimeSpan.Zero : TimeSpan.FromMinutes(1));
        }

        Actor max = await world.ActorAsync(world.Max);
        var seen = new List<Guid>();
        string? cursor = null;
        do
        {
            Page<ProcedureSummary> page = TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<Page<ProcedureSummary>, Refusal>>(queries => queries.ListAsync(max, ProcedureState.Cleared, cursor, 2, None)));
            seen.AddRange(page.Items.Select(item => item.Id));
            cursor = page.Next;
        }
        while (cursor is not null);

        // The two in the middle were changed at the same instant: their order is any, but it holds over the border of the pages.
        Assert.Equal(made.Order(), seen.Order());
        Assert.Equal([made[4], made[1], made[0]], [seen[0], seen[3], seen[4]]);
    }

    private static async Task<IReadOnlyList<Guid>> QueueAsync(TestWorld world, Guid person)
    {
        Actor actor = await world.ActorAsync(person);
        return [.. TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<IReadOnlyList<ProcedureSummary>, Refusal>>(queries => queries.ReviewQueueAsync(actor, None))).Select(item => item.Id)];
    }

    private static async Task<IReadOnlyList<(int, ProcedureState)>> StatesAsync(TestWorld world, Guid procedureId)
    {
        Actor mia = await world.ActorAsync(world.Mia);
        ProcedureView view = TestWorld.Must(await world.CallAsync<ProcedureQueries, Result<ProcedureView, Refusal>>(queries => queries.ReadAsync(mia, procedureId, None)));
        return [.. view.Revisions.Select(revision => (revision.Number, revision.State))];
    }

    private static async Task<IReadOnlyList<string>> ActionsAsync(TestWorld world, Guid procedureId)
    {
        Actor lena = await world.ActorAsync(world.Lena);
        Page<EventView> page = TestWorld.Must(await world.CallAsync<HistoryHandler, Result<Page<EventView>, Refusal>>(
            handler => handler.ListAsync(lena, new HistoryFilter { ProcedureId = procedureId }, null, 100, None)));
        return [.. page.Items.OrderBy(item => item.Sequence).Select(item => item.Action)];
    }
}
