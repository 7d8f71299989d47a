using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Notices;

/// <summary>A person's own notices.</summary>
public sealed class NoticeQueries(INoticeStore notices, IUnitOfWork work, TimeProvider clock)
{
    /// <summary>Newest first, at most 200.</summary>
    public async Task<IReadOnlyList<NoticeRecord>> ListAsync(Actor actor, bool unreadOnly, CancellationToken cancellationToken) =>
        await notices.ListAsync(actor.GroupId, actor.UserId, unreadOnly, 200, cancellationToken);

    /// <summary>Marks one as read; the notice's identifier comes back.</summary>
    public async Task<Result<Guid, Refusal>> MarkReadAsync(Actor actor, Guid noticeId, CancellationToken cancellationToken)
    {
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (!await notices.MarkReadAsync(actor.GroupId, actor.UserId, noticeId, clock.GetUtcNow(), cancellationToken))
        {
            return Refusal.NotFound;
        }

        await scope.CommitAsync(cancellationToken);
        return noticeId;
    }
}
