using System.Globalization;

namespace PreApproval.Storage.PrivateClusters;

/// <summary>Finds the programs of a PostgreSQL server.</summary>
public static class PostgresBinaries
{
    /// <summary>Names a folder with <c>initdb</c> and <c>postgres</c>.</summary>
    public const string Variable = "PREAPPROVAL_PG_BIN";

    private const int Oldest = 15;

    /// <summary>Where Debian and Ubuntu, and where the distributions of Red Hat put each version.</summary>
    private static readonly (string Root, string Prefix)[] VersionedFolders = [("/usr/lib/postgresql", string.Empty), ("/usr", "pgsql-")];

    /// <summary>
    /// The newest server from version 15, or the one of the given major version; null when there is none. The folder
    /// given, or the one in <see cref="Variable"/>, is the only one looked at; without it versioned system folders, then the search path.
    /// </summary>
    public static string? Find(int? major = null, string? folder = null)
    {
        if ((folder ?? Environment.GetEnvironmentVariable(Variable)) is { Length: > 0 } given)
        {
            return HasServer(given) ? given : null;
        }

        string? newest = VersionedFolders
            .Where(place => Directory.Exists(place.Root))
            .SelectMany(place => Directory.GetDirectories(place.Root, place.Prefix + "*")
                .Select(versioned => (Bin: Path.Combine(versioned, "bin"), Version: Version(Path.GetFileName(versioned)[place.Prefix.Length..]))))
            .Where(found => (major is null ? found.Version >= Oldest : found.Version == major) && HasServer(found.Bin))
            .OrderByDescending(found => found.Version)
            .Select(found => found.Bin)
            .FirstOrDefault();
        return newest ?? (Environment.GetEnvironmentVariable("PATH") ?? string.Empty).Split(Path.PathSeparator).FirstOrDefault(place => place.Length > 0 && HasServer(place));
    }

    private static bool HasServer(string folder) => File.Exists(Path.Combine(folder, "initdb")) && File.Exists(Path.Combine(folder, "postgres"));

    private static int Version(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int version) ? version : 0;
}
