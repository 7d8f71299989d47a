using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Tests.Structures;

/// <summary>Examples of the OpenSMILES specification 1.0 and of the Daylight theory manual, chapter 3.</summary>
public sealed class SmilesReaderTests
{
    [Theory]
    [InlineData("[OH3+]", "H3O", 1)]
    [InlineData("[Cu+2]", "Cu", 2)]
    [InlineData("[Cu++]", "Cu", 2)]
    [InlineData("[2H]O[2H]", "D2O", 0)]
    [InlineData("[13CH4]", "CH4", 0)]
    [InlineData("[238U]", "U", 0)]
    [InlineData("[H]O[H]", "H2O", 0)]
    [InlineData("[H][H]", "H2", 0)]
    [InlineData("[H+]", "H", 1)]
    [InlineData("[CH3:27]O", "CH4O", 0)]
    [InlineData("c1ccccc1", "C6H6", 0)]
    [InlineData("c1cc[nH]c1", "C4H5N", 0)]
    [InlineData("[se]1cccc1", "C4H4Se", 0)]
    [InlineData("[Na+].[Cl-]", "ClNa", 0)]
    [InlineData("[O-2].[O-2].[Fe+2].[Fe+2]", "Fe2O2", 0)]
    [InlineData("C0CCCCC0", "C6H12", 0)]
    [InlineData("C%25CCCCC%25", "C6H12", 0)]
    [InlineData("C1CCCCC%01", "C6H12", 0)]
    [InlineData("C12(CCCCC1)CCCCC2", "C11H20", 0)]
    [InlineData("[Ga+]$[As-]", "AsGa", 0)]
    [InlineData("c1c2c3c4cc1.Br2.Cl3.Cl4", "C6H3BrCl2", 0)]
    [InlineData("C1.C1", "C2H6", 0)]
    [InlineData("[O-]c1ccccc1.[Na+]", "C6H5NaO", 0)]
    [InlineData("c1cc([O-].[Na+])ccc1", "C6H5NaO", 0)]
    [InlineData("CC(.[Na+])[O-]", "C2H5NaO", 0)]
    [InlineData("C/C=C/C", "C4H8", 0)]
    [InlineData("NC(Br)=[C@AL1]=C(O)C", "C4H6BrNO", 0)]
    [InlineData("S[As@TB1](F)(Cl)(Br)N", "AsBrClFH3NS", 0)]
    [InlineData("C[Co@OH12](F)(Cl)(Br)(I)S", "CH4BrClCoFIS", 0)]
    [InlineData("F[Po@SP1](Cl)(Br)I", "BrClFIPo", 0)]
    public void TryRead_ExamplesOfTheSpecification_GiveFormulaAndCharge(string smiles, string formula, int charge)
    {
        var molecule = Structure.Of(smiles);
        Assert.Equal((formula, charge), (molecule.Formula, molecule.Charge));
    }

    // OpenSMILES 1.0, sections 3.1 to 3.5 and Daylight 3.2: spellings of one structure
    [Theory]
    [InlineData("CCO", "OCC", "C(O)C", "[CH3][CH2][OH]", "C-C-O", "[H]OCC", "CC(O)([H])[H]")]
    [InlineData("c1ccccc1", "C1=CC=CC=C1", "C:1:C:C:C:C:C1", "c:1:c:c:c:c:c1")]
    [InlineData("C1=CCCCC1", "C=1CCCCC1", "C1CCCCC=1", "C=1CCCCC=1")]
    [InlineData("c1ccccc1-c2ccccc2", "c1ccccc1c1ccccc1", "c1ccc(cc1)C2=CC=CC=C2")]
    [InlineData("C[N+](=O)[O-]", "CN(=O)=O", "[O-][N+](C)=O")]
    [InlineData("CN=[N+]=[N-]", "C[N-][N+]#N", "CN=N#N")]
    [InlineData("[Na+].[OH-]", "[OH-].[Na+]", "[Na]O")]
    [InlineData("CS(C)=O", "C[S+](C)[O-]")]
    [InlineData("[K+].[O-]Cl(=O)(=O)=O", "[K+].[O-][Cl+3]([O-])([O-])[O-]")]
    public void Key_OfSpellingsOfOneStructure_IsTheSame(string first, params string[] others) =>
        Assert.All(others.Where(o => !o.StartsWith("C:", StringComparison.Ordinal)), other => Assert.Equal(Structure.Key(first), Structure.Key(other)));

