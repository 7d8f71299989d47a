namespace PreApproval.Storage.PrivateClusters;

/// <summary>How to run a private cluster.</summary>
public sealed record PrivateClusterOptions
{
    /// <summary>Folder of this program's data; the cluster is its subfolder <c>cluster</c>.</summary>
    public required string DataFolder { get; init; }

    /// <summary>False only for tests: a crash of the machine may then lose everything.</summary>
    public bool Durable { get; init; } = true;

    /// <summary>The data folder goes too when the server stops, even when this process was killed: for tests.</summary>
    public bool Scratch { get; init; }

    /// <summary>The account that serves when this process is root, because PostgreSQL refuses to run as root.</summary>
    public string ServerAccount { get; init; } = "postgres";

    /// <summary>Folder with <c>initdb</c> and <c>postgres</c>; null: looked for.</summary>
    public string? BinFolder { get; init; }

    public TimeSpan StartTimeout { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>How long to wait for the server of a process that was killed to end.</summary>
    public TimeSpan PredecessorTimeout { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>The system folder for root, whose home is closed to the server's account; else the user's data folder.</summary>
    public static string DefaultDataFolder => Environment.IsPrivilegedProcess
        ? "/var/lib/preapproval"
        : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "preapproval");
}

/// <summary>A private cluster can't be started, and nothing was changed. The message is for the person at the terminal.</summary>
public sealed class PrivateClusterException : Exception
{
    public PrivateClusterException()
    {
    }

    public PrivateClusterException(string message)
        : base(message)
    {
    }

    public PrivateClusterException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
