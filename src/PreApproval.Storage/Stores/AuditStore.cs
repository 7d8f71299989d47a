using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using PreApproval.Audit;
using PreApproval.Procedures.History;
using PreApproval.Storage.Model;

namespace PreApproval.Storage.Stores;

internal sealed class AuditStore(PreApprovalDbContext db) : IAuditStore
{
    private const int Piece = 2000;

    /// <summary>Of rows with their documents.</summary>
    private const int LargePiece = 100;

    public async Task AddLogAsync(Guid groupId, CancellationToken cancellationToken)
    {
        db.AuditHeads.Add(new AuditHeadRow { GroupId = groupId, Size = 0, CompactRange = CompactRange.Empty.ToBytes() });
        await db.SaveChangesAsync(cancellationToken);
    }

    public async Task<CompactRange> LockHeadAsync(Guid groupId, CancellationToken cancellationToken)
    {
        List<AuditHeadRow> rows = await db.AuditHeads
            .FromSql($"SELECT * FROM audit_head WHERE group_id = {groupId} FOR UPDATE")
            .AsNoTracking().ToListAsync(cancellationToken);
        if (rows is not [var row])
        {
            throw new DamagedLogException($"The group {groupId:D} has no head of its log: nothing can be written to its history. Restore the database from a backup.");
        }

        try
        {
            CompactRange range = CompactRange.FromBytes(row.CompactRange);
            return range.Size == row.Size ? range : throw new FormatException("It contradicts its own size.");
        }
        catch (FormatException e)
        {
            throw new DamagedLogException($"The head of the log of group {groupId:D} is damaged, and nothing can be written to its history: {e.Message} Check the history, then restore the database from a backup.", e);
        }
    }

    public Task<DateTimeOffset?> LastAtAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.AuditEvents.Where(x => x.GroupId == groupId).OrderByDescending(x => x.Sequence).Select(x => (DateTimeOffset?)x.At).FirstOrDefaultAsync(cancellationToken);

