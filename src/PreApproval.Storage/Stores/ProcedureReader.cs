using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage.Stores;

internal sealed class ProcedureReader(PreApprovalDbContext db) : IProcedureReader
{
    public async Task<Page<ProcedureSummary>> ListAsync(Guid groupId, Guid readerId, ProcedureState? state, PageCursor? after, int most, CancellationToken cancellationToken)
    {
        IQueryable<ProcedureRecord> wanted = db.Procedures.AsNoTracking()
            .Where(x => x.GroupId == groupId && (x.LatestRevision > 0 || x.AuthorId == readerId));
        if (state == ProcedureState.Draft)
        {
            wanted = wanted.Where(x => x.LatestRevision == 0);
        }
        else if (state is { } sought)
        {
            wanted = wanted.Where(x => db.Revisions.Any(r => r.ProcedureId == x.Id && r.Number == x.LatestRevision && r.State == sought));
        }

        if (after is not null)
        {
            wanted = wanted.Where(x => EF.Functions.LessThan(ValueTuple.Create(x.UpdatedAt, x.Id), ValueTuple.Create(after.UpdatedAt, after.Id)));
        }

        List<ProcedureRecord> found = await wanted.OrderByDescending(x => x.UpdatedAt).ThenByDescending(x => x.Id).Take(most + 1).ToListAsync(cancellationToken);
        List<ProcedureRecord> page = found.Take(most).ToList();
        IReadOnlyList<ProcedureSummary> items = await SummariseAsync(page, readerId, cancellationToken);
        return new Page<ProcedureSummary>(items, found.Count > most ? new PageCursor(page[^1].UpdatedAt, page[^1].Id).ToString() : null);
    }

    public async Task<IReadOnlyList<ProcedureSummary>> QueueAsync(Guid groupId, Guid assigneeId, CancellationToken cancellationToken)
    {
        var waiting = await db.Slots
            .Where(x => x.GroupId == groupId && x.AssigneeId == assigneeId && x.Open
                && db.Revisions.Any(r => r.ProcedureId == x.ProcedureId && r.Number == x.Revision && r.State == ProcedureState.InReview)
                && !db.Decisions.Any(d => d.ProcedureId == x.ProcedureId && d.Revision == x.Revision && d.Slot == x.Slot))
            .Select(x => new { x.ProcedureId, x.Due })
            .ToListAsync(cancellationToken);
        Guid[] inOrder = [.. waiting.GroupBy(x => x.ProcedureId).OrderBy(x => x.Min(slot => slot.Due)).Select(x => x.Key)];
        List<ProcedureRecord> found = await db.Procedures.AsNoTracking().Where(x => x.GroupId == groupId && inOrder.Contains(x.Id)).ToListAsync(cancellationToken);
        IReadOnlyList<ProcedureSummary> items = await SummariseAsync(found, assigneeId, cancellationToken);
        return [.. items.OrderBy(item => Array.IndexOf(inOrder, item.Id))];
    }

    public Task<ProcedureRecord?> FindAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken) =>
        db.Procedures.AsNoTracking().FirstOrDefaultAsync(x => x.GroupId == groupId && x.Id == procedureId, cancellationToken);

    public async Task<IReadOnlyDictionary<Guid, string>> NamesAsync(IReadOnlyCollection<Guid> accountIds, CancellationToken cancellationToken)
    {
        Guid[] wanted = [.. accountIds.Distinct()];
        return await db.Users.Where(x => wanted.Contains(x.Id)).ToDictionaryAsync(x => x.Id, x => x.DisplayName, cancellationToken);
    }

    private async Task<IReadOnlyList<ProcedureSummary>> SummariseAsync(List<ProcedureRecord> procedures, Guid readerId, CancellationToken cancellationToken)
    {
        Guid[] ids = [.. procedures.Select(x => x.Id)];
        var latest = await db.Revisions
            .Where(x => ids.Contains(x.ProcedureId) && db.Procedures.Any(p => p.Id == x.ProcedureId && p.LatestRevision == x.Number))
            .Select(x => new { x.ProcedureId, x.Number, x.State, x.Title, x.Worst, x.FindingCount })
            .ToDictionaryAsync(x => x.ProcedureId, cancellationToken);
        List<SlotRecord> open = await db.Slots.AsNoTracking()
            .Where(x => ids.Contains(x.ProcedureId) && x.Open
                && db.Revisions.Any(r => r.ProcedureId == x.ProcedureId && r.Number == x.Revision && r.State == ProcedureState.InReview)
                && !db.Decisions.Any(d => d.ProcedureId == x.ProcedureId && d.Revision == x.Revision && d.Slot == x.Slot))
            .OrderBy(x => x.Slot)
            .ToListAsync(cancellationToken);
        IReadOnlyDictionary<Guid, string> names = await NamesAsync([.. procedures.Select(x => x.AuthorId), .. open.Select(x => x.AssigneeId)], cancellationToken);
        ILookup<Guid, SlotRecord> waiting = open.ToLookup(x => x.ProcedureId);
        return
        [
            .. procedures.Select(x =>
            {
                var revision = latest.GetValueOrDefault(x.Id);
                ProcedureState state = revision?.State ?? ProcedureState.Draft;
                return new ProcedureSummary
                {
                    Id = x.Id,
                    Title = revision is null || x.AuthorId == readerId ? x.Title : revision.Title,
                    State = state,
                    Revision = revision?.Number,
                    AuthorName = names[x.AuthorId],
                    AuthorId = x.AuthorId,
                    UpdatedAt = x.UpdatedAt,
                    Worst = revision?.Worst,
                    FindingCount = revision?.FindingCount ?? 0,
                    Waiting = [.. waiting[x.Id].Select(slot => RevisionViews.Show(slot, state, names, null))],
                };
            }),
        ];
    }
}
