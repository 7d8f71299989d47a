using System.Diagnostics;
using System.Net.Sockets;
using Npgsql;

namespace PreApproval.Storage.PrivateClusters;

/// <summary>
/// A private PostgreSQL cluster. It listens on a Unix socket in a folder that only this account can enter, checks by the kernel who is at
/// the other end (peer), and dies with this process, even when the process is killed: a small shell waits on its standard input, a pipe
/// whose only write end is ours, and stops the server at its end.
/// </summary>
public sealed class PrivateCluster : IAsyncDisposable
{
    private const string Database = "preapproval";
    private const string Owner = "preapproval_owner";
    private const string Application = "preapproval";

    /// <summary>
    /// $1 the socket folder, $2 a folder to remove at the end or nothing, then the server. The shell ends when the server does; its reader asks the server
    /// for a fast shutdown when our end of the pipe closes; the server's own death signal covers a killed shell.
    /// </summary>
    private const string Guard =
        """d=$1; s=$2; shift 2; exec 3<&0 </dev/null >>"$d/server.log" 2>&1; "$@" 3<&- & p=$!; (read -r _ <&3; kill -INT $p) & w=$!; wait $p; r=$?; kill $w; [ $r = 0 ] && rm -rf -- "$d"; [ -z "$s" ] || rm -rf -- "$s"; exit $r""";

    private readonly DataFolder _folder;
    private readonly Process _guard;
    private readonly string _socketFolder;
    private int _disposed;

    private PrivateCluster(DataFolder folder, Process guard, string socketFolder) => (_folder, _guard, _socketFolder) = (folder, guard, socketFolder);

    /// <summary>For migrations: owns the database.</summary>
    public string OwnerConnectionString => Connection(Owner, Database);

    /// <summary>For the application: no DDL, and what the migrations grant.</summary>
    public string ConnectionString => new NpgsqlConnectionStringBuilder(Connection(Application, Database)) { MaxPoolSize = 40, Timeout = 5, CommandTimeout = 10 }.ConnectionString;

    /// <summary>For tests, which make further databases.</summary>
    public string AdministrationConnectionString => Connection(Owner, "postgres");

    /// <summary>Starts the cluster and, in a new data folder, makes it.</summary>
    /// <exception cref="PrivateClusterException">No server binaries, a folder that is not ours or is in use, or a server that does not start.</exception>
    public static async Task<PrivateCluster> StartAsync(PrivateClusterOptions options, CancellationToken cancellationToken = default)
    {
        if (!OperatingSystem.IsLinux())
        {
            throw new PrivateClusterException("A private cluster runs on Linux only. Give a PostgreSQL server with ConnectionStrings__PreApproval.");
        }

        DataFolder folder = DataFolder.Open(options.DataFolder);
        string? socketFolder = null;
        try
        {
            int? made = folder.Version();
            string bin = PostgresBinaries.Find(made, options.BinFolder) ?? throw new PrivateClusterException(made is { } major
                ? $"The data in {folder.Root} were written by PostgreSQL {major}, and its server is not installed (Debian and Ubuntu: apt-get install postgresql-{major})."
                : $"No PostgreSQL server (version 15 or newer) is installed. Debian and Ubuntu: apt-get install postgresql. Elsewhere set {PostgresBinaries.Variable} to the folder with initdb, or give a server with ConnectionStrings__PreApproval.");
            string[] asServer = Environment.IsPrivilegedProcess
                ? ["setpriv", $"--reuid={options.ServerAccount}", $"--regid={options.ServerAccount}", "--init-groups"]
                : ["setpriv"];

            // Short on purpose: a Unix socket's path may have 107 bytes. The folder can be entered by its owner and root only.
            socketFolder = Directory.CreateTempSubdirectory("preapproval-pg-").FullName;
            await GiveAsync(options, socketFolder, cancellationToken);
            await folder.WaitForPredecessorAsync(options.PredecessorTimeout, TimeProvider.System, cancellationToken);
            if (made is null)
            {
                await MakeAsync(options, folder, bin, asServer, cancellationToken);
            }

            await File.WriteAllLinesAsync(Path.Combine(folder.Cluster, "pg_ident.conf"), [$"preapproval \"{Environment.UserName}\" {Owner}", $"preapproval \"{Environment.UserName}\" {Application}"], cancellationToken);
            var cluster = new PrivateCluster(folder, StartServer(options, folder, bin, asServer, socketFolder), socketFolder);
            try
            {
                await cluster.WaitUntilReadyAsync(options.StartTimeout, cancellationToken);
                await cluster.PrepareAsync(cancellationToken);
                return cluster;
            }
            catch
            {
                await cluster.DisposeAsync();
                throw;
            }
        }
        catch
        {
            folder.Dispose();
            if (socketFolder is not null && Directory.Exists(socketFolder))
            {
                Directory.Delete(socketFolder, recursive: true);
            }

            throw;
        }
    }

