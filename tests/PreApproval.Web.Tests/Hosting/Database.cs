namespace PreApproval.Web.Tests.Hosting;

/// <summary>Databases for tests.</summary>
internal static class Database
{
    public static async Task<string> CreateAsync()
    {
        string server = Environment.GetEnvironmentVariable("PREAPPROVAL_TEST_DB")!;
        string name = $"web_{Guid.CreateVersion7():N}";
        await using var connection = new Npgsql.NpgsqlConnection(server);
        await connection.OpenAsync();
        await using var command = new Npgsql.NpgsqlCommand($"CREATE DATABASE {name}", connection);
        await command.ExecuteNonQueryAsync();
        string made = new Npgsql.NpgsqlConnectionStringBuilder(server) { Database = name }.ConnectionString;
        await Storage.Migrator.MigrateAsync(made);
        return made;
    }

    public static Task DropAsync(string connectionString) => Task.CompletedTask;
}
