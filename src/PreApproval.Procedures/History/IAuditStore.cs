using PreApproval.Audit;

namespace PreApproval.Procedures.History;

/// <summary>Whose events a reader sees.</summary>
public enum HistoryScope
{
    /// <summary>All of the group.</summary>
    All,

    /// <summary>Those about the reader's own procedures.</summary>
    OwnProcedures,

    /// <summary>Those about accounts, roles and settings.</summary>
    Administration,
}

/// <summary>The append-only log of each group.</summary>
public interface IAuditStore
{
    /// <summary>An empty log for a new group.</summary>
    Task AddLogAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>The right edge of the tree; its row is held until the end of the transaction, so take it last.</summary>
    /// <exception cref="DamagedLogException">The stored edge can't be read or contradicts itself.</exception>
    Task<CompactRange> LockHeadAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>The time of the last event; null in an empty log.</summary>
    Task<DateTimeOffset?> LastAtAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Writes the events and the new right edge.</summary>
    Task AppendAsync(IReadOnlyList<AuditEventRecord> events, CompactRange head, CancellationToken cancellationToken);

    /// <summary>The head's row as stored, without a lock.</summary>
    Task<StoredHead?> ReadHeadAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Events of the group in order.</summary>
    IAsyncEnumerable<AuditEventRecord> ReadAllAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Every revision of the group as stored.</summary>
    IAsyncEnumerable<RevisionEvidence> RevisionsAsync(Guid groupId, CancellationToken cancellationToken);

    IAsyncEnumerable<SlotEvidence> SlotsAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Every decision of the group as stored.</summary>
    IAsyncEnumerable<DecisionEvidence> DecisionsAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Every version of the group's thresholds, own substances and inventory as stored.</summary>
    IAsyncEnumerable<VersionEvidence> VersionsAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Newest first, those before the sequence number <paramref name="before"/>.</summary>
    Task<IReadOnlyList<AuditEventRecord>> ListAsync(Guid groupId, HistoryScope scope, Guid readerId, HistoryFilter filter, long? before, int most, CancellationToken cancellationToken);
}
