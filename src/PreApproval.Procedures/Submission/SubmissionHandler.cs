using PreApproval.Documents;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Submission;

/// <summary>Submits drafts and withdraws submissions.</summary>
public sealed class SubmissionHandler(
    IUnitOfWork work,
    IProcedureStore procedures,
    IProcedureReader reader,
    IGroupStore groups,
    IPolicyStore policies,
    InventoryLookup inventory,
    INoticeStore notices,
    AuditTrail trail,
    RevisionViews views,
    OwnValues ownValues,
    DocumentScreener screener,
    TimeProvider clock)
{
    /// <summary>
    /// Validates the draft fully, copies the group's own values into it, screens it under the group's thresholds, makes the next revision, routes it, and clears it or puts it in review: one
    /// transaction with its events and notices. <paramref name="expectedVersion"/> is the draft's version.
    /// </summary>
    public async Task<Result<RevisionView, Refusal>> SubmitAsync(Actor actor, Guid procedureId, int expectedVersion, CancellationToken cancellationToken)
    {
        if (!Access.MayWrite(actor))
        {
            return Access.RefuseWriting(actor);
        }

        // Read and screened before anything is locked: that takes the longest, and the guarded update makes sure that it was this draft.
        if (await reader.FindAsync(actor.GroupId, procedureId, cancellationToken) is not { } found
            || await procedures.FindDraftAsync(actor.GroupId, procedureId, cancellationToken) is not { } draft)
        {
            return Refusal.NotFound;
        }

        if (WhyNot(actor, found, draft, await procedures.RevisionsAsync(actor.GroupId, procedureId, cancellationToken), expectedVersion) is { } early)
        {
            return early;
        }

        Result<CompletedDocument, DocumentRefusal> document = await ownValues.ReadAsync(actor, draft.Document, cancellationToken);
        if (!document.IsOk)
        {
            return DocumentScreener.Refuse(document.Error);
        }

        PolicyVersionRecord? set = await policies.CurrentAsync(actor.GroupId, cancellationToken);
        Policy thresholds = PolicyInUse.PolicyOf(set);
        if (await UnchangedAsync(draft, document.Value, thresholds, cancellationToken) is { } unchanged)
        {
            return unchanged;
        }

        ScreenedDocument screened = screener.Screen(document.Value.Document, thresholds);
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await procedures.LockAsync(actor.GroupId, procedureId, cancellationToken) is not { } procedure)
        {
            return Refusal.NotFound;
        }

        if (WhyNot(actor, procedure, draft, await procedures.RevisionsAsync(actor.GroupId, procedureId, cancellationToken), expectedVersion) is { } late)
        {
            return late;
        }

        if (PolicyInUse.VersionOf(await policies.HoldAsync(actor.GroupId, cancellationToken)) != PolicyInUse.VersionOf(set))
        {
            return Refusal.Because(RefusalKind.Conflict, "The group's thresholds were set anew a moment ago: look at the screening again, then submit.");
        }

        await inventory.HoldAsync(actor.GroupId, cancellationToken);
        if (await OtherwiseAsync(actor, draft, document.Value, cancellationToken) is { } otherwise)
        {
            return otherwise;
        }

        DateTimeOffset now = clock.GetUtcNow();
        int number = procedure.LatestRevision + 1;
        IReadOnlyList<Guid> askers = await AskersAsync(procedure, cancellationToken);
        RevisionRecord revision = SubmissionRows.Revision(procedure, document.Value, number, screened, askers.Count > 0, now);
        FindingRecord[] findings = [.. screened.Report.Findings.Select((finding, ordinal) => SubmissionRows.Record(revision, finding, ordinal))];
        GroupPolicy policy = await groups.PolicyAsync(actor.GroupId, cancellationToken);
        Result<IReadOnlyList<PlannedSlot>, Refusal> routed = await RouteAsync(procedure, screened.Report, findings, thresholds, policy, askers, cancellationToken);
        if (!routed.IsOk)
        {
            return routed.Error;
        }

        SlotRecord[] slots = [.. routed.Value.Select(planned => SubmissionRows.Record(revision, planned, policy, now))];
        if (!await procedures.SubmitDraftAsync(actor.GroupId, procedureId, expectedVersion, number, now, cancellationToken))
        {
            return StaleDraft;
        }

        await procedures.AddRevisionAsync(revision, findings, slots, cancellationToken);
        procedure = procedure with { Title = revision.Title };
        List<AuditEntry> entries = SubmissionRows.Events(procedure, revision, routed.Value);
        if (revision.State == ProcedureState.Cleared)
        {
            entries.AddRange(await Superseding.SupersedeAsync(procedures, procedure, number, now, cancellationToken));
        }

        await notices.AddAsync(SubmissionRows.Messages(procedure, revision, slots, now), cancellationToken);
        await trail.AppendAsync(actor, entries, cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return await views.BuildAsync(revision, cancellationToken);
    }

    /// <summary>The author takes back a revision that is in review or cleared.</summary>
    public async Task<Result<RevisionView, Refusal>> WithdrawAsync(Actor actor, Guid procedureId, int revision, string reason, CancellationToken cancellationToken)
    {
        if (!Access.MayRead(actor))
        {
            return Access.RefuseReading(actor);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await procedures.LockAsync(actor.GroupId, procedureId, cancellationToken) is not { } procedure
            || await procedures.FindRevisionAsync(actor.GroupId, procedureId, revision, cancellationToken) is not { } withdrawn)
        {
            return Refusal.NotFound;
        }

        if (procedure.AuthorId != actor.UserId)
        {
            return Refusal.Because(RefusalKind.Forbidden, "Only the author withdraws a procedure.");
        }

        if (TypedText.Fault(reason) is { } fault)
        {
            return new Refusal(RefusalKind.Invalid, "The reason can't be kept as it is.", [new Fault("/reason", fault)]);
        }

        DateTimeOffset now = clock.GetUtcNow();
        var expected = new RevisionHead(withdrawn.Number, withdrawn.State, withdrawn.Version, withdrawn.SubmittedAt);
        if (Transitions.Next(withdrawn.State, WorkflowAction.Withdraw) is not { } next
            || !await procedures.MoveAsync(actor.GroupId, procedureId, expected, next, now, cancellationToken))
        {
            return Refusal.Because(RefusalKind.Conflict, $"This revision is {WireName.Of(withdrawn.State)} and can't be withdrawn.");
        }

        IReadOnlyList<SlotRecord> slots = await procedures.SlotsAsync(actor.GroupId, procedureId, revision, cancellationToken);
        await notices.AddAsync(
            [.. slots.Where(slot => slot.Open).Select(slot => slot.AssigneeId).Distinct().Select(person => NoticeTexts.Make(actor.GroupId, person, "procedure.withdrawn", procedureId, revision, now, $"{actor.Name} withdrew revision {revision} of '{withdrawn.Title}'."))],
            cancellationToken);
        await trail.AppendAsync(
            actor,
            [AuditEntry.About(procedure, revision, "procedure.withdrawn", $"{actor.Name} withdrew revision {revision} of '{withdrawn.Title}'.") with
            {
                Before = WireName.Of(withdrawn.State), After = WireName.Of(next), Reason = string.IsNullOrWhiteSpace(reason) ? null : reason,
            }],
            cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return await views.BuildAsync(withdrawn with { State = next, Version = withdrawn.Version + 1 }, cancellationToken);
    }

    private static Refusal StaleDraft => Refusal.Because(RefusalKind.Stale, "The draft was changed in the meantime: read it again, then submit.");

    private static Refusal? WhyNot(Actor actor, ProcedureRecord procedure, DraftRecord draft, IReadOnlyList<RevisionHead> heads, int expectedVersion)
    {
        if (procedure.AuthorId != actor.UserId)
        {
            return procedure.LatestRevision == 0 ? Refusal.NotFound : Refusal.Because(RefusalKind.Forbidden, "Only the author submits a procedure.");
        }

        if (draft.Version != expectedVersion)
        {
            return StaleDraft;
        }

        if (heads is [{ State: ProcedureState.InReview } latest, ..])
        {
            return Refusal.Because(RefusalKind.Conflict, $"Revision {latest.Number} is still in review: wait for the decision, or withdraw it first.");
        }

        return null;
    }

    /// <summary>A draft that was submitted is submitted again only when it, what the group's own list says of its substances, or the group's thresholds have changed, or when that revision was taken back or has expired.</summary>
    private async Task<Refusal?> UnchangedAsync(DraftRecord draft, CompletedDocument document, Policy thresholds, CancellationToken cancellationToken) =>
        draft.SubmittedAs is { } number
        && await procedures.FindRevisionAsync(draft.GroupId, draft.ProcedureId, number, cancellationToken) is { State: not (ProcedureState.Withdrawn or ProcedureState.Expired) } submitted
        && submitted.Document.AsSpan().SequenceEqual(document.Bytes.Span)
        && string.Equals(submitted.PolicyDigest, PolicyWriter.Digest(thresholds), StringComparison.Ordinal)
            ? Refusal.Because(RefusalKind.Conflict, $"Nothing was changed since revision {number} was submitted.")
            : null;

    /// <summary>What was screened must be what the group's inventory and own list say now: a vessel set out of service meanwhile is not submitted.</summary>
    private async Task<Refusal?> OtherwiseAsync(Actor actor, DraftRecord draft, CompletedDocument screened, CancellationToken cancellationToken)
    {
        Result<CompletedDocument, DocumentRefusal> now = await ownValues.ReadAsync(actor, draft.Document, cancellationToken);
        if (!now.IsOk)
        {
            return DocumentScreener.Refuse(now.Error);
        }

        return now.Value.Bytes.Span.SequenceEqual(screened.Bytes.Span)
            ? null
            : Refusal.Because(RefusalKind.Conflict, "What the group's inventory or its own list says of this procedure was changed a moment ago: look at the screening again, then submit.");
    }

    private async Task<Result<IReadOnlyList<PlannedSlot>, Refusal>> RouteAsync(ProcedureRecord procedure, Report report, FindingRecord[] findings, Policy thresholds, GroupPolicy policy, IReadOnlyList<Guid> askers, CancellationToken cancellationToken)
    {
        if (report.Verdict == Verdict.Clear && askers.Count == 0)
        {
            return Result<IReadOnlyList<PlannedSlot>, Refusal>.Ok([]);
        }

        HashSet<Guid> writers = [.. await procedures.EditorsAsync(procedure.GroupId, procedure.Id, cancellationToken), procedure.AuthorId];
        IReadOnlyList<Standing> people = await groups.StandingsAsync(procedure.GroupId, cancellationToken);
        if (report.Verdict == Verdict.Clear)
        {
            return Router.RouteBack(people, writers, askers);
        }

        // Dangers and warnings are always routed, because they must be answered.
        FindingRecord[] flagged = [.. findings.Where(finding =>
            finding.Severity is Severity.Danger or Severity.Warning || finding.Severity <= thresholds.ReviewFrom || finding.LeavesCheckUndone)];
        return Router.Route(
            flagged,
            Array.Exists(findings, finding => finding.Severity == Severity.Danger),
            await groups.RulesAsync(procedure.GroupId, cancellationToken),
            people,
            writers,
            policy,
            askers);
    }

    /// <summary>Who asked for changes to the revision before; one that its author took back since is looked past, because withdrawing mends nothing.</summary>
    private async Task<IReadOnlyList<Guid>> AskersAsync(ProcedureRecord procedure, CancellationToken cancellationToken) =>
        (await procedures.RevisionsAsync(procedure.GroupId, procedure.Id, cancellationToken)).FirstOrDefault(head => head.State != ProcedureState.Withdrawn) is { State: ProcedureState.ChangesRequested } before
            ? [.. (await procedures.DecisionsAsync(procedure.GroupId, procedure.Id, before.Number, cancellationToken))
                .Where(decision => decision.Decision == DecisionKind.RequestChanges)
                .Select(decision => decision.SignerId)]
            : [];
}
