using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage.Stores;

internal sealed class ProcedureStore(PreApprovalDbContext db) : IProcedureStore
{
    public async Task AddAsync(ProcedureRecord procedure, DraftRecord draft, CancellationToken cancellationToken)
    {
        db.Procedures.Add(procedure);
        db.Drafts.Add(draft);
        await db.SaveChangesAsync(cancellationToken);
    }

    public async Task<ProcedureRecord?> LockAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken) =>
        (await db.Procedures
            .FromSql($"SELECT * FROM procedure WHERE group_id = {groupId} AND id = {procedureId} FOR UPDATE")
            .AsNoTracking().ToListAsync(cancellationToken)).FirstOrDefault();

    public Task<DraftRecord?> FindDraftAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken) =>
        db.Drafts.AsNoTracking().FirstOrDefaultAsync(x => x.GroupId == groupId && x.ProcedureId == procedureId, cancellationToken);

    public async Task<bool> SaveDraftAsync(DraftRecord draft, int expectedVersion, CancellationToken cancellationToken)
    {
        int saved = await db.Drafts
            .Where(x => x.GroupId == draft.GroupId && x.ProcedureId == draft.ProcedureId && x.Version == expectedVersion)
            .ExecuteUpdateAsync(
                set => set
                    .SetProperty(x => x.Title, draft.Title)
                    .SetProperty(x => x.Document, draft.Document)
                    .SetProperty(x => x.Version, draft.Version)
                    .SetProperty(x => x.SavedAt, draft.SavedAt)
                    .SetProperty(x => x.SubmittedAs, (int?)null),
                cancellationToken);
        if (saved == 0)
        {
            return false;
        }

        await db.Procedures
            .Where(x => x.GroupId == draft.GroupId && x.Id == draft.ProcedureId)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.Title, draft.Title).SetProperty(x => x.UpdatedAt, draft.SavedAt), cancellationToken);
        return true;
    }

    public async Task<bool> SubmitDraftAsync(Guid groupId, Guid procedureId, int expectedVersion, int revision, DateTimeOffset at, CancellationToken cancellationToken)
    {
        int submitted = await db.Drafts
            .Where(x => x.GroupId == groupId && x.ProcedureId == procedureId && x.Version == expectedVersion)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.Version, expectedVersion + 1).SetProperty(x => x.SubmittedAs, revision), cancellationToken);
        return submitted == 1 && await db.Procedures
            .Where(x => x.GroupId == groupId && x.Id == procedureId && x.LatestRevision == revision - 1)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.LatestRevision, revision).SetProperty(x => x.UpdatedAt, at), cancellationToken) == 1;
    }

    public Task AddEditorAsync(Guid groupId, Guid procedureId, Guid accountId, CancellationToken cancellationToken) =>
        db.Database.ExecuteSqlAsync(
            $"INSERT INTO procedure_editor (procedure_id, account_id, group_id) VALUES ({procedureId}, {accountId}, {groupId}) ON CONFLICT DO NOTHING",
            cancellationToken);

    public async Task<IReadOnlyList<Guid>> EditorsAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken) =>
        await db.Editors.Where(x => x.GroupId == groupId && x.ProcedureId == procedureId).Select(x => x.AccountId).ToListAsync(cancellationToken);

    public async Task AddRevisionAsync(RevisionRecord revision, IReadOnlyList<FindingRecord> findings, IReadOnlyList<SlotRecord> slots, CancellationToken cancellationToken)
    {
        db.Revisions.Add(revision);
        db.Findings.AddRange(findings);
        db.Slots.AddRange(slots);
        await db.SaveChangesAsync(cancellationToken);
    }

    public Task<RevisionRecord?> FindRevisionAsync(Guid groupId, Guid procedureId, int number, CancellationToken cancellationToken) =>
        db.Revisions.AsNoTracking().FirstOrDefaultAsync(x => x.GroupId == groupId && x.ProcedureId == procedureId && x.Number == number, cancellationToken);

    public async Task<IReadOnlyList<RevisionHead>> RevisionsAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken) =>
        await db.Revisions
            .Where(x => x.GroupId == groupId && x.ProcedureId == procedureId)
            .OrderByDescending(x => x.Number)
            .Select(x => new RevisionHead(x.Number, x.State, x.Version, x.SubmittedAt))
            .ToListAsync(cancellationToken);

    public async Task<IReadOnlyList<FindingRecord>> FindingsAsync(Guid groupId, Guid procedureId, int revision, CancellationToken cancellationToken) =>
        await db.Findings.AsNoTracking()
            .Where(x => x.GroupId == groupId && x.ProcedureId == procedureId && x.Revision == revision)
            .OrderBy(x => x.Ordinal).ToListAsync(cancellationToken);

    public async Task<IReadOnlyList<SlotRecord>> SlotsAsync(Guid groupId, Guid procedureId, int revision, CancellationToken cancellationToken) =>
        await db.Slots.AsNoTracking()
            .Where(x => x.GroupId == groupId && x.ProcedureId == procedureId && x.Revision == revision)
            .OrderByDescending(x => x.Kind).ThenBy(x => x.Slot.Length).ThenBy(x => x.Slot).ToListAsync(cancellationToken);

    public async Task<IReadOnlyList<DecisionRecord>> DecisionsAsync(Guid groupId, Guid procedureId, int revision, CancellationToken cancellationToken) =>
        await db.Decisions.AsNoTracking()
            .Where(x => x.GroupId == groupId && x.ProcedureId == procedureId && x.Revision == revision)
            .OrderBy(x => x.SignedAt).ToListAsync(cancellationToken);

    public async Task<bool> MoveAsync(Guid groupId, Guid procedureId, RevisionHead expected, ProcedureState to, DateTimeOffset at, CancellationToken cancellationToken)
    {
        int moved = await db.Revisions
            .Where(x => x.GroupId == groupId && x.ProcedureId == procedureId && x.Number == expected.Number && x.State == expected.State && x.Version == expected.Version)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.State, to).SetProperty(x => x.Version, expected.Version + 1), cancellationToken);
        if (moved == 0)
        {
            return false;
        }

        await db.Procedures
            .Where(x => x.GroupId == groupId && x.Id == procedureId)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.UpdatedAt, at), cancellationToken);
        return true;
    }

    public async Task AddDecisionAsync(DecisionRecord decision, CancellationToken cancellationToken)
    {
        db.Decisions.Add(decision);
        await db.SaveChangesAsync(cancellationToken);
    }

    public async Task<bool> OpenSlotAsync(SlotRecord slot, DateTimeOffset since, DateTimeOffset due, CancellationToken cancellationToken) =>
        await db.Slots
            .Where(x => x.GroupId == slot.GroupId && x.ProcedureId == slot.ProcedureId && x.Revision == slot.Revision && x.Slot == slot.Slot && !x.Open)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.Open, true).SetProperty(x => x.Since, since).SetProperty(x => x.Due, due), cancellationToken) == 1;
}