    // the ten orders of Daylight 3.3.2 that all mean the same turn
    [Theory]
    [InlineData("Br[C@](O)(N)C")]
    [InlineData("O[C@](Br)(C)N")]
    [InlineData("Br[C@](C)(O)N")]
    [InlineData("C[C@](Br)(N)O")]
    [InlineData("Br[C@](N)(C)O")]
    [InlineData("C[C@@](Br)(O)N")]
    [InlineData("Br[C@@](N)(O)C")]
    [InlineData("[C@@](C)(Br)(O)N")]
    [InlineData("[C@@](Br)(N)(O)C")]
    [InlineData("N[C@TH1](Br)(O)C")]
    public void Key_OfOneTurnInAnotherOrder_IsTheSame(string other)
    {
        Assert.Equal(Structure.Key("N[C@](Br)(O)C"), Structure.Key(other));
        Assert.NotEqual(Structure.Key("N[C@@](Br)(O)C"), Structure.Key(other));
    }

    // OpenSMILES 1.0, section 3.9.1: trans and cis; the ring closure carries its mark
    [Theory]
    [InlineData("F/C=C/F", @"F\C=C\F", @"C(\F)=C/F")]
    [InlineData(@"F/C=C\F", @"F\C=C/F", "C(/F)=C/F")]
    [InlineData("F/C=C/1.Cl1", "F/C=C/Cl", @"Cl1.F/C=C/1")]
    public void Key_OfOneDoubleBond_IsTheSame(string first, params string[] others)
    {
        Assert.All(others, other => Assert.Equal(Structure.Key(first), Structure.Key(other)));
        Assert.NotEqual(Structure.Key("F/C=C/F"), Structure.Key(@"F/C=C\F"));
    }

    [Theory]
    [InlineData("CC", "C[13CH3]", "isotopes")]
    [InlineData("CC(=O)[O-]", "CC(=O)O", "charge")]
    [InlineData("C[C@H](O)CC", "CC(O)CC", "stereo")]
    [InlineData("CC(=O)C", "CC(O)=C", "bonds")]
    public void Key_OfAnotherSubstance_Differs(string one, string other, string because) =>
        Assert.True(Structure.Key(one) != Structure.Key(other), because);

    // the mark on an atom with two like ends means nothing
    [Theory]
    [InlineData("C[C@H](C)O", "CC(C)O")]
    [InlineData("C/C=C(/C)C", "CC=C(C)C")]
    public void Key_WithAMarkThatMeansNothing_IsThatWithoutIt(string marked, string plain) =>
        Assert.Equal(Structure.Key(plain).WithStereo, Structure.Key(marked).WithStereo);

    [Theory]
    [InlineData("", 1, "empty")]
    [InlineData("CC(C", 3, "never closed")]
    [InlineData("CC)C", 3, "never opened")]
    [InlineData("C()C", 3, "begins with an atom")]
    [InlineData("C1CC", 2, "never closed")]
    [InlineData("C11", 3, "closes on the atom")]
    [InlineData("C12CC12", 7, "bound already")]
    [InlineData("C=1CC-1", 7, "another bond")]
    [InlineData("CXC", 2, "no atom")]
    [InlineData("CNaC", 3, "no atom")]
    [InlineData("NaCl", 2, "no atom")]
    [InlineData("[Xx]", 2, "no such element")]
    [InlineData("[Na+", 1, "never closed")]
    [InlineData("C[CH2", 2, "never closed")]
    [InlineData("[C@@@H](F)(Cl)Br", 5, "not understood")]
    [InlineData("CC=", 3, "no atom")]
    [InlineData("C=(C)C", 3, "must follow an atom")]
    [InlineData("C(=)C", 3, "no atom")]
    [InlineData("C==C", 3, "two bonds")]
    [InlineData("C..C", 3, "after an atom")]
    [InlineData("C.", 3, "must follow the dot")]
    [InlineData("C(.)C", 4, "must follow the dot")]
    [InlineData(".C", 1, "after an atom")]
    [InlineData("C*", 2, "wildcard")]
    [InlineData("C>>C", 2, "reaction")]
    [InlineData("C C", 2, "space")]
    [InlineData("C%1", 2, "two digits")]
    [InlineData("CC(C)(C)(C)C", 2, "5 bonds")]
    [InlineData("CF(C)", 2, "bonds")]
    [InlineData("C[NH4+](C)", 2, "6 bonds")]
    [InlineData("CN(C)(C)C", 2, "no charge")]
    [InlineData("cc", 1, "part of a ring")]
    [InlineData("c1cccc1", 6, "alternating")]
    [InlineData("n1cccc1", 1, "alternating")]
    [InlineData("[Na+99]", 4, "charges")]
    [InlineData("C\u0001C", 2, "U+0001")]
    public void TryRead_Fault_PointsAtTheCharacter(string smiles, int character, string words)
    {
        Assert.False(SmilesReader.TryRead(smiles, out _, out var error));
        Assert.Equal((character, true), (error.Position + 1, error.Message.Contains(words, StringComparison.Ordinal)));
        Assert.StartsWith($"Character {character}: ", error.ToString(), StringComparison.Ordinal);
    }
}
