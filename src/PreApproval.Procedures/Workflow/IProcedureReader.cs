namespace PreApproval.Procedures.Workflow;

/// <summary>Procedures for those who read them, limited to a group.</summary>
public interface IProcedureReader
{
    /// <summary>Newest change first; drafts without a revision only for their author.</summary>
    Task<Page<ProcedureSummary>> ListAsync(Guid groupId, Guid readerId, ProcedureState? state, PageCursor? after, int most, CancellationToken cancellationToken);

    /// <summary>Revisions in review with an open slot of the person, due first.</summary>
    Task<IReadOnlyList<ProcedureSummary>> QueueAsync(Guid groupId, Guid assigneeId, CancellationToken cancellationToken);

    Task<ProcedureRecord?> FindAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken);

    Task<IReadOnlyDictionary<Guid, string>> NamesAsync(IReadOnlyCollection<Guid> accountIds, CancellationToken cancellationToken);
}
