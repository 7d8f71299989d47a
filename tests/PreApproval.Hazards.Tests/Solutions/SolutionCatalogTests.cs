using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;
using Xunit;

namespace PreApproval.Hazards.Tests.Solutions;

/// <summary>What a name typed at the bench means: solute, solvent and strength. Common practice of reagent catalogues, from memory.</summary>
public sealed class SolutionCatalogTests
{
    private static readonly SolutionCatalog Solutions = SolutionCatalog.Default;

    [Theory]
    [InlineData("hydrochloric acid", "7647-01-0", "7732-18-5", "37 %")]
    [InlineData("Hydrochloric Acid 37%", "7647-01-0", "7732-18-5", "37 %")]
    [InlineData("conc. HCl", "7647-01-0", "7732-18-5", "37 %")]
    [InlineData("HCl (conc.)", "7647-01-0", "7732-18-5", "37 %")]
    [InlineData("2 M HCl", "7647-01-0", "7732-18-5", "2 M")]
    [InlineData("HCl 2M", "7647-01-0", "7732-18-5", "2 M")]
    [InlineData("1N HCl", "7647-01-0", "7732-18-5", "1 M")]
    [InlineData("0.1 M HCl", "7647-01-0", "7732-18-5", "0.1 M")]
    [InlineData("6 mol/L hydrochloric acid", "7647-01-0", "7732-18-5", "6 M")]
    [InlineData("aq. HCl (1 M)", "7647-01-0", "7732-18-5", "1 M")]
    [InlineData("HCl aq. 10 %", "7647-01-0", "7732-18-5", "10 %")]
    [InlineData("dilute hydrochloric acid", "7647-01-0", "7732-18-5", "2 M")]
    [InlineData("HBr 48 %", "10035-10-6", "7732-18-5", "48 %")]
    [InlineData("hydrobromic acid", "10035-10-6", "7732-18-5", "48 %")]
    [InlineData("hydroiodic acid 57%", "10034-85-2", "7732-18-5", "57 %")]
    [InlineData("hydrofluoric acid 40 %", "7664-39-3", "7732-18-5", "40 %")]
    [InlineData("HF 48 %", "7664-39-3", "7732-18-5", "48 %")]
    [InlineData("nitric acid 65 %", "7697-37-2", "7732-18-5", "65 %")]
    [InlineData("70% HNO3", "7697-37-2", "7732-18-5", "70 %")]
    [InlineData("red fuming nitric acid", "7697-37-2", "7732-18-5", "90 %")]
    [InlineData("sulfuric acid 98 %", "7664-93-9", "7732-18-5", "98 %")]
    [InlineData("conc. H2SO4", "7664-93-9", "7732-18-5", "98 %")]
    [InlineData("2 N H2SO4", "7664-93-9", "7732-18-5", "1 M")]
    [InlineData("phosphoric acid 85%", "7664-38-2", "7732-18-5", "85 %")]
    [InlineData("HClO4 70 %", "7601-90-3", "7732-18-5", "70 %")]
    [InlineData("80 % acetic acid", "64-19-7", "7732-18-5", "80 %")]
    [InlineData("NH4OH", "7664-41-7", "7732-18-5", "28 %")]
    [InlineData("ammonium hydroxide", "7664-41-7", "7732-18-5", "28 %")]
    [InlineData("ammonia solution 25 %", "7664-41-7", "7732-18-5", "25 %")]
    [InlineData("25 % aqueous ammonia", "7664-41-7", "7732-18-5", "25 %")]
    [InlineData("30 % H2O2", "7722-84-1", "7732-18-5", "30 %")]
    [InlineData("hydrogen peroxide 50 wt%", "7722-84-1", "7732-18-5", "50 %")]
    [InlineData("hydrogen peroxide (3 %)", "7722-84-1", "7732-18-5", "3 %")]
    [InlineData("1 M NaOH", "1310-73-2", "7732-18-5", "1 M")]
    [InlineData("NaOH 10 %", "1310-73-2", "7732-18-5", "10 %")]
    [InlineData("50 % sodium hydroxide", "1310-73-2", "7732-18-5", "50 %")]
    [InlineData("KOH 1 M", "1310-58-3", "7732-18-5", "1 M")]
    [InlineData("bleach", "7681-52-9", "7732-18-5", "12.5 %")]
    [InlineData("sodium hypochlorite solution 5 %", "7681-52-9", "7732-18-5", "5 %")]
    [InlineData("brine", "7647-14-5", "7732-18-5", "26 %")]
    [InlineData("sat. NaHCO3", "144-55-8", "7732-18-5", "8 %")]
    [InlineData("sat. aq. NH4Cl", "12125-02-9", "7732-18-5", "26 %")]
    [InlineData("sat. Na2S2O3", "7772-98-7", "7732-18-5", "40 %")]
    [InlineData("hydrazine hydrate 51 %", "302-01-2", "7732-18-5", "51 %")]
    [InlineData("HCl in dioxane", "7647-01-0", "123-91-1", "4 M")]
    [InlineData("4 M HCl in dioxane", "7647-01-0", "123-91-1", "4 M")]
    [InlineData("HCl (4 M in dioxane)", "7647-01-0", "123-91-1", "4 M")]
    [InlineData("4M HCl in 1,4-dioxane", "7647-01-0", "123-91-1", "4 M")]
    [InlineData("4 N HCl/dioxane", "7647-01-0", "123-91-1", "4 M")]
    [InlineData("2 M HCl in diethyl ether", "7647-01-0", "60-29-7", "2 M")]
    [InlineData("HCl in ether 1 M", "7647-01-0", "60-29-7", "1 M")]
    [InlineData("methanolic HCl", "7647-01-0", "67-56-1", "3 M")]
    [InlineData("33 % HBr in acetic acid", "10035-10-6", "64-19-7", "33 %")]
    [InlineData("7 M NH3 in MeOH", "7664-41-7", "67-56-1", "7 M")]
    [InlineData("ammonia 0.5 M in dioxane", "7664-41-7", "123-91-1", "0.5 M")]
    [InlineData("2 M ammonia in ethanol", "7664-41-7", "64-17-5", "2 M")]
    [InlineData("methylamine 40 % aq.", "74-89-5", "7732-18-5", "40 %")]
    [InlineData("methylamine 33 % in EtOH", "74-89-5", "64-17-5", "33 %")]
    [InlineData("2 M dimethylamine in THF", "124-40-3", "109-99-9", "2 M")]
    [InlineData("dimethylamine 40% in water", "124-40-3", "7732-18-5", "40 %")]
    [InlineData("n-BuLi 2.5 M in hexanes", "109-72-8", "110-54-3", "2.5 M")]
    [InlineData("1.6 M nBuLi in hexane", "109-72-8", "110-54-3", "1.6 M")]
    [InlineData("n-BuLi (1.6 M)", "109-72-8", "110-54-3", "1.6 M")]
    [InlineData("t-BuLi 1.7 M in pentane", "594-19-4", "109-66-0", "1.7 M")]
    [InlineData("s-BuLi 1.4 M in cyclohexane", "598-30-1", "110-82-7", "1.4 M")]
    [InlineData("MeLi 1.6 M in Et2O", "917-54-4", "60-29-7", "1.6 M")]
    [InlineData("LDA 2 M in THF", "4111-54-0", "109-99-9", "2 M")]
    [InlineData("LiHMDS 1 M in THF", "4039-32-1", "109-99-9", "1 M")]
    [InlineData("1 M NaHMDS in THF", "1070-89-9", "109-99-9", "1 M")]
    [InlineData("KHMDS (1 M in THF)", "40949-94-8", "109-99-9", "1 M")]
    [InlineData("MeMgBr 3 M in ether", "75-16-1", "60-29-7", "3 M")]
    [InlineData("3 M ethylmagnesium bromide in diethyl ether", "925-90-6", "60-29-7", "3 M")]
    [InlineData("PhMgBr 1 M in THF", "100-58-3", "109-99-9", "1 M")]
    [InlineData("iPrMgCl 2 M in THF", "1068-55-9", "109-99-9", "2 M")]
    [InlineData("iPrMgCl·LiCl 1.3 M in THF", "745038-86-2", "109-99-9", "1.3 M")]
    [InlineData("vinylmagnesium bromide 1 M in THF", "1826-67-1", "109-99-9", "1 M")]
    [InlineData("LiAlH4 1 M in THF", "16853-85-3", "109-99-9", "1 M")]
    [InlineData("DIBAL-H 1 M in hexane", "1191-15-7", "110-54-3", "1 M")]
    [InlineData("DIBAL-H 1 M in toluene", "1191-15-7", "108-88-3", "1 M")]
    [InlineData("DIBAL-H (1 M in DCM)", "1191-15-7", "75-09-2", "1 M")]
    [InlineData("borane", "14044-65-6", "109-99-9", "1 M")]
    [InlineData("BH3·THF 1 M", "14044-65-6", "109-99-9", "1 M")]
    [InlineData("BH3·SMe2 2 M in THF", "13292-87-0", "109-99-9", "2 M")]
    [InlineData("9-BBN 0.5 M in THF", "280-64-8", "109-99-9", "0.5 M")]
    [InlineData("lithium tri-sec-butylborohydride 1 M in THF", "38721-52-7", "109-99-9", "1 M")]
    [InlineData("TBAF 1 M in THF", "429-41-4", "109-99-9", "1 M")]
    [InlineData("Et2Zn 1 M in hexanes", "557-20-0", "110-54-3", "1 M")]
    [InlineData("AlMe3 2 M in toluene", "75-24-1", "108-88-3", "2 M")]
    [InlineData("TMSCHN2 2 M in hexanes", "18107-18-1", "110-54-3", "2 M")]
    [InlineData("diazomethane in ether", "334-88-3", "60-29-7", "0.5 M")]
    [InlineData("TiCl4 1 M in DCM", "7550-45-0", "75-09-2", "1 M")]
    [InlineData("BBr3 1 M in DCM", "10294-33-4", "75-09-2", "1 M")]
    [InlineData("t-BuOOH 5.5 M in decane", "75-91-2", "124-18-5", "5.5 M")]
    [InlineData("TBHP 70 % aq.", "75-91-2", "7732-18-5", "70 %")]
    [InlineData("mCPBA 77 %", "937-14-4", "7732-18-5", "77 %")]
    [InlineData("NaH 60 % in mineral oil", "7646-69-7", "8042-47-5", "60 %")]
    [InlineData("10 % Pd/C", "7440-05-3", "7440-44-0", "10 %")]
    [InlineData("95 % ethanol", "64-17-5", "7732-18-5", "95 %")]
    [InlineData("0.5 M sodium borohydride in diglyme", "16940-66-2", "111-96-6", "0.5 M")]
    public void TryFind_NameOfTheBench_FindsSoluteSolventAndStrength(string name, string solute, string solvent, string strength)
    {
        Assert.True(Solutions.TryFind(name, out var solution));
        Assert.Equal((solute, solvent, strength), (solution.Solute?.Identity.Cas, solution.Solvent?.Identity.Cas, solution.Strength.ToString()));
        Assert.Equal(1, solution.Parts.Sum(static part => part.MassFraction), 1e-12);
    }

