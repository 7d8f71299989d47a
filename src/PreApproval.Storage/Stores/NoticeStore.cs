using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Notices;
using PreApproval.Storage.Model;

namespace PreApproval.Storage.Stores;

internal sealed class NoticeStore(PreApprovalDbContext db) : INoticeStore
{
    public async Task AddAsync(IReadOnlyList<NoticeRecord> notices, CancellationToken cancellationToken)
    {
        db.Notices.AddRange(notices);
        db.Outbox.AddRange(notices.Select(notice => new OutboxRow { NoticeId = notice.Id, GroupId = notice.GroupId, CreatedAt = notice.CreatedAt }));
        await db.SaveChangesAsync(cancellationToken);
    }

    public async Task<IReadOnlyList<NoticeRecord>> ListAsync(Guid groupId, Guid recipientId, bool unreadOnly, int most, CancellationToken cancellationToken) =>
        await db.Notices.AsNoTracking()
            .Where(x => x.GroupId == groupId && x.RecipientId == recipientId && (!unreadOnly || x.ReadAt == null))
            .OrderByDescending(x => x.CreatedAt).ThenByDescending(x => x.Id).Take(most).ToListAsync(cancellationToken);

    public async Task<bool> MarkReadAsync(Guid groupId, Guid recipientId, Guid noticeId, DateTimeOffset at, CancellationToken cancellationToken) =>
        await db.Notices.Where(x => x.GroupId == groupId && x.RecipientId == recipientId && x.Id == noticeId)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.ReadAt, x => x.ReadAt ?? at), cancellationToken) == 1;
}
