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

    // two plans: what somebody types for a substance without a structure on file is not told to the next one
    [Fact]
    public void Of_StructureTypedForAListedSubstance_IsNotKeptForOthers()
    {
        var listed = Substance("glucose");
        Assert.Null(listed.Known!.Identity.Smiles);

        Assert.NotNull(EnergeticProfile.Of(listed with { Smiles = "CCN=[N+]=[N-]" }));
        Assert.Null(EnergeticProfile.Of(listed));
    }

    // a list of explosives is not cleared by what somebody types beside the name
    [Fact]
    public void Of_HarmlessStructureTypedForAListedExplosive_StaysExplosive() =>
        Assert.True(EnergeticProfile.Of(Substance("1,3,5-trinitro-1,3,5-triazinane") with { Smiles = "CC" })!.IsExplosive);

    // sums by hand over the groups with a figure: glycidyl azide 200 + 70 to 240 + 100 kJ/mol over 99.09 g/mol, the azide from 120 °C; 4-nitroazobenzene 310 to 360 over 227.22, from 250 °C
    [Theory]
    [InlineData("C1OC1CN=[N+]=[N-]", 2.725e6, 3.431e6, 120, "three-membered heterocycle")]
    [InlineData("c1ccccc1N=Nc1ccc(cc1)[N+](=O)[O-]", 1.364e6, 1.584e6, 250, "aromatic azo compound")]
    public void Of_OneGroupWithoutAFigure_IsALowerBoundThatNamesIt(string smiles, double low, double high, double onsetC, string without)
    {
        var profile = EnergeticProfile.Of(new PlanSubstance("x", "x", null, smiles))!;

        Assert.Equal(low, profile.LowJPerKg!.Value, 2e3);
        Assert.Equal(high, profile.HighJPerKg!.Value, 2e3);
        Assert.Equal(onsetC, profile.OnsetK!.Value - 273.15, 1e-9);
        Assert.Equal([without], profile.WithoutFigures);
    }
}