    [Theory]
    [InlineData("petroleum ether", "109-66-0")]
    [InlineData("petroleum ether 40–60", "109-66-0")]
    [InlineData("petroleum ether (60-80 °C)", "110-54-3")]
    [InlineData("ligroin", "142-82-5")]
    [InlineData("hexanes", "110-54-3")]
    [InlineData("white spirit", "124-18-5")]
    [InlineData("xylenes", "108-38-3")]
    [InlineData("formalin", "50-00-0")]
    [InlineData("aqua regia", "7697-37-2")]
    [InlineData("piranha solution", "7722-84-1")]
    [InlineData("oleum", "7446-11-9")]
    [InlineData("peracetic acid 35 %", "79-21-0")]
    [InlineData("liquid nitrogen", "7727-37-9")]
    public void TryFind_NamedMixture_HoldsItsPart(string name, string cas)
    {
        Assert.True(Solutions.TryFind(name, out var mixture));
        Assert.Contains(mixture.Parts, part => string.Equals(part.Substance.Identity.Cas, cas, StringComparison.Ordinal));
        Assert.Equal(1, mixture.Parts.Sum(static part => part.MassFraction), 1e-9);
    }

    [Theory]
    [InlineData("hydrogen chloride")]
    [InlineData("hydrogen bromide")]
    [InlineData("ammonia")]
    [InlineData("methylamine")]
    [InlineData("formaldehyde")]
    [InlineData("sodium hydroxide")]
    [InlineData("NaOH 98 %")]
    [InlineData("KOH 85 %")]
    [InlineData("glacial acetic acid")]
    [InlineData("acetic acid")]
    [InlineData("toluene")]
    [InlineData("sulfuric acid 120 %")]
    [InlineData("2,4-dinitrophenol")]
    [InlineData("4 Å molecular sieves")]
    [InlineData("95 %")]
    [InlineData("")]
    public void TryFind_PureSubstanceOrNonsense_FindsNoSolution(string name) => Assert.False(Solutions.TryFind(name, out _));

