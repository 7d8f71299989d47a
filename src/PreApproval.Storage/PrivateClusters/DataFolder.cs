using System.Globalization;

namespace PreApproval.Storage.PrivateClusters;

/// <summary>The folder of a private cluster: ours, nobody else's, and used by one process at a time.</summary>
internal sealed class DataFolder : IDisposable
{
    private readonly FileStream _lock;

    private DataFolder(string root, FileStream held) => (Root, _lock) = (root, held);

    public string Root { get; }

    public string Cluster => Path.Combine(Root, "cluster");

    /// <summary>The cluster while it is being made; renamed when it is whole.</summary>
    public string Unfinished => Path.Combine(Root, "cluster.new");

    private string PidFile => Path.Combine(Cluster, "postmaster.pid");

    /// <summary>Makes or takes the folder and holds it for this process. The hold ends with the process, however it ends.</summary>
    public static DataFolder Open(string folder)
    {
        string root = Path.GetFullPath(folder);
        string lockFile = Path.Combine(root, "preapproval.lock");
        try
        {
            bool made = !Directory.Exists(root);
            Directory.CreateDirectory(root);
            if (!made && !File.Exists(lockFile) && Directory.EnumerateFileSystemEntries(root).Any())
            {
                throw new PrivateClusterException($"The folder {root} is not empty and was not made by this program. Name an empty or a new folder with --data.");
            }

            var held = new FileStream(lockFile, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            held.SetLength(0);
            held.Write(System.Text.Encoding.ASCII.GetBytes(Environment.ProcessId.ToString(CultureInfo.InvariantCulture)));
            held.Flush();
            return new DataFolder(root, held);
        }
        catch (UnauthorizedAccessException e)
        {
            throw new PrivateClusterException($"The folder {root} can't be written by this account. Name another with --data.", e);
        }
        catch (IOException e)
        {
            throw new PrivateClusterException($"The folder {root} is used by another process of this program, or can't be written: {e.Message} Stop that process, or name another folder with --data.", e);
        }
    }

    /// <summary>Major version that made the cluster; null: there is none yet.</summary>
    public int? Version()
    {
        string file = Path.Combine(Cluster, "PG_VERSION");
        if (!File.Exists(file))
        {
            return null;
        }

        return int.TryParse(File.ReadAllText(file).Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int major)
            ? major
            : throw new PrivateClusterException($"{file} names no version: the folder is damaged. Restore it from a backup.");
    }

    /// <summary>
    /// Waits until the server of a killed predecessor has ended. PostgreSQL overlooks a dead server's file itself, but not while that server is
    /// a zombie that nobody has reaped yet.
    /// </summary>
    public async Task WaitForPredecessorAsync(TimeSpan timeout, TimeProvider clock, CancellationToken cancellationToken)
    {
        long started = clock.GetTimestamp();
        while (Predecessor() is { } pid)
        {
            if (clock.GetElapsedTime(started) > timeout)
            {
                throw new PrivateClusterException(string.Create(CultureInfo.InvariantCulture, $"A PostgreSQL server (process {pid}) still runs on {Cluster}. Stop it, then start again."));
            }

            await Task.Delay(50, cancellationToken);
        }
    }

    public void Dispose() => _lock.Dispose();

    private int? Predecessor()
    {
        try
        {
            if (!File.Exists(PidFile) || !int.TryParse(File.ReadLines(PidFile).FirstOrDefault(), NumberStyles.None, CultureInfo.InvariantCulture, out int pid))
            {
                return null;
            }

            string status = $"/proc/{pid.ToString(CultureInfo.InvariantCulture)}/stat";
            string stat = File.Exists(status) ? File.ReadAllText(status) : string.Empty;
            if (stat.Contains(") Z ", StringComparison.Ordinal))
            {
                File.Delete(PidFile);
                return null;
            }

            return stat.Contains("(postgres)", StringComparison.Ordinal) ? pid : null;
        }
        catch (IOException)
        {
            // It ended while we were looking.
            return null;
        }
    }
}
