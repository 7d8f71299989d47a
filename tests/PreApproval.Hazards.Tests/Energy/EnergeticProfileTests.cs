using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Structures;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Groups by structure and by list. Counts are read off the drawn structures of the textbooks.</summary>
public sealed class EnergeticProfileTests
{
    [Fact]
    public void Table_CoversEveryEnergeticPattern() =>
        Assert.Empty(StructurePatterns.Default.Groups.Where(static group => group.Kind == StructurePatternKind.EnergeticGroup).Select(static group => group.Name)
            .Except(EnergeticGroup.All.Select(static group => group.Name), StringComparer.Ordinal));

    [Fact]
    public void Table_EveryRow_HasAReferenceAndOrderedFigures() => Assert.All(EnergeticGroup.All, static group =>
    {
        Assert.NotEmpty(group.Sources);
        Assert.All(group.Sources, static source => Assert.True(References.IsOwn(source), source));
        Assert.True(group.Structure is not null || group.Families.Count > 0, group.Name);
        Assert.True(group.LowJPerMol is null == group.HighJPerMol is null && !(group.LowJPerMol > group.HighJPerMol), group.Name);
    });

    [Theory]
    [InlineData("2,4,6-trinitrotoluene", "aromatic nitro compound", 3)]
    [InlineData("nitroglycerin", "nitrate ester", 3)]
    [InlineData("azobisisobutyronitrile", "aliphatic azo compound", 1)]
    [InlineData("benzoyl peroxide", "dialkyl or diacyl peroxide", 1)]
    [InlineData("tert-butyl hydroperoxide", "hydroperoxide", 1)]
    [InlineData("3-chloroperbenzoic acid", "peracid", 1)]
    [InlineData("ethyl diazoacetate", "diazo compound", 1)]
    [InlineData("tosyl azide", "organic azide", 1)]
    [InlineData("nitromethane", "aliphatic nitro compound", 1)]
    [InlineData("sodium perchlorate", "halogen oxyanion", 1)]
    public void Of_Catalogue_CountsTheGroup(string name, string group, int count) =>
        Assert.Contains(EnergeticProfile.Of(Substance(name))!.Groups, one => string.Equals(one.Group.Name, group, StringComparison.Ordinal) && one.Count == count);

    [Theory]
    [InlineData("CC1(C)OOC(C)(C)OOC(C)(C)OO1", "dialkyl or diacyl peroxide", 3)]
    [InlineData("[N-]=[N+]=NCCN=[N+]=[N-]", "organic azide", 2)]
    [InlineData("CC([N+](=O)[O-])([N+](=O)[O-])C", "aliphatic nitro compound", 2)]
    [InlineData("C#CC#C", "alkyne, energetic", 2)]
    public void Of_TypedStructure_CountsTheGroup(string smiles, string group, int count) =>
        Assert.Contains(EnergeticProfile.Of(new PlanSubstance("x", "x", null, smiles))!.Groups, one => string.Equals(one.Group.Name, group, StringComparison.Ordinal) && one.Count == count);

    [Theory]
    [InlineData("toluene")]
    [InlineData("N,N-dimethylformamide")]
    [InlineData("dimethyl sulfoxide")]
    [InlineData("triethylamine")]
    [InlineData("water")]
    public void Of_PlainSolvent_IsNone(string name) => Assert.Null(EnergeticProfile.Of(Substance(name)));

    [Theory]
    [InlineData("1,3,5-trinitro-1,3,5-triazinane")]
    [InlineData("pentaerythritol tetranitrate")]
    [InlineData("2-butanone peroxide")]
    [InlineData("ammonium perchlorate")]
    [InlineData("picric acid")]
    [InlineData("phenyl azide")]
    public void IsExplosive_OfExplosives_WithOrWithoutStructure(string name) => Assert.True(EnergeticProfile.Of(Substance(name))!.IsExplosive);

    [Theory]
    [InlineData("nitrobenzene")]
    [InlineData("nitromethane")]
    [InlineData("azobisisobutyronitrile")]
    [InlineData("sodium perchlorate")]
    [InlineData("N-bromosuccinimide")]
    public void IsExplosive_OfWhatIsHandledDry_IsFalse(string name) => Assert.False(EnergeticProfile.Of(Substance(name))!.IsExplosive);

    // sum by hand: TNT 3 · 310 to 360 kJ/mol over 227.13 g/mol = 4.09 to 4.75 kJ/g; measured detonation heats are 4.2 to 4.6 kJ/g (Meyer, Explosives)
    [Fact]
    public void HeatOfDecomposition_Trinitrotoluene_IsNearTheMeasuredOne()
    {
        var profile = EnergeticProfile.Of(Substance("2,4,6-trinitrotoluene"))!;

        Assert.Equal(4.09e6, profile.LowJPerKg!.Value, 0.01e6);
        Assert.Equal(4.75e6, profile.HighJPerKg!.Value, 0.01e6);
    }
}
