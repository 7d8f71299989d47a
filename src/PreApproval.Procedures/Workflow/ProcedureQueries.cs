using PreApproval.Documents;
using PreApproval.Procedures.Drafting;

namespace PreApproval.Procedures.Workflow;

/// <summary>Reads procedures and revisions. A foreign group's object is <see cref="Refusal.NotFound"/>.</summary>
public sealed class ProcedureQueries(IProcedureReader reader, IProcedureStore procedures, RevisionViews views, DraftHandler drafts)
{
    private const int LargestPage = 200;

    /// <summary>The group's procedures, newest first; drafts of others are left out.</summary>
    public async Task<Result<Page<ProcedureSummary>, Refusal>> ListAsync(Actor actor, ProcedureState? state, string? cursor, int most, CancellationToken cancellationToken)
    {
        if (!Access.MayRead(actor))
        {
            return Access.RefuseReading(actor);
        }

        PageCursor? after = null;
        if (cursor is not null && !PageCursor.TryParse(cursor, out after))
        {
            return new Refusal(RefusalKind.Invalid, "The cursor is not one of ours.", [new Fault("/cursor", "Use the value of 'next' of the page before.")]);
        }

        return await reader.ListAsync(actor.GroupId, actor.UserId, state, after, Math.Clamp(most, 1, LargestPage), cancellationToken);
    }

    /// <summary>Revisions with an open slot of the actor, due first.</summary>
    public async Task<Result<IReadOnlyList<ProcedureSummary>, Refusal>> ReviewQueueAsync(Actor actor, CancellationToken cancellationToken) =>
        Access.MayRead(actor)
            ? Result<IReadOnlyList<ProcedureSummary>, Refusal>.Ok(await reader.QueueAsync(actor.GroupId, actor.UserId, cancellationToken))
            : Access.RefuseReading(actor);

    public async Task<Result<ProcedureView, Refusal>> ReadAsync(Actor actor, Guid procedureId, CancellationToken cancellationToken)
    {
        if (!Access.MayRead(actor))
        {
            return Access.RefuseReading(actor);
        }

        if (await reader.FindAsync(actor.GroupId, procedureId, cancellationToken) is not { } procedure
            || (procedure.LatestRevision == 0 && procedure.AuthorId != actor.UserId))
        {
            return Refusal.NotFound;
        }

        IReadOnlyList<RevisionHead> heads = await procedures.RevisionsAsync(actor.GroupId, procedureId, cancellationToken);
        IReadOnlyDictionary<Guid, string> names = await reader.NamesAsync([procedure.AuthorId], cancellationToken);
        DraftView? draft = procedure.AuthorId == actor.UserId && await procedures.FindDraftAsync(actor.GroupId, procedureId, cancellationToken) is { } stored
            ? await drafts.ShowAsync(procedure, stored, cancellationToken)
            : null;
        return new ProcedureView
        {
            Id = procedure.Id,
            GroupId = procedure.GroupId,
            Title = await TitleAsync(procedure, draft, cancellationToken),
            State = heads.Count == 0 ? ProcedureState.Draft : heads[0].State,
            AuthorId = procedure.AuthorId,
            AuthorName = names[procedure.AuthorId],
            CreatedAt = procedure.CreatedAt,
            Revisions = [.. heads.Select(head => (head.Number, head.State, head.SubmittedAt))],
            Draft = draft,
        };
    }

    public async Task<Result<RevisionView, Refusal>> ReadRevisionAsync(Actor actor, Guid procedureId, int number, CancellationToken cancellationToken)
    {
        if (!Access.MayRead(actor))
        {
            return Access.RefuseReading(actor);
        }

        return await procedures.FindRevisionAsync(actor.GroupId, procedureId, number, cancellationToken) is { } revision
            ? await views.BuildAsync(revision, cancellationToken)
            : Refusal.NotFound;
    }

    /// <summary>Others see the title that was submitted, not that of the author's next draft.</summary>
    private async Task<string> TitleAsync(ProcedureRecord procedure, DraftView? draft, CancellationToken cancellationToken)
    {
        if (draft is not null || procedure.LatestRevision == 0)
        {
            return procedure.Title;
        }

        return await procedures.FindRevisionAsync(procedure.GroupId, procedure.Id, procedure.LatestRevision, cancellationToken) is { } latest ? latest.Title : procedure.Title;
    }
}
