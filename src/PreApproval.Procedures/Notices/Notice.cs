namespace PreApproval.Procedures.Notices;

/// <summary>Something a person should know. Written with the change it tells of.</summary>
public sealed record NoticeRecord
{
    public required Guid Id { get; init; }

    public required Guid GroupId { get; init; }

    public required Guid RecipientId { get; init; }

    /// <summary>For instance <c>review.assigned</c>, <c>decision.approved</c>.</summary>
    public required string Kind { get; init; }

    public required Guid ProcedureId { get; init; }

    public required int Revision { get; init; }

    public required string Text { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }

    public DateTimeOffset? ReadAt { get; init; }
}

/// <summary>Notices and the outbox from which they are mailed.</summary>
public interface INoticeStore
{
    /// <summary>Writes each notice and its outbox row.</summary>
    Task AddAsync(IReadOnlyList<NoticeRecord> notices, CancellationToken cancellationToken);

    /// <summary>Newest first.</summary>
    Task<IReadOnlyList<NoticeRecord>> ListAsync(Guid groupId, Guid recipientId, bool unreadOnly, int most, CancellationToken cancellationToken);

    Task<bool> MarkReadAsync(Guid groupId, Guid recipientId, Guid noticeId, DateTimeOffset at, CancellationToken cancellationToken);
}
