using PreApproval.Hazards.Solutions;
using Xunit;

namespace PreApproval.Hazards.Tests.Solutions;

/// <summary>The table of docs/methods/solutions.md lists every named solution and nothing else.</summary>
public sealed class SolutionPageTests
{
    [Fact]
    public void Page_Table_ListsEveryNamedSolutionAtItsStrengths()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "docs", "methods", "solutions.md")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("docs/methods/solutions.md is not above the tests.");
        }

        var page = File.ReadAllText(Path.Combine(folder, "docs", "methods", "solutions.md"));
        var listed = page[page.IndexOf("## Named solutions", StringComparison.Ordinal)..].Split('\n')
            .Where(static line => line.StartsWith("| ", StringComparison.Ordinal))
            .Skip(1)
            .Select(static line => string.Join('|', line.Split('|').Skip(1).Take(2).Select(static cell => cell.Trim())));
        var named = SolutionRow.All.Select(static row => $"{row.Name}|{string.Join("; ", row.Strengths)}")
            .Concat(SolutionCatalog.Default.All.Where(static solution => solution.Strength is null).Select(static mixture => $"{mixture.Name}|mixture"));
        Assert.Equal(named.Order(StringComparer.Ordinal), listed.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }
}