    /// <summary>A trade's usual word finds the thing, which goes by the name of its chemistry.</summary>
    [Theory]
    [InlineData("Raney nickel")]
    [InlineData("Raney Ni")]
    [InlineData("sponge nickel")]
    [InlineData("skeletal nickel slurry")]
    public void TryFind_TradeWord_FindsTheMixtureByItsChemistry(string name)
    {
        Assert.True(Solutions.TryFind(name, out var mixture));
        Assert.Equal("skeletal nickel, slurry in water", mixture.Name);
        Assert.Equal(0.5, mixture.Parts.Single(static part => part.Substance.Identity.Cas is "7440-02-0").MassFraction, 1e-9);
    }

    [Fact]
    public void TryFind_EveryName_HidesNoSubstanceOfTheCatalogue() =>
        Assert.All(Solutions.Spellings, static name => Assert.False(Catalog.Default.TryFindByName(name, out _), name));

    [Fact]
    public void All_EverySolution_HasADensityAndIsFoundByItsLabelAtItsStrength() => Assert.All(Solutions.All, static solution =>
    {
        Assert.NotNull(solution.DensityKgPerM3);
        Assert.InRange(solution.DensityKgPerM3.Value, 350, 2200);
        Assert.True(Solutions.TryFindInProcedure(solution.Label, out var found), solution.Label);
        Assert.Equal(solution.Strength, found.Strength);
    });

