using System.Text.RegularExpressions;

namespace PreApproval.Architecture.Tests;

/// <summary>Which project may know which. A wall moves by a decision record, not by adding a reference.</summary>
public sealed partial class ReferenceTests
{
    /// <summary>Every project of src and the projects that its file references: these and no others.</summary>
    private static readonly Dictionary<string, string[]> Walls = new(StringComparer.Ordinal)
    {
        ["PreApproval.Hazards"] = [],
        ["PreApproval.Audit"] = [],
        ["PreApproval.Documents"] = ["PreApproval.Audit", "PreApproval.Hazards"],
        ["PreApproval.Procedures"] = ["PreApproval.Audit", "PreApproval.Documents"],
        ["PreApproval.Storage"] = ["PreApproval.Procedures"],
        ["PreApproval.Web"] = ["PreApproval.Procedures", "PreApproval.Storage"],
        ["PreApproval.Cli"] = ["PreApproval.Audit", "PreApproval.Documents"],
    };

    [Fact]
    public void Projects_OfSources_AreTheOnesWithWalls() =>
        Assert.Equal(Walls.Keys.Order(StringComparer.Ordinal), SourceTree.Sources.Select(project => project.Name), StringComparer.Ordinal);

    public static TheoryData<string> Walled() => [.. Walls.Keys];

    [Theory]
    [MemberData(nameof(Walled))]
    public void References_OfASourceProject_AreExactlyItsWalls(string name)
    {
        ProjectFile project = Assert.Single(SourceTree.Sources, project => string.Equals(project.Name, name, StringComparison.Ordinal));
        Assert.Equal(Walls[name], project.Projects.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public void Hazards_ReferencesNothing_ByItsFileAndAsBuilt()
    {
        ProjectFile hazards = Assert.Single(SourceTree.Sources, project => string.Equals(project.Name, "PreApproval.Hazards", StringComparison.Ordinal));
        Assert.Empty(hazards.Projects);
        Assert.Empty(hazards.Others);

        string[] assemblies = [.. SourceTree.UsedTypes("PreApproval.Hazards").Select(used => used.Assembly).Distinct(StringComparer.Ordinal)];
        Assert.NotEmpty(assemblies);
        Assert.DoesNotContain(assemblies, assembly => !assembly.StartsWith("System.", StringComparison.Ordinal));
    }

    [Fact]
    public void Audit_AsBuilt_UsesNothingOfOurs()
    {
        IReadOnlyList<(string Assembly, string Type)> used = SourceTree.UsedTypes("PreApproval.Audit");
        Assert.Contains(used, type => type.Type is "System.Security.Cryptography.SHA256"); // the reader sees what is used
        Assert.DoesNotContain(used, type => type.Assembly.StartsWith("PreApproval.", StringComparison.Ordinal));
    }

    [Fact]
    public void Documents_AsBuilt_UsesOnlyCanonicalJsonOfAudit()
    {
        IReadOnlyList<(string Assembly, string Type)> used = SourceTree.UsedTypes("PreApproval.Documents");
        Assert.Contains(used, type => string.Equals(type.Assembly, "PreApproval.Hazards", StringComparison.Ordinal)); // the reader sees what is used
        Assert.DoesNotContain(
            used,
            type => string.Equals(type.Assembly, "PreApproval.Audit", StringComparison.Ordinal) && type.Type is not "PreApproval.Audit.CanonicalJson");
    }

    [Fact]
    public void Web_OutsideProgram_NeverNamesStorage()
    {
        IReadOnlyList<string> files = SourceTree.Files(Path.Combine(SourceTree.Root, "src/PreApproval.Web"), ".cs", ".razor");
        Assert.Contains(Path.Combine(SourceTree.Root, "src/PreApproval.Web/Program.cs"), files, StringComparer.Ordinal);
        Assert.Matches(StorageName(), "using PreApproval.Storage;");
        Assert.Empty(files.Where(file => Path.GetFileName(file) is not "Program.cs" && StorageName().IsMatch(File.ReadAllText(file))).Select(SourceTree.Relative));
    }

    [Fact]
    public void References_OfAnyProject_NeverGoToTests()
    {
        string tests = Path.Combine(SourceTree.Root, "tests") + Path.DirectorySeparatorChar;
        Assert.NotEmpty(SourceTree.Sources.SelectMany(project => project.ProjectPaths));
        Assert.NotEmpty(SourceTree.Tests.SelectMany(project => project.ProjectPaths));
        Assert.Empty(SourceTree.Sources.Where(project => project.ProjectPaths.Any(path => path.StartsWith(tests, StringComparison.Ordinal))).Select(project => project.Name));

        // what tests share lies in PreApproval.Testing, which is no test itself
        Assert.Empty(SourceTree.Tests.Where(project => project.Projects.Any(name => name.EndsWith(".Tests", StringComparison.Ordinal))).Select(project => project.Name));
    }

    [Fact]
    public void Solution_Lists_EveryProjectOfSourcesAndTests()
    {
        string solution = File.ReadAllText(Path.Combine(SourceTree.Root, "PreApproval.sln"));
        ProjectFile[] all = [.. SourceTree.Sources, .. SourceTree.Tests];
        Assert.NotEmpty(all);
        Assert.Empty(all.Where(project => !solution.Contains($"{project.Name}.csproj\"", StringComparison.Ordinal)).Select(project => project.Name));
    }

    /// <summary>Every project of src has tests of its own name.</summary>
    [Fact]
    public void Sources_EachProject_HasItsTests()
    {
        Assert.NotEmpty(SourceTree.Sources);
        Assert.Empty(SourceTree.Sources.Select(project => project.Name + ".Tests").Except(SourceTree.Tests.Select(project => project.Name), StringComparer.Ordinal));
    }

    [GeneratedRegex(@"\bPreApproval\.Storage\b", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex StorageName();
}
