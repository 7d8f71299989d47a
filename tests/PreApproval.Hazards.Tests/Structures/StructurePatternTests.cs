using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Tests.Structures;

public sealed class StructurePatternTests
{
    public static TheoryData<string> Names => new(StructurePatterns.Default.Groups.Select(g => g.Name));

    [Theory]
    [MemberData(nameof(Names))]
    public void Group_InItsExamples_IsFound(string name)
    {
        var group = StructurePatterns.Default.Group(name);
        Assert.NotEmpty(group.PresentIn);
        Assert.All(group.PresentIn, s => Assert.Equal((s, PatternMatch.Present), (s, StructurePatterns.Match(group, Structure.Of(s)))));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Group_InItsNearNeighbours_IsNotFound(string name)
    {
        var group = StructurePatterns.Default.Group(name);
        Assert.NotEmpty(group.AbsentFrom);
        Assert.All(group.AbsentFrom, s => Assert.Equal((s, PatternMatch.Absent), (s, StructurePatterns.Match(group, Structure.Of(s)))));
    }

    [Fact]
    public void Families_OfTheTable_AreFamiliesOfTheEncounters()
    {
        var families = EmbeddedTable.Rows("families.tsv").Select(r => r["family"]).ToHashSet(StringComparer.Ordinal);
        Assert.All(StructurePatterns.Default.Groups.Where(g => g.Family is not null), g => Assert.Contains(g.Family!, families));
    }
}
