using System.Globalization;
using System.Security.Cryptography;
using Npgsql;
using PreApproval.Storage;
using PreApproval.Storage.PrivateClusters;
using Testcontainers.PostgreSql;

namespace PreApproval.Testing;

/// <summary>A database of one test.</summary>
/// <param name="Owner">Owns it: migrations, and tampering in tests.</param>
/// <param name="Application">The account of the application, without DDL.</param>
public sealed record TestDatabase(string Owner, string Application);

/// <summary>
/// One PostgreSQL server for the whole run. In this order: the server that PREAPPROVAL_TEST_DB names (a connection string of a role that may
/// create databases and roles), a private cluster, a container. None of them: an error, never a silent skip. Each test gets a
/// migrated database of its own, cloned from a template. For an assembly: <c>[assembly: AssemblyFixture(typeof(PostgresServer))]</c>.
/// </summary>
public sealed class PostgresServer : IAsyncDisposable
{
    private readonly Lazy<Task> _ready;
    private readonly string _template = $"preapproval_test_{Guid.CreateVersion7():N}";
    private string _administration = string.Empty;
    private string _application = string.Empty;
    private PrivateCluster? _cluster;
    private PostgreSqlContainer? _container;
    private int _next;

    public PostgresServer() => _ready = new Lazy<Task>(StartAsync);

    /// <summary>A new database with all migrations.</summary>
    public async Task<TestDatabase> CreateDatabaseAsync()
    {
        await _ready.Value;
        string name = string.Create(CultureInfo.InvariantCulture, $"{_template}_{Interlocked.Increment(ref _next)}");
        await ExecuteAsync($"CREATE DATABASE {name} TEMPLATE {_template} STRATEGY FILE_COPY");
        return new TestDatabase(On(_administration, name), On(_application, name));
    }

    public async ValueTask DisposeAsync()
    {
        if (!_ready.IsValueCreated)
        {
            return;
        }

        NpgsqlConnection.ClearAllPools();
        if (_cluster is not null)
        {
            await _cluster.DisposeAsync();
        }
        else if (_container is not null)
        {
            await _container.DisposeAsync();
        }
        else if (_administration.Length > 0)
        {
            for (int i = 1; i <= _next; i++)
            {
                await ExecuteAsync(string.Create(CultureInfo.InvariantCulture, $"DROP DATABASE IF EXISTS {_template}_{i} WITH (FORCE)"));
            }

            await ExecuteAsync($"DROP DATABASE IF EXISTS {_template} WITH (FORCE)");
            await ExecuteAsync($"DROP ROLE IF EXISTS {_template}");
        }
    }

    private async Task StartAsync()
    {
        if (Environment.GetEnvironmentVariable("PREAPPROVAL_TEST_DB") is { Length: > 0 } given)
        {
            _administration = given;
        }
        else if (PostgresBinaries.Find() is not null)
        {
            string folder = Path.Combine(Directory.Exists("/dev/shm") ? "/dev/shm" : Path.GetTempPath(), _template);
            _cluster = await PrivateCluster.StartAsync(new PrivateClusterOptions { DataFolder = folder, Durable = false, Scratch = true });
            _administration = _cluster.AdministrationConnectionString;
            _application = _cluster.ConnectionString;
        }
        else
        {
            // Fails at once, in Build(), where no container engine answers.
            _container = new PostgreSqlBuilder("postgres:17").Build();
            await _container.StartAsync();
            _administration = _container.GetConnectionString();
        }

        await ExecuteAsync($"CREATE DATABASE {_template}");
        await Migrator.MigrateAsync(On(_administration, _template));
        if (_cluster is null)
        {
            string password = Convert.ToHexString(RandomNumberGenerator.GetBytes(16));
            await ExecuteAsync($"CREATE ROLE {_template} LOGIN PASSWORD '{password}' IN ROLE {Migrator.ApplicationRole}");
            _application = new NpgsqlConnectionStringBuilder(_administration) { Username = _template, Password = password }.ConnectionString;
        }
    }

    private static string On(string connectionString, string database) =>
        new NpgsqlConnectionStringBuilder(connectionString) { Database = database, MaxPoolSize = 20, IncludeErrorDetail = true }.ConnectionString;

    private async Task ExecuteAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(_administration) { Pooling = false }.ConnectionString);
        await connection.OpenAsync();
#pragma warning disable CA2100 // names are made here
        await using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync();
    }
}
