using System.Text.RegularExpressions;

namespace PreApproval.Architecture.Tests;

/// <summary>What source files may not contain, and that a line of code can be found by its namespace.</summary>
public sealed partial class SourceTests
{
    private static readonly string[] Text = [".cs", ".razor", ".js", ".css", ".sql", ".tsv", ".bib", ".md", ".json", ".csproj"];

    private static readonly IReadOnlyList<string> CodeFiles = SourceTree.Files(Path.Combine(SourceTree.Root, "src"), ".cs");

    [Theory]
    [InlineData("TODO")]
    [InlineData("FIXME")]
    [InlineData("NotImplementedException")]
    public void Sources_UnfinishedMarks_None(string word)
    {
        IReadOnlyList<string> files = SourceTree.Files(Path.Combine(SourceTree.Root, "src"), Text);
        Assert.True(files.Count > CodeFiles.Count, "Only code was read; data and project files are sources too.");
        Assert.Empty(files.Where(file => Regex.IsMatch(File.ReadAllText(file), $@"\b{word}\b", RegexOptions.CultureInvariant, TimeSpan.FromSeconds(5))).Select(SourceTree.Relative));
    }

    /// <summary>PreApproval.Project plus the folders, so that the place follows from the name.</summary>
    [Fact]
    public void Namespaces_OfCode_AreTheirFolders()
    {
        string[] wrong = [.. Named().Where(file => !string.Equals(file.Namespace, NamespaceOf(file.Path), StringComparison.Ordinal)).Select(file => $"{SourceTree.Relative(file.Path)} says {file.Namespace}")];
        Assert.NotEmpty(Named());
        Assert.Empty(wrong);
    }

    /// <summary>Code outside namespaces: only a program's entry point and files of attributes or global usings.</summary>
    [Fact]
    public void Namespaces_OfTypes_AreThere()
    {
        string[] without = [.. CodeFiles.Where(file => !NamespaceLine().IsMatch(File.ReadAllText(file)) && Path.GetFileName(file) is not "Program.cs")];
        Assert.True(without.Length < CodeFiles.Count);
        Assert.Empty(without.Where(file => TypeLine().IsMatch(File.ReadAllText(file))).Select(SourceTree.Relative));
    }

    /// <summary>A file of one type bears its name; a file of several is named after their common idea. What comes after the first dot tells parts apart.</summary>
    [Fact]
    public void FileNames_OfASingleType_AreItsName()
    {
        (string Path, string Type)[] single =
        [
            .. CodeFiles.Where(file => !file.Contains("/Migrations/", StringComparison.Ordinal)) // generated, named by their time
                .Select(file => (Path: file, Types: TypeLine().Matches(File.ReadAllText(file)).Select(match => match.Groups["name"].Value).Distinct(StringComparer.Ordinal).ToArray()))
                .Where(file => file.Types.Length == 1)
                .Select(file => (file.Path, file.Types[0])),
        ];
        Assert.NotEmpty(single);
        Assert.Empty(single.Where(file => !string.Equals(Path.GetFileName(file.Path).Split('.')[0], file.Type, StringComparison.Ordinal)).Select(file => $"{SourceTree.Relative(file.Path)} holds {file.Type}"));
    }

    [Fact]
    public void Folders_OfSources_HaveNoCatchAllNames()
    {
        string[] folders = [.. CodeFiles.Select(file => Path.GetDirectoryName(SourceTree.Relative(file))!).Distinct(StringComparer.Ordinal)];
        Assert.NotEmpty(folders);
        Assert.DoesNotContain(folders, folder => CatchAll().IsMatch(folder));
        Assert.Empty(CodeFiles.Where(file => CatchAll().IsMatch(Path.GetFileNameWithoutExtension(file))).Select(SourceTree.Relative));
    }

    private static (string Path, string Namespace)[] Named() =>
    [
        .. CodeFiles.Select(file => (Path: file, Match: NamespaceLine().Match(File.ReadAllText(file))))
            .Where(file => file.Match.Success)
            .Select(file => (file.Path, file.Match.Groups["name"].Value)),
    ];

    private static string NamespaceOf(string file) =>
        Path.GetDirectoryName(Path.GetRelativePath(Path.Combine(SourceTree.Root, "src"), file))!.Replace(Path.DirectorySeparatorChar, '.');

    [GeneratedRegex(@"^namespace (?<name>[\w.]+)", RegexOptions.CultureInvariant | RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex NamespaceLine();

    /// <summary>A type at the left margin: with file-scoped namespaces, one that is not nested.</summary>
    [GeneratedRegex(@"^(public |internal |file |static |sealed |abstract |partial |readonly |ref )*(class|interface|enum|record struct|record class|record|struct) (?<name>\w+)", RegexOptions.CultureInvariant | RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex TypeLine();

    [GeneratedRegex(@"(Helper|Manager|Utils?|Utilities|Common|Misc)s?\b", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex CatchAll();
}
