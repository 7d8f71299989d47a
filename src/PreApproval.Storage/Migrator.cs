using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace PreApproval.Storage;

/// <summary>Brings a database to the version of this program.</summary>
public static class Migrator
{
    /// <summary>The role that gets the application's grants. The account the application signs in with must be a member of it.</summary>
    public const string ApplicationRole = "preapproval_app";

    /// <summary>
    /// Applies the missing migrations. Needs an account that owns the database and may create roles, or a server on which the role
    /// <see cref="ApplicationRole"/> exists already. Two processes at once: the second waits.
    /// </summary>
    public static async Task MigrateAsync(string ownerConnectionString, CancellationToken cancellationToken = default)
    {
        // Not pooled: an idle connection of the owner would outlive the migration.
        string connectionString = new NpgsqlConnectionStringBuilder(ownerConnectionString) { Pooling = false }.ConnectionString;
        await using var db = new PreApprovalDbContext(StorageOptions.For(connectionString));
        await db.Database.MigrateAsync(cancellationToken);
    }

    /// <summary>True when the database lacks a migration of this program; readable with the application's own account.</summary>
    public static async Task<bool> IsBehindAsync(string connectionString, CancellationToken cancellationToken = default)
    {
        await using var db = new PreApprovalDbContext(StorageOptions.For(connectionString));
        return (await db.Database.GetPendingMigrationsAsync(cancellationToken)).Any();
    }
}
