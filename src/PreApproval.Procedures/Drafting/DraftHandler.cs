using PreApproval.Documents;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Drafting;

/// <summary>Creates, reads and saves drafts. Only the author edits a draft.</summary>
public sealed class DraftHandler(IUnitOfWork work, IProcedureStore procedures, IProcedureReader reader, AuditTrail trail, DocumentScreener screener, TimeProvider clock)
{
    /// <summary>A new procedure with its draft; the bytes may be incomplete but not malformed. An event is written.</summary>
    public async Task<Result<DraftView, Refusal>> CreateAsync(Actor actor, ReadOnlyMemory<byte> document, CancellationToken cancellationToken)
    {
        if (!Access.MayWrite(actor))
        {
            return Access.RefuseWriting(actor);
        }

        Result<DraftReading, DocumentRefusal> reading = screener.ReadDraft(document);
        if (!reading.IsOk)
        {
            return DocumentScreener.Refuse(reading.Error);
        }

        DateTimeOffset now = clock.GetUtcNow();
        var procedure = new ProcedureRecord
        {
            Id = Guid.CreateVersion7(now),
            GroupId = actor.GroupId,
            AuthorId = actor.UserId,
            Title = TypedText.Title(reading.Value.Title),
            CreatedAt = now,
            UpdatedAt = now,
        };
        var draft = new DraftRecord
        {
            ProcedureId = procedure.Id,
            GroupId = actor.GroupId,
            Title = procedure.Title,
            Document = document.ToArray(),
            Version = 1,
            SavedAt = now,
        };
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        await procedures.AddAsync(procedure, draft, cancellationToken);
        await procedures.AddEditorAsync(actor.GroupId, procedure.Id, actor.UserId, cancellationToken);
        await trail.AppendAsync(actor, [AuditEntry.About(procedure, null, "procedure.created", $"{actor.Name} began {Named(procedure)}.")], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return Show(draft, ProcedureState.Draft, reading.Value.Faults);
    }

    /// <summary>Replaces the draft when its version is still <paramref name="expectedVersion"/>; otherwise <see cref="RefusalKind.Stale"/>. After a submission it begins the next revision's draft.</summary>
    public async Task<Result<DraftView, Refusal>> SaveAsync(Actor actor, Guid procedureId, int expectedVersion, ReadOnlyMemory<byte> document, CancellationToken cancellationToken)
    {
        if (!Access.MayWrite(actor))
        {
            return Access.RefuseWriting(actor);
        }

        Result<DraftReading, DocumentRefusal> reading = screener.ReadDraft(document);
        if (!reading.IsOk)
        {
            return DocumentScreener.Refuse(reading.Error);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await procedures.LockAsync(actor.GroupId, procedureId, cancellationToken) is not { } procedure
            || await procedures.FindDraftAsync(actor.GroupId, procedureId, cancellationToken) is not { } stored)
        {
            return Refusal.NotFound;
        }

        if (WhyNotEditor(actor, procedure) is { } refusal)
        {
            return refusal;
        }

        DateTimeOffset now = clock.GetUtcNow();
        DraftRecord draft = stored with { Title = TypedText.Title(reading.Value.Title), Document = document.ToArray(), Version = expectedVersion + 1, SavedAt = now, SubmittedAs = null };
        if (!await procedures.SaveDraftAsync(draft, expectedVersion, cancellationToken))
        {
            return Refusal.Because(RefusalKind.Stale, $"The draft was saved elsewhere in the meantime: it is at version {stored.Version}, not {expectedVersion}.");
        }

        await procedures.AddEditorAsync(actor.GroupId, procedureId, actor.UserId, cancellationToken);
        if (stored.SubmittedAs is { } submitted)
        {
            await trail.AppendAsync(
                actor,
                [AuditEntry.About(procedure, submitted + 1, "revision.begun", $"{actor.Name} began revision {submitted + 1} of {Named(procedure)}.")],
                cancellationToken);
        }

        ProcedureState state = await StateAsync(procedure, cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return Show(draft, state, reading.Value.Faults);
    }

    /// <summary>The draft, for those who may read it.</summary>
    public async Task<Result<DraftView, Refusal>> ReadAsync(Actor actor, Guid procedureId, CancellationToken cancellationToken)
    {
        if (!Access.MayRead(actor))
        {
            return Access.RefuseReading(actor);
        }

        if (await reader.FindAsync(actor.GroupId, procedureId, cancellationToken) is not { } procedure
            || await procedures.FindDraftAsync(actor.GroupId, procedureId, cancellationToken) is not { } draft)
        {
            return Refusal.NotFound;
        }

        if (WhyNotEditor(actor, procedure) is { } refusal)
        {
            return refusal;
        }

        return await ShowAsync(procedure, draft, cancellationToken);
    }

    internal async Task<DraftView> ShowAsync(ProcedureRecord procedure, DraftRecord draft, CancellationToken cancellationToken)
    {
        Result<DraftReading, DocumentRefusal> reading = screener.ReadDraft(draft.Document);
        return Show(draft, await StateAsync(procedure, cancellationToken), reading.IsOk ? reading.Value.Faults : reading.Error.Faults);
    }

    private async Task<ProcedureState> StateAsync(ProcedureRecord procedure, CancellationToken cancellationToken) =>
        procedure.LatestRevision == 0
            ? ProcedureState.Draft
            : (await procedures.RevisionsAsync(procedure.GroupId, procedure.Id, cancellationToken))[0].State;

    private static Refusal? WhyNotEditor(Actor actor, ProcedureRecord procedure)
    {
        if (procedure.AuthorId == actor.UserId)
        {
            return null;
        }

        // A first draft is its author's own: others can't tell that it is there.
        return procedure.LatestRevision == 0 ? Refusal.NotFound : Refusal.Because(RefusalKind.Forbidden, "Only the author works on the draft.");
    }

    private static string Named(ProcedureRecord procedure) => procedure.Title.Length == 0 ? "an untitled procedure" : $"'{procedure.Title}'";

    private static DraftView Show(DraftRecord draft, ProcedureState state, IReadOnlyList<Fault> faults) => new()
    {
        ProcedureId = draft.ProcedureId,
        Title = draft.Title,
        State = state,
        Document = draft.Document,
        Version = draft.Version,
        SavedAt = draft.SavedAt,
        Faults = faults,
    };
}
