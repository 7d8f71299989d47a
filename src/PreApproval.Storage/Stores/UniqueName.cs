using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace PreApproval.Storage.Stores;

/// <summary>Writes that a unique index may refuse.</summary>
internal static class UniqueName
{
    /// <summary>False where the name was taken. Of two at once the second waits at the index for the first, then finds it taken.</summary>
    public static async Task<bool> IsFreeAsync(Func<Task> write)
    {
        try
        {
            await write();
            return true;
        }
        catch (DbUpdateException e) when (e.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation })
        {
            return false;
        }
        catch (PostgresException e) when (string.Equals(e.SqlState, PostgresErrorCodes.UniqueViolation, StringComparison.Ordinal))
        {
            return false;
        }
    }
}
