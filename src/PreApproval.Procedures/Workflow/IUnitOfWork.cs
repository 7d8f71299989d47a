namespace PreApproval.Procedures.Workflow;

/// <summary>
/// One database transaction for one act. Scopes nest: an inner scope is a savepoint of the outer one, so a handler's
/// refusal undoes the handler's writes and leaves the caller's transaction usable.
/// </summary>
public interface IUnitOfWork
{
    Task<IUnitScope> BeginAsync(CancellationToken cancellationToken);

    /// <summary>For reading only: everything read in it is of the same moment. Never inside another scope.</summary>
    Task<IUnitScope> BeginSnapshotAsync(CancellationToken cancellationToken);
}

/// <summary>A scope that was not committed is undone when it is disposed of.</summary>
public interface IUnitScope : IAsyncDisposable
{
    Task CommitAsync(CancellationToken cancellationToken);
}