    [Theory]
    [InlineData("nitric acid", "68 %")]
    [InlineData("hydrogen peroxide", "30 %")]
    [InlineData("n-BuLi", "2.5 M")]
    [InlineData("sulfuric acid", "98 %")]
    public void TryFindInProcedure_NameOfWhatNobodySellsPure_FindsTheBottleOnTheShelf(string name, string strength)
    {
        Assert.False(Solutions.TryFind(name, out _));
        Assert.True(Solutions.TryFindInProcedure(name, out var solution));
        Assert.True(solution.StrengthAssumed);
        Assert.Equal(strength, solution.Strength.ToString());
    }

    [Theory]
    [InlineData("hydrochloric acid", true)]
    [InlineData("hydrochloric acid 37 %", false)]
    [InlineData("ammonium hydroxide", true)]
    [InlineData("brine", false)]
    public void TryFind_StrengthNotTyped_IsMarkedAssumed(string name, bool assumed)
    {
        Assert.True(Solutions.TryFind(name, out var solution));
        Assert.Equal(assumed, solution.StrengthAssumed);
    }

    [Theory]
    [InlineData("1336-21-6", "ammonia solution")]
    [InlineData("8032-32-4", "petroleum ether 40–60")]
    [InlineData("7803-57-8", "hydrazine hydrate")]
    [InlineData("8007-56-5", "aqua regia")]
    public void TryFindByCas_NumberOfASolution_FindsIt(string cas, string name)
    {
        Assert.True(Solutions.TryFindByCas(cas, out var solution));
        Assert.Equal(name, solution.Name);
    }

    [Theory]
    [InlineData("hydrochl", "hydrochloric acid, 37 %")]
    [InlineData("2 M HCl", "hydrochloric acid, 2 M")]
    [InlineData("petroleum", "petroleum ether 40–60")]
    [InlineData("n-BuLi", "n-butyllithium in hexanes, 2.5 M")]
    public void Search_BeginningOfAName_PutsTheUsualFirst(string text, string first) => Assert.Equal(first, Solutions.Search(text, 10)[0].Label);
}
