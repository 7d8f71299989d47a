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
        Assert.Empty(PolicyRules.Faults(Policy.Default));
    }

    [Fact]
    public void Faults_OutOfRangeOrNotANumber_NameTheMember()
    {
        var fault = Assert.Single(PolicyRules.Faults(Policy.Default with { DangerShare = 1.2 }));
        Assert.Equal("DangerShare", fault.Member);
        Assert.Equal("Share of the rating: danger: 120 % is outside the allowed 10 to 100 %.", fault.Message);
        Assert.Single(PolicyRules.Faults(Policy.Default with { OvershootK = double.NaN }));
        Assert.Equal("InspectionMonths", Assert.Single(PolicyRules.Faults(Policy.Default with { InspectionMonths = 6.5 })).Member);
    }

    [Fact]
    public void Faults_WarningAboveDanger_IsRefused()
    {
        var fault = Assert.Single(PolicyRules.Faults(Policy.Default with { DangerShare = 0.6 }));
        Assert.Equal("WarningShareMetal", fault.Member);
        Assert.Equal("Share of the rating: warning, metal: 75 % may not be above 60 %, which is set for “share of the rating: danger”.", fault.Message);
        Assert.Empty(PolicyRules.Faults(Policy.Default with { DangerShare = 0.75 }));
    }

    [Theory]
    [InlineData("OvershootK", 20, AgainstDefault.Stricter)]
    [InlineData("OvershootK", 15, AgainstDefault.Same)]
    [InlineData("OvershootK", 10, AgainstDefault.Looser)]
    [InlineData("DangerShare", 0.8, AgainstDefault.Stricter)]
    [InlineData("DangerShare", 1, AgainstDefault.Looser)]
    [InlineData("GassedOutS", 60, AgainstDefault.Looser)]
    public void Against_OtherValue_SaysWhichWayItGoes(string member, double value, AgainstDefault expected) =>
        Assert.Equal(expected, PolicyThreshold.All.Single(threshold => string.Equals(threshold.Member, member, StringComparison.Ordinal)).Against(value));

    [Fact]
    public void Set_AnotherValue_ChangesThatMemberAlone()
    {
        var changed = PolicyThreshold.All.Single(static threshold => threshold.Member is "FillMetal").Set(Policy.Default, 0.6);
        Assert.Equal(Policy.Default with { FillMetal = 0.6 }, changed);
        Assert.Equal(2.0 / 3, Policy.Default.FillMetal);
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
            line.StartsWith($"| {threshold.Name} | `{threshold.Member}` |", StringComparison.Ordinal)
            && line.Contains(string.Create(CultureInfo.InvariantCulture, $"| {threshold.Default:0.###} {threshold.Unit} |"), StringComparison.Ordinal)
            && line.Contains(string.Create(CultureInfo.InvariantCulture, $"| {threshold.Lowest:0.###} to {threshold.Highest:0.###} |"), StringComparison.Ordinal)
            && line.EndsWith($"| {(threshold.Stricter == Stricter.Higher ? "lower" : "higher")} | {threshold.Source} |", StringComparison.Ordinal)));
    }
}
