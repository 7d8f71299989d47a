using System.Diagnostics;
using Npgsql;
using PreApproval.Storage.PrivateClusters;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class PrivateClusterTests : IDisposable
{
    private readonly string _folder = Path.Combine(Directory.Exists("/dev/shm") ? "/dev/shm" : Path.GetTempPath(), $"preapproval-cluster-{Guid.CreateVersion7():N}");

    [Fact]
    public async Task Restart_KeepsTheData()
    {
        await using (PrivateCluster first = await StartAsync())
        {
            await Migrator.MigrateAsync(first.OwnerConnectionString, Token);
            await TestWorld.ExecuteAsync(first.ConnectionString, "INSERT INTO research_group VALUES (gen_random_uuid(), 'Kept', now())");
            Assert.False(await Migrator.IsBehindAsync(first.ConnectionString, Token));
            NpgsqlConnection.ClearAllPools();
        }

        await using PrivateCluster second = await StartAsync();
        await Migrator.MigrateAsync(second.OwnerConnectionString, Token);
        Assert.Equal(1, await TestWorld.ScalarAsync<long>(second.ConnectionString, "SELECT count(*) FROM research_group WHERE name = 'Kept'"));
        NpgsqlConnection.ClearAllPools();
    }

    [Fact]
    public async Task Start_ListensOnNoPort()
    {
        await using PrivateCluster cluster = await StartAsync();
        Assert.Equal("", await TestWorld.ScalarAsync<string>(cluster.OwnerConnectionString, "SHOW listen_addresses"));
        Assert.Equal("on", await TestWorld.ScalarAsync<string>(cluster.OwnerConnectionString, "SHOW fsync"));
        Assert.Equal("off", await TestWorld.ScalarAsync<string>(cluster.ConnectionString, "SHOW is_superuser"));
        NpgsqlConnection.ClearAllPools();
    }

    [Theory]
    [InlineData("statement_timeout", "15s")]
    [InlineData("lock_timeout", "5s")]
    [InlineData("idle_in_transaction_session_timeout", "30s")]
    public async Task ApplicationAccount_WaitsForNothingForEver_TheOwnerMay(string setting, string value)
    {
        await using PrivateCluster cluster = await StartAsync();
        Assert.Equal(value, await TestWorld.ScalarAsync<string>(cluster.ConnectionString, $"SHOW {setting}"));
        Assert.Equal("0", await TestWorld.ScalarAsync<string>(cluster.OwnerConnectionString, $"SHOW {setting}"));
        var connection = new NpgsqlConnectionStringBuilder(cluster.ConnectionString);
        Assert.Equal((40, 5, 10), (connection.MaxPoolSize, connection.Timeout, connection.CommandTimeout));
        NpgsqlConnection.ClearAllPools();
    }

    [Fact]
    public async Task Start_FolderInUse_SaysSo()
    {
        await using PrivateCluster cluster = await StartAsync();
        PrivateClusterException refusal = await Assert.ThrowsAsync<PrivateClusterException>(StartAsync);
        Assert.Contains("used by another process", refusal.Message, StringComparison.Ordinal);

        // The one that runs was not disturbed.
        Assert.Equal(1, await TestWorld.ScalarAsync<int>(cluster.ConnectionString, "SELECT 1"));
        NpgsqlConnection.ClearAllPools();
    }

    [Fact]
    public async Task Start_ForeignFolder_IsRefusedAndUntouched()
    {
        Directory.CreateDirectory(_folder);
        string file = Path.Combine(_folder, "thesis.txt");
        await File.WriteAllTextAsync(file, "mine", Token);
        PrivateClusterException refusal = await Assert.ThrowsAsync<PrivateClusterException>(StartAsync);
        Assert.Contains("not empty", refusal.Message, StringComparison.Ordinal);
        Assert.Equal([file], Directory.GetFileSystemEntries(_folder));
    }

    [Fact]
    public async Task Start_NoServerBinaries_SaysWhatToInstall()
    {
        PrivateClusterException refusal = await Assert.ThrowsAsync<PrivateClusterException>(
            () => PrivateCluster.StartAsync(new PrivateClusterOptions { DataFolder = _folder, BinFolder = "/nowhere" }, Token));
        Assert.Contains("apt-get install postgresql", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task KilledParent_EndsTheServerAndTheNextStartFindsTheData()
    {
        using (Process parent = StartProcess())
        {
            string connectionString = await parent.StandardOutput.ReadLineAsync(Token) ?? throw new InvalidOperationException(await parent.StandardError.ReadToEndAsync(Token));
            await TestWorld.ExecuteAsync(connectionString, "INSERT INTO research_group VALUES (gen_random_uuid(), 'Committed before the kill', now())");
            int server = int.Parse((await File.ReadAllLinesAsync(Path.Combine(_folder, "cluster", "postmaster.pid"), Token))[0], System.Globalization.CultureInfo.InvariantCulture);
            NpgsqlConnection.ClearAllPools();

            parent.Kill();
            await parent.WaitForExitAsync(Token);
            await using PrivateCluster next = await StartAsync();
            Assert.False(Runs(server));
            Assert.Equal(1, await TestWorld.ScalarAsync<long>(next.ConnectionString, "SELECT count(*) FROM research_group"));
            NpgsqlConnection.ClearAllPools();
        }
    }

    public void Dispose()
    {
        if (Directory.Exists(_folder))
        {
            Directory.Delete(_folder, recursive: true);
        }
    }

    private Task<PrivateCluster> StartAsync() => PrivateCluster.StartAsync(new PrivateClusterOptions { DataFolder = _folder }, Token);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private Process StartProcess()
    {
        string program = typeof(PostgresServer).Assembly.Location;
        var start = new ProcessStartInfo("dotnet", ["exec", "--runtimeconfig", Path.ChangeExtension(typeof(PrivateClusterTests).Assembly.Location, ".runtimeconfig.json"), "--depsfile", Path.ChangeExtension(typeof(PrivateClusterTests).Assembly.Location, ".deps.json"), program, _folder])
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        return Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
    }

    private static bool Runs(int pid)
    {
        string stat = $"/proc/{pid}/stat";
        return File.Exists(stat) && !File.ReadAllText(stat).Contains(") Z ", StringComparison.Ordinal);
    }
}
