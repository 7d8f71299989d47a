using System.Data;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage;

/// <summary>
/// READ COMMITTED with row locks and guarded updates. The outermost scope is the transaction, inner ones are savepoints.
/// </summary>
internal sealed class UnitOfWork(PreApprovalDbContext db) : IUnitOfWork
{
    private int _savepoints;

    public async Task<IUnitScope> BeginAsync(CancellationToken cancellationToken)
    {
        if (db.Database.CurrentTransaction is { } current)
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"scope_{++_savepoints}");
            await current.CreateSavepointAsync(name, cancellationToken);
            return new SavepointScope(db, current, name);
        }

        // A failed write undoes its whole scope, so EF's own savepoint around each write would be a wasted trip.
        db.Database.AutoSavepointsEnabled = false;
        return new TransactionScope(db, await db.Database.BeginTransactionAsync(IsolationLevel.ReadCommitted, cancellationToken));
    }

    public async Task<IUnitScope> BeginSnapshotAsync(CancellationToken cancellationToken) => db.Database.CurrentTransaction is null
        ? new TransactionScope(db, await db.Database.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellationToken))
        : throw new InvalidOperationException("A snapshot is not taken inside a unit of work.");

    private sealed class TransactionScope(PreApprovalDbContext db, IDbContextTransaction transaction) : IUnitScope
    {
        public Task CommitAsync(CancellationToken cancellationToken) => transaction.CommitAsync(cancellationToken);

        public async ValueTask DisposeAsync()
        {
            await transaction.DisposeAsync();
            db.ChangeTracker.Clear();
        }
    }

    private sealed class SavepointScope(PreApprovalDbContext db, IDbContextTransaction transaction, string name) : IUnitScope
    {
        private bool _committed;

        public async Task CommitAsync(CancellationToken cancellationToken)
        {
            await transaction.ReleaseSavepointAsync(name, cancellationToken);
            _committed = true;
        }

        public async ValueTask DisposeAsync()
        {
            if (!_committed)
            {
                await transaction.RollbackToSavepointAsync(name, CancellationToken.None);
                db.ChangeTracker.Clear();
            }
        }
    }
}
