using Microsoft.EntityFrameworkCore;
using PreApproval.Audit;
using PreApproval.Procedures.History;
using PreApproval.Storage.Model;

namespace PreApproval.Storage.Stores;

internal sealed class AuditStore(PreApprovalDbContext db) : IAuditStore
{
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
        return CompactRange.FromBytes(rows.Single().CompactRange);
    }

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

    public async Task<CompactRange> HeadAsync(Guid groupId, CancellationToken cancellationToken) =>
        CompactRange.FromBytes(await db.AuditHeads.Where(x => x.GroupId == groupId).Select(x => x.CompactRange).SingleAsync(cancellationToken));

    public IAsyncEnumerable<AuditEventRecord> ReadAllAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.AuditEvents.AsNoTracking().Where(x => x.GroupId == groupId).OrderBy(x => x.Sequence).AsAsyncEnumerable();

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
