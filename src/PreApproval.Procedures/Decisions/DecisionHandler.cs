using PreApproval.Documents;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Decisions;

/// <summary>What a reviewer decides and signs.</summary>
/// <param name="Revision">Number of the revision.</param>
/// <param name="Decision">Kind.</param>
/// <param name="Reason">Words to the author; required to request changes or decline.</param>
/// <param name="Answers">An answer to each danger and warning; required to approve.</param>
/// <param name="PasswordConfirmed">True when the password was checked for this very signature.</param>
/// <param name="Slot">The slot the signer saw; null: the open one. Another than the open one is a conflict.</param>
public sealed record DecisionRequest(int Revision, DecisionKind Decision, string Reason, IReadOnlyList<FindingAnswer> Answers, bool PasswordConfirmed, string? Slot = null);

/// <summary>Signs decisions. The slot is the open one assigned to the actor; of two who decide one slot the later gets <see cref="RefusalKind.Conflict"/>.</summary>
public sealed class DecisionHandler(
    IUnitOfWork work,
    IProcedureStore procedures,
    IGroupStore groups,
    INoticeStore notices,
    ISignRefusalStore refusals,
    AuditTrail trail,
    RevisionViews views,
    TimeProvider clock)
{
    /// <summary>Of refusals of one person on one revision for one reason the history shows the first in this time, and says how many followed.</summary>
    public static readonly TimeSpan RefusalWindow = TimeSpan.FromMinutes(10);

    /// <summary>So many refusals of a person within <see cref="RefusalWindow"/> are told to the leads.</summary>
    public const int RefusalsToTell = 3;

    public async Task<Result<RevisionView, Refusal>> DecideAsync(Actor actor, Guid procedureId, DecisionRequest request, CancellationToken cancellationToken)
    {
        ProcedureRecord? procedure;
        Refusal refusal;
        await using (IUnitScope scope = await work.BeginAsync(cancellationToken))
        {
            Standing? signer = await groups.LockStandingAsync(actor.GroupId, actor.UserId, cancellationToken);
            procedure = await procedures.LockAsync(actor.GroupId, procedureId, cancellationToken);
            if (signer is null || procedure is null
                || await procedures.FindRevisionAsync(actor.GroupId, procedureId, request.Revision, cancellationToken) is not { } revision)
            {
                return Refusal.NotFound;
            }

            // Only now nobody else can act in between: waiting counts neither as time of signing nor for a role that somebody gave themselves.
            DateTimeOffset now = clock.GetUtcNow();
            IReadOnlyList<SlotRecord> slots = await procedures.SlotsAsync(actor.GroupId, procedureId, revision.Number, cancellationToken);
            IReadOnlyList<DecisionRecord> decisions = await procedures.DecisionsAsync(actor.GroupId, procedureId, revision.Number, cancellationToken);
            var facts = new DecisionCase
            {
                AuthorId = procedure.AuthorId,
                Writers = (await procedures.EditorsAsync(actor.GroupId, procedureId, cancellationToken)).Append(procedure.AuthorId).ToHashSet(),
                State = revision.State,
                Slots = slots,
                Decided = decisions.Select(decision => decision.Slot).ToHashSet(StringComparer.Ordinal),
                SignedBy = decisions.Select(decision => decision.SignerId).ToHashSet(),
                Findings = await procedures.FindingsAsync(actor.GroupId, procedureId, revision.Number, cancellationToken),
                Signer = signer,
                Now = now,
            };
            Result<SlotRecord, Refusal> rule = DecisionRules.Check(facts, request);
            if (rule.IsOk)
            {
                // Who gives the password with the signature proves at this moment who they are.
                actor = request.PasswordConfirmed ? actor with { AuthenticatedAt = now, AuthenticationMethod = "password" } : actor;
                DecisionRecord decision = Signature.Sign(revision, rule.Value, signer, actor, request, now);
                Result<RevisionRecord, Refusal> carried = await CarryOutAsync(actor, procedure, revision, rule.Value, facts, decision, now, cancellationToken);
                if (!carried.IsOk)
                {
                    return carried.Error;
                }

                await scope.CommitAsync(cancellationToken);
                return await views.BuildAsync(carried.Value, cancellationToken);
            }

            refusal = rule.Error;
        }

        if (refusal.Kind is RefusalKind.Forbidden or RefusalKind.SignInAgain)
        {
            await RecordRefusalAsync(actor, procedure, request.Revision, refusal, cancellationToken);
        }

        return refusal;
    }

    private async Task<Result<RevisionRecord, Refusal>> CarryOutAsync(
        Actor actor,
        ProcedureRecord procedure,
        RevisionRecord revision,
        SlotRecord slot,
        DecisionCase facts,
        DecisionRecord decision,
        DateTimeOffset now,
        CancellationToken cancellationToken)
    {
        SlotRecord[] left = [.. facts.Slots.Where(other => !string.Equals(other.Slot, slot.Slot, StringComparison.Ordinal) && !facts.Decided.Contains(other.Slot))];
        WorkflowAction action = decision.Decision == DecisionKind.Approve && left.Length == 0 ? WorkflowAction.Approve : DecisionRules.ActionOf(decision.Decision);
        var expected = new RevisionHead(revision.Number, revision.State, revision.Version, revision.SubmittedAt);
        if (Transitions.Next(revision.State, action) is not { } next)
        {
            return Refusal.Because(RefusalKind.Conflict, "Somebody else decided first.");
        }

        // First the decision: the database lets a revision move only with the decisions that it needs.
        await procedures.AddDecisionAsync(decision, cancellationToken);
        if (!await procedures.MoveAsync(actor.GroupId, procedure.Id, expected, next, now, cancellationToken))
        {
            return Refusal.Because(RefusalKind.Conflict, "Somebody else decided first.");
        }

        var entries = new List<AuditEntry> { Event(procedure, revision, slot, decision, next) };
        var messages = new List<NoticeRecord> { ToAuthor(procedure, decision, next, now) };
        if (decision.Decision == DecisionKind.Approve)
        {
            messages.AddRange(await OpenCountersignaturesAsync(actor, procedure, left, now, cancellationToken));
        }

        if (next == ProcedureState.Approved)
        {
            entries.AddRange(await Superseding.SupersedeAsync(procedures, procedure, revision.Number, now, cancellationToken));
        }

        await notices.AddAsync(messages, cancellationToken);
        await trail.AppendAsync(actor, entries, cancellationToken);
        return revision with { State = next, Version = revision.Version + 1 };
    }

    private async Task<IReadOnlyList<NoticeRecord>> OpenCountersignaturesAsync(Actor actor, ProcedureRecord procedure, SlotRecord[] left, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var messages = new List<NoticeRecord>();
        if (Array.TrueForAll(left, slot => slot.Kind == SlotKind.Countersign))
        {
            foreach (SlotRecord waiting in left.Where(slot => !slot.Open))
            {
                if (!await procedures.OpenSlotAsync(waiting, now, now + (waiting.Due - waiting.Since), cancellationToken))
                {
                    throw new InvalidOperationException("A slot was opened while its procedure was held.");
                }

                messages.Add(NoticeTexts.Make(actor.GroupId, waiting.AssigneeId, "review.assigned", procedure.Id, waiting.Revision, now,
                    $"'{procedure.Title}', revision {waiting.Revision}, was approved by its reviewers and waits for your countersignature. {waiting.Reason}"));
            }
        }

        return messages;
    }

    private static AuditEntry Event(ProcedureRecord procedure, RevisionRecord revision, SlotRecord slot, DecisionRecord decision, ProcedureState next)
    {
        (string action, string verb) = Words(decision.Decision);
        string what = slot.Kind == SlotKind.Countersign && decision.Decision == DecisionKind.Approve ? "countersigned" : verb;
        return AuditEntry.About(procedure, revision.Number, action, $"{decision.SignerName} {what} revision {revision.Number} of '{revision.Title}' ({slot.Slot}).") with
        {
            ProcedureTitle = revision.Title,
            Before = WireName.Of(revision.State),
            After = WireName.Of(next),
            Reason = decision.Reason.Length == 0 ? null : decision.Reason,
            Meaning = decision.Meaning,
            PayloadDigest = decision.BoundDigest,
            RuleSet = $"{revision.EngineVersion} {revision.DataDigest} {revision.PolicyDigest}",
            ActorRole = decision.SignerRole,
        };
    }

    private static NoticeRecord ToAuthor(ProcedureRecord procedure, DecisionRecord decision, ProcedureState next, DateTimeOffset now)
    {
        (string action, string verb) = Words(decision.Decision);
        string more = next == ProcedureState.InReview ? " Other decisions are still to come." : string.Empty;
        return NoticeTexts.Make(procedure.GroupId, procedure.AuthorId, action, procedure.Id, decision.Revision, now,
            $"{decision.SignerName} {verb} revision {decision.Revision} of '{procedure.Title}'.{more}");
    }

    private static (string Action, string Verb) Words(DecisionKind decision) => decision switch
    {
        DecisionKind.Approve => ("decision.approved", "approved"),
        DecisionKind.RequestChanges => ("decision.changes-requested", "requested changes to"),
        DecisionKind.Decline => ("decision.declined", "declined"),
    };

    private async Task RecordRefusalAsync(Actor actor, ProcedureRecord procedure, int revision, Refusal refusal, CancellationToken cancellationToken)
    {
        DateTimeOffset now = clock.GetUtcNow();
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        SignRefusalCount count = await refusals.CountAsync(actor.GroupId, procedure.Id, revision, actor.UserId, refusal.Message, now, RefusalWindow, cancellationToken);
        if (count.OfPerson == RefusalsToTell)
        {
            string text = $"{actor.Name} was refused to sign {RefusalsToTell} times within {RefusalWindow.TotalMinutes} minutes, last revision {revision} of '{procedure.Title}': {refusal.Message}";
            IReadOnlyList<Standing> people = await groups.StandingsAsync(actor.GroupId, cancellationToken);
            await notices.AddAsync(
                [.. people.Where(person => person.Active && person.Is(GroupRole.Lead) && person.AccountId != actor.UserId)
                    .Select(lead => NoticeTexts.Make(actor.GroupId, lead.AccountId, "sign.refused", procedure.Id, revision, now, text))],
                cancellationToken);
        }

        if (count.InWindow == 1)
        {
            string more = count.Unwritten == 0 ? string.Empty : $" After the refusal written before this one, {count.Unwritten} more followed within {RefusalWindow.TotalMinutes} minutes.";
            AuditEntry entry = AuditEntry.About(procedure, revision, "sign.refused", $"{actor.Name} was refused to sign revision {revision} of '{procedure.Title}'.{more}") with { Reason = refusal.Message };
            await trail.AppendAsync(actor, [entry], cancellationToken);
        }

        await scope.CommitAsync(cancellationToken);
    }
}
