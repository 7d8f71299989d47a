using System.Runtime.CompilerServices;

namespace PreApproval.Documents.Tests;

/// <summary>Folders of the repository, found from this source file.</summary>
internal static class Folders
{
    public static string Docs { get; } = Path.GetFullPath(Path.Combine(Here(), "..", "..", "docs"));

    public static string Examples { get; } = Path.Combine(Docs, "examples");

    private static string Here([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