    public async Task AppendAsync(IReadOnlyList<AuditEventRecord> events, CompactRange head, CancellationToken cancellationToken)
    {
        if (events.Count == 0)
        {
            return;
        }

        Guid groupId = events[0].GroupId;
        db.AuditEvents.AddRange(events);
        await db.SaveChangesAsync(cancellationToken);
        byte[] edge = head.ToBytes();
        await db.AuditHeads.Where(x => x.GroupId == groupId)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.Size, head.Size).SetProperty(x => x.CompactRange, edge), cancellationToken);
    }

    public Task<StoredHead?> ReadHeadAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.AuditHeads.Where(x => x.GroupId == groupId).Select(x => new StoredHead(x.Size, x.CompactRange)).FirstOrDefaultAsync(cancellationToken);

    public async IAsyncEnumerable<AuditEventRecord> ReadAllAsync(Guid groupId, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        // In pieces, so that no statement of a long log comes near the time that one may take.
        long last = long.MinValue;
        List<AuditEventRecord> piece;
        do
        {
            piece = await db.AuditEvents.AsNoTracking().Where(x => x.GroupId == groupId && x.Sequence > last).OrderBy(x => x.Sequence).Take(Piece).ToListAsync(cancellationToken);
            foreach (AuditEventRecord entry in piece)
            {
                last = entry.Sequence;
                yield return entry;
            }
        }
        while (piece.Count == Piece);
    }

    public async IAsyncEnumerable<RevisionEvidence> RevisionsAsync(Guid groupId, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        Guid procedure = Guid.Empty;
        int number = 0;
        List<RevisionEvidence> piece;
        do
        {
            piece = await db.Database.SqlQuery<RevisionEvidence>(
                $"""
                SELECT procedure_id, number, author_id, state, document, document_digest, screening, screening_digest, engine_version, data_digest, policy_digest
                FROM revision WHERE group_id = {groupId} AND (procedure_id, number) > ({procedure}, {number}) ORDER BY procedure_id, number LIMIT {LargePiece}
                """).ToListAsync(cancellationToken);
            foreach (RevisionEvidence revision in piece)
            {
                (procedure, number) = (revision.ProcedureId, revision.Number);
                yield return revision;
            }
        }
        while (piece.Count == LargePiece);
    }

    public IAsyncEnumerable<SlotEvidence> SlotsAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.Slots.Where(x => x.GroupId == groupId).Select(x => new SlotEvidence(x.ProcedureId, x.Revision, x.AssigneeId)).AsAsyncEnumerable();

    public IAsyncEnumerable<DecisionEvidence> DecisionsAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.Database.SqlQuery<DecisionEvidence>(
            $"""
            SELECT procedure_id, revision, slot, decision, reason, answers::text AS answers, signer_id, signer_name, signer_role, meaning, signed_at, authentication_method, bound, bound_digest
            FROM decision WHERE group_id = {groupId}
            """).AsAsyncEnumerable();

    public IAsyncEnumerable<VersionEvidence> VersionsAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.Database.SqlQuery<VersionEvidence>(
            $"""
            SELECT 'group' AS subject, group_id AS subject_id, version, author_id, content, content_digest FROM policy_version WHERE group_id = {groupId}
            UNION ALL
            SELECT 'substance', substance_id, version, author_id, content, content_digest FROM group_substance_version WHERE group_id = {groupId}
            UNION ALL
            SELECT item.kind, held.item_id, held.version, held.author_id, held.content, held.content_digest
            FROM inventory_version held JOIN inventory_item item ON item.id = held.item_id AND item.group_id = held.group_id WHERE held.group_id = {groupId}
            """).AsAsyncEnumerable();

    public async Task<IReadOnlyList<AuditEventRecord>> ListAsync(Guid groupId, HistoryScope scope, Guid readerId, HistoryFilter filter, long? before, int most, CancellationToken cancellationToken)
    {
        IQueryable<AuditEventRecord> events = db.AuditEvents.AsNoTracking().Where(x => x.GroupId == groupId);
        events = scope switch
        {
            HistoryScope.All => events,
            HistoryScope.OwnProcedures => events.Where(x => db.Procedures.Any(p => p.GroupId == groupId && p.Id == x.ProcedureId && p.AuthorId == readerId)),
            HistoryScope.Administration => events.Where(x => x.ProcedureId == null),
        };
        if (filter.ProcedureId is { } procedureId)
        {
            events = events.Where(x => x.ProcedureId == procedureId);
        }

        if (filter.ActorId is { } actorId)
        {
            events = events.Where(x => x.ActorId == actorId);
        }

        if (!string.IsNullOrEmpty(filter.Action))
        {
            string beginning = filter.Action + ".";
            events = events.Where(x => x.Action == filter.Action || x.Action.StartsWith(beginning));
        }

        if (!string.IsNullOrWhiteSpace(filter.Text))
        {
            foreach (string word in filter.Text.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            {
                string pattern = $"%{word.Replace(@"\", @"\\", StringComparison.Ordinal).Replace("%", @"\%", StringComparison.Ordinal).Replace("_", @"\_", StringComparison.Ordinal)}%";
                events = events.Where(x => EF.Functions.ILike(x.Summary, pattern, @"\") || EF.Functions.ILike(x.ActorName, pattern, @"\")
                    || (x.ProcedureTitle != null && EF.Functions.ILike(x.ProcedureTitle, pattern, @"\")));
            }
        }

        if (filter.From is { } from)
        {
            DateTimeOffset utc = from.ToUniversalTime();
            events = events.Where(x => x.At >= utc);
        }

        if (filter.Until is { } until)
        {
            DateTimeOffset utc = until.ToUniversalTime();
            events = events.Where(x => x.At < utc);
        }

        if (before is { } sequence)
        {
            events = events.Where(x => x.Sequence < sequence);
        }

        return await events.OrderByDescending(x => x.Sequence).Take(most).ToListAsync(cancellationToken);
    }
}
