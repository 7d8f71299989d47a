using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Tests.Screening;

public sealed class PolicyThresholdTests
{
    [Fact]
    public void All_EveryNumberOfThePolicy_IsListedOnceWithinItsRange()
    {
        var members = typeof(Policy).GetProperties().Where(static property => property.PropertyType == typeof(double)).Select(static property => property.Name);

        Assert.Equal(members.Order(StringComparer.Ordinal), PolicyThreshold.All.Select(static threshold => threshold.Member).Order(StringComparer.Ordinal));
        Assert.Empty(PolicyThreshold.Refusals(Policy.Default));
    }

    [Fact]
    public void Refusals_OutOfRangeOrNotANumber_NameTheMember()
    {
        Assert.Contains("DangerShare", Assert.Single(PolicyThreshold.Refusals(Policy.Default with { DangerShare = 1.2 })), StringComparison.Ordinal);
        Assert.Single(PolicyThreshold.Refusals(Policy.Default with { OvershootK = double.NaN }));
    }

    [Fact]
    public void Document_EveryThreshold_HasARowWithDefaultAndSource()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "PreApproval.sln")))
        {
            folder = folder.Parent!;
        }

        var lines = File.ReadAllLines(Path.Combine(folder.FullName, "docs", "thresholds.md"));
        Assert.All(PolicyThreshold.All, threshold => Assert.Contains(lines, line =>
            line.Contains($"| `{threshold.Member}` |", StringComparison.Ordinal)
            && line.Contains(string.Create(CultureInfo.InvariantCulture, $"| {threshold.Default:0.###} {threshold.Unit} |"), StringComparison.Ordinal)
            && line.Contains(string.Create(CultureInfo.InvariantCulture, $"| {threshold.Lowest:0.###} to {threshold.Highest:0.###} |"), StringComparison.Ordinal)
            && line.Contains(threshold.Source, StringComparison.Ordinal)));
    }
}
