using Microsoft.EntityFrameworkCore;

namespace PreApproval.Storage;

/// <summary>How a context is set up, the same for the application, migrations and tests.</summary>
internal static class StorageOptions
{
    public const string MigrationTable = "schema_migration";

    public static void Apply(DbContextOptionsBuilder builder, string connectionString) => builder
        .UseNpgsql(connectionString, npgsql => npgsql.MigrationsHistoryTable(MigrationTable))
        .UseSnakeCaseNamingConvention();

    public static DbContextOptions<PreApprovalDbContext> For(string connectionString)
    {
        var builder = new DbContextOptionsBuilder<PreApprovalDbContext>();
        Apply(builder, connectionString);
        return builder.Options;
    }
}
