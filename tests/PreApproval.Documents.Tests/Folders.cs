using PreApproval.Testing;

namespace PreApproval.Documents.Tests;

/// <summary>Folders of the repository.</summary>
internal static class Folders
{
    public static string Docs { get; } = Path.Combine(RepositoryFolder.Path, "docs");

    public static string Examples { get; } = Path.Combine(Docs, "examples");

    /// <summary>Everyday procedures and their deadly variants.</summary>
    public static string Procedures { get; } = Path.Combine(RepositoryFolder.Path, "tests", "Procedures");
}
