namespace PreApproval.Testing;

/// <summary>The repository's root, found above the tests' binaries (source paths are mapped away in CI builds).</summary>
internal static class RepositoryFolder
{
    public static string Path { get; } = Find();

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(System.IO.Path.Combine(folder.FullName, "PreApproval.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("PreApproval.sln is in no folder above the tests.");
    }
}
