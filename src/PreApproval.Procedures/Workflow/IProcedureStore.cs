namespace PreApproval.Procedures.Workflow;

/// <summary>
/// Procedures for the handlers that change them. Every method is limited to a group; a foreign object is not found. Methods that
/// return <see langword="bool"/> are guarded updates: false means that the row was no longer as expected, and nothing changed.
/// </summary>
public interface IProcedureStore
{
    Task AddAsync(ProcedureRecord procedure, DraftRecord draft, CancellationToken cancellationToken);

    /// <summary>Reads the procedure and holds its row until the end of the transaction: the first lock of every change.</summary>
    Task<ProcedureRecord?> LockAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken);

    Task<DraftRecord?> FindDraftAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken);

    /// <summary>Replaces the draft and the procedure's title where the draft's version is still the expected one.</summary>
    Task<bool> SaveDraftAsync(DraftRecord draft, int expectedVersion, CancellationToken cancellationToken);

    /// <summary>Marks the draft as submitted, counts its version up and moves the procedure to the revision.</summary>
    Task<bool> SubmitDraftAsync(Guid groupId, Guid procedureId, int expectedVersion, int revision, DateTimeOffset at, CancellationToken cancellationToken);

    /// <summary>Remembers who edited; repeating it changes nothing.</summary>
    Task AddEditorAsync(Guid groupId, Guid procedureId, Guid accountId, CancellationToken cancellationToken);

    Task<IReadOnlyList<Guid>> EditorsAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken);

    Task AddRevisionAsync(RevisionRecord revision, IReadOnlyList<FindingRecord> findings, IReadOnlyList<SlotRecord> slots, CancellationToken cancellationToken);

    Task<RevisionRecord?> FindRevisionAsync(Guid groupId, Guid procedureId, int number, CancellationToken cancellationToken);

    /// <summary>Newest first.</summary>
    Task<IReadOnlyList<RevisionHead>> RevisionsAsync(Guid groupId, Guid procedureId, CancellationToken cancellationToken);

    Task<IReadOnlyList<FindingRecord>> FindingsAsync(Guid groupId, Guid procedureId, int revision, CancellationToken cancellationToken);

    Task<IReadOnlyList<SlotRecord>> SlotsAsync(Guid groupId, Guid procedureId, int revision, CancellationToken cancellationToken);

    Task<IReadOnlyList<DecisionRecord>> DecisionsAsync(Guid groupId, Guid procedureId, int revision, CancellationToken cancellationToken);

    Task<bool> MoveAsync(Guid groupId, Guid procedureId, RevisionHead expected, ProcedureState to, DateTimeOffset at, CancellationToken cancellationToken);

    Task AddDecisionAsync(DecisionRecord decision, CancellationToken cancellationToken);

    Task<bool> OpenSlotAsync(SlotRecord slot, DateTimeOffset since, DateTimeOffset due, CancellationToken cancellationToken);
}
