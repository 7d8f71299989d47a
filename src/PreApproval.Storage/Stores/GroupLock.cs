using Microsoft.EntityFrameworkCore;

namespace PreApproval.Storage.Stores;

/// <summary>
/// The row of the group's policy, which is there from the group's first day, is the lock of what screenings of the group use: its thresholds,
/// its own substances and its inventory. Both locks last until the end of the transaction.
/// </summary>
internal static class GroupLock
{
    /// <summary>Nobody writes thresholds, own substances or inventory; others may hold them too.</summary>
    public static Task HoldAsync(PreApprovalDbContext db, Guid groupId, CancellationToken cancellationToken) =>
        db.Database.ExecuteSqlAsync($"SELECT FROM group_policy WHERE group_id = {groupId} FOR SHARE", cancellationToken);

    /// <summary>One writer at a time, and nobody who holds.</summary>
    public static Task TakeAsync(PreApprovalDbContext db, Guid groupId, CancellationToken cancellationToken) =>
        db.Database.ExecuteSqlAsync($"SELECT FROM group_policy WHERE group_id = {groupId} FOR UPDATE", cancellationToken);
}
