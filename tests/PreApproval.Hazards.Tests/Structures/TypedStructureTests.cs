using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Structures;

/// <summary>How a typed structure finds the catalogue, and what it must not find there. Structures: textbook chemistry, no source.</summary>
public sealed class TypedStructureTests
{
    [Theory]
    [InlineData("OCC", "ethanol")]
    [InlineData("C(C)O", "ethanol")]
    [InlineData("[CH3][CH2][OH]", "ethanol")]
    [InlineData("c1ccccc1C", "toluene")]
    [InlineData("C1=CC=CC=C1C", "toluene")]
    [InlineData("[O-][N+](C)=O", "nitromethane")]
    [InlineData("CN(=O)=O", "nitromethane")]
    [InlineData("[OH-].[Na+]", "sodium hydroxide")]
    [InlineData("[Na]O", "sodium hydroxide")]
    [InlineData("ClC([2H])(Cl)Cl", "chloroform-d")]
    public void TryFindBySmiles_AnySpelling_FindsTheListedSubstance(string smiles, string name)
    {
        Assert.True(Catalog.Default.TryFindBySmiles(smiles, out var substance), smiles);
        Assert.Equal(name, substance.Identity.Name);
    }

    [Fact]
    public void TryFindBySmiles_EverySpellingOfTheCatalogue_FindsItsOwnStructure()
    {
        var wrong = Catalog.Default.Substances
            .Where(s => s.Identity.Smiles is { } smiles
                && (!Catalog.Default.TryFindBySmiles(Structure.Key(smiles).WithoutStereo, out var found) || !string.Equals(found.Identity.Formula, s.Identity.Formula, StringComparison.Ordinal))
                && string.Equals(Structure.Key(smiles).WithStereo, Structure.Key(smiles).WithoutStereo, StringComparison.Ordinal))
            .Select(s => s.Identity.Name);
        Assert.Empty(wrong);
    }

    [Theory]
    [InlineData("C[C@H](O)CC", StructureKinship.Stereoisomer, "2-butanol")]
    [InlineData("[2H]C([2H])([2H])O", StructureKinship.Isotopologue, "methanol")]
    [InlineData("[13CH3]I", StructureKinship.Isotopologue, "iodomethane")]
    [InlineData("CC(=O)[O-]", StructureKinship.ChargeForm, "acetic acid")]
    [InlineData("CC[NH+](CC)CC", StructureKinship.ChargeForm, "triethylamine")]
    public void Relation_OfAKinStructure_IsNamedAndNotTaken(string smiles, StructureKinship kinship, string name)
    {
        Assert.False(Catalog.Default.TryFindBySmiles(smiles, out _));
        var relation = TypedStructure.Of(smiles).Relation;
        Assert.Equal(kinship, relation!.Kinship);
        Assert.Contains(name, relation.Listed.Select(s => s.Identity.Name), StringComparer.Ordinal);
        Assert.Contains("values not taken", relation.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Relation_OfAnUnrelatedStructure_IsNull() => Assert.Null(TypedStructure.Of("Nc1ccc(CN=[N+]=[N-])cc1CCCC").Relation);

    // 4-(azidomethyl)aniline: C7H8N4; 148.169 g/mol from the IUPAC weights of 2021, summed by hand
    [Fact]
    public void Families_OfAnUnlistedAzide_AreThoseOfItsGroups()
    {
        var substance = new PlanSubstance("x", "4-(azidomethyl)aniline", null, "Nc1ccc(CN=[N+]=[N-])cc1");
        Assert.Equal("C7H8N4", substance.Structure!.Formula);
        Assert.Equal((7 * 12.011) + (8 * 1.008) + (4 * 14.007), substance.Structure.MolarMassKgPerMol!.Value * 1000, 1e-6);
        Assert.Contains("organic azides", FamilyTable.Default.Of(substance), StringComparer.Ordinal);
        Assert.Contains("amines", FamilyTable.Default.Of(substance), StringComparer.Ordinal);
        Assert.Contains("organic azide", substance.Structure.Groups!.EnergeticGroups, StringComparer.Ordinal);
    }

    [Fact]
    public void Equivalents_OfADiazide_AreTwo() =>
        Assert.Equal(2, FamilyTable.Default.Equivalents(new PlanSubstance("x", "x", null, "[N-]=[N+]=NCCCCCCN=[N+]=[N-]"), "organic azides"));

    [Fact]
    public void Structure_OfAListedSubstance_IsNotAsked()
    {
        Assert.True(Catalog.Default.TryFindByName("ethanol", out var ethanol));
        Assert.Null(new PlanSubstance("64-17-5", "ethanol", ethanol, "CCO").Structure);
    }

    [Fact]
    public void Structure_ThatCannotBeRead_NamesTheCharacterAndHasNoFamily()
    {
        var substance = new PlanSubstance("x", "x", null, "CC(C");
        Assert.Equal(("Character 3: this parenthesis is never closed", true), (substance.Structure!.Error!.ToString(), substance.Structure.Families.Count == 0));
    }
}