    /// <summary>Stops the server (fast shutdown: open transactions are undone) and waits for its end.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref _disposed, 1) != 0)
        {
            return;
        }

        _guard.StandardInput.Close();
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        await _guard.WaitForExitAsync(limit.Token);
        _guard.Dispose();
        _folder.Dispose();
        if (Directory.Exists(_socketFolder))
        {
            // The guard keeps it, with the server's log, when the server failed.
            Directory.Delete(_socketFolder, recursive: true);
        }
    }

    private static async Task MakeAsync(PrivateClusterOptions options, DataFolder folder, string bin, string[] asServer, CancellationToken cancellationToken)
    {
        if (Directory.Exists(folder.Unfinished))
        {
            // Left by a start that was interrupted before the cluster was whole.
            Directory.Delete(folder.Unfinished, recursive: true);
        }

        Directory.CreateDirectory(folder.Unfinished);
        await GiveAsync(options, folder.Unfinished, cancellationToken);
        if (await RunAsync([.. asServer, "test", "-w", folder.Unfinished], cancellationToken) is { Code: not 0 })
        {
            throw new PrivateClusterException($"The account {options.ServerAccount}, which runs PostgreSQL, can't reach {folder.Root}. Name a folder outside closed home folders with --data.");
        }

        (int code, string output) = await RunAsync(
            [.. asServer, Path.Combine(bin, "initdb"), "-D", folder.Unfinished, "-U", Owner, "-A", "peer", "-E", "UTF8", "--locale=C.UTF-8", "--no-instructions", .. options.Durable ? Array.Empty<string>() : ["--no-sync"]],
            cancellationToken);
        if (code != 0)
        {
            throw new PrivateClusterException($"initdb failed in {folder.Unfinished}: {output}");
        }

        await File.WriteAllTextAsync(Path.Combine(folder.Unfinished, "pg_hba.conf"), "local all all peer map=preapproval\n", cancellationToken);
        Directory.Move(folder.Unfinished, folder.Cluster);
    }

    private static Process StartServer(PrivateClusterOptions options, DataFolder folder, string bin, string[] asServer, string socketFolder)
    {
        List<string> server = [.. asServer, "--pdeathsig", "INT", Path.Combine(bin, "postgres"), "-D", folder.Cluster,
            "-c", $"unix_socket_directories={socketFolder}", "-c", "listen_addresses=", "-c", "timezone=UTC", "-c", "log_timezone=UTC"];
        if (!options.Durable)
        {
            server.AddRange(["-c", "fsync=off", "-c", "synchronous_commit=off", "-c", "full_page_writes=off", "-c", "wal_level=minimal",
                "-c", "max_wal_senders=0", "-c", "autovacuum=off", "-c", "jit=off", "-c", "max_connections=200"]);
        }

        // A session of its own: Ctrl+C must reach this process first, not the server.
        var start = new ProcessStartInfo("setsid") { RedirectStandardInput = true, UseShellExecute = false, WorkingDirectory = "/" };
        foreach (string argument in (string[])["/bin/sh", "-c", Guard, "preapproval-guard", socketFolder, options.Scratch ? folder.Root : string.Empty, .. server])
        {
            start.ArgumentList.Add(argument);
        }

        return Process.Start(start) ?? throw new PrivateClusterException("The shell that guards the server did not start.");
    }

    /// <summary>As root, folders of the server belong to the account that serves.</summary>
    private static async Task GiveAsync(PrivateClusterOptions options, string folder, CancellationToken cancellationToken)
    {
        if (Environment.IsPrivilegedProcess && await RunAsync(["chown", $"{options.ServerAccount}:", folder], cancellationToken) is { Code: not 0 } failed)
        {
            throw new PrivateClusterException($"The account {options.ServerAccount}, which is to run PostgreSQL, can't be given {folder}: {failed.Output}");
        }
    }

    private static async Task<(int Code, string Output)> RunAsync(string[] command, CancellationToken cancellationToken)
    {
        var start = new ProcessStartInfo(command[0], command[1..]) { RedirectStandardError = true, RedirectStandardOutput = true, UseShellExecute = false, WorkingDirectory = "/" };
        using Process process = Process.Start(start) ?? throw new PrivateClusterException($"{command[0]} did not start.");
        Task<string> output = process.StandardOutput.ReadToEndAsync(cancellationToken);
        string error = await process.StandardError.ReadToEndAsync(cancellationToken);
        await process.WaitForExitAsync(cancellationToken);
        return (process.ExitCode, $"{error}{await output}".Trim());
    }

    private string Connection(string user, string database) => new NpgsqlConnectionStringBuilder
    {
        Host = _socketFolder,
        Username = user,
        Database = database,
    }.ConnectionString;

    private async Task WaitUntilReadyAsync(TimeSpan timeout, CancellationToken cancellationToken)
    {
        long started = Stopwatch.GetTimestamp();
        while (true)
        {
            try
            {
                await ExecuteAsync("SELECT 1", cancellationToken);
                return;
            }
            catch (Exception e) when (e is NpgsqlException or SocketException)
            {
                if (_guard.HasExited || Stopwatch.GetElapsedTime(started) > timeout)
                {
                    string log = Path.Combine(_socketFolder, "server.log");
                    throw new PrivateClusterException($"PostgreSQL did not start: {(File.Exists(log) ? await File.ReadAllTextAsync(log, cancellationToken) : e.Message)}", e);
                }

                await Task.Delay(20, cancellationToken);
            }
        }
    }

    /// <summary>The two roles and the database. Done at each start, so that an interrupted first start is completed by the next.</summary>
    private async Task PrepareAsync(CancellationToken cancellationToken)
    {
        await ExecuteAsync(
            $"""
            DO $$ BEGIN
                IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = '{Migrator.ApplicationRole}') THEN CREATE ROLE {Migrator.ApplicationRole} NOLOGIN; END IF;
                IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = '{Application}') THEN CREATE ROLE {Application} LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE IN ROLE {Migrator.ApplicationRole}; END IF;
            END $$;
            ALTER ROLE {Application} SET statement_timeout = '15s';
            ALTER ROLE {Application} SET lock_timeout = '5s';
            ALTER ROLE {Application} SET idle_in_transaction_session_timeout = '30s';
            """,
            cancellationToken);
        if (await ScalarAsync($"SELECT count(*) FROM pg_database WHERE datname = '{Database}'", cancellationToken) is 0L)
        {
            await ExecuteAsync($"CREATE DATABASE {Database}", cancellationToken);
            await ExecuteAsync($"REVOKE TEMPORARY ON DATABASE {Database} FROM PUBLIC", cancellationToken);
        }
    }

    private Task<object?> ExecuteAsync(string sql, CancellationToken cancellationToken) => ScalarAsync(sql, cancellationToken);

    private async Task<object?> ScalarAsync(string sql, CancellationToken cancellationToken)
    {
        // Not pooled: nothing of the owner stays open.
        await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(AdministrationConnectionString) { Pooling = false }.ConnectionString);
        await connection.OpenAsync(cancellationToken);
#pragma warning disable CA2100 // names of roles and databases can't be parameters; these are constants
        await using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        return await command.ExecuteScalarAsync(cancellationToken);
    }
}
