using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Substances;

public sealed class CatalogTests
{
    private static readonly Catalog Catalog = Catalog.Default;

    [Fact]
    public void Read_EmbeddedFiles_HasNoFaults()
    {
        var (_, faults) = CatalogReader.Read(CatalogReader.EmbeddedFiles());
        Assert.Empty(faults);
    }

    [Fact]
    public void Substances_Count_IsAtLeast400() => Assert.True(Catalog.Substances.Count >= 400);

    // CAS numbers, formulae and molar masses (g/mol): CRC Handbook, 95th edition, physical constants.
    [Theory]
    [InlineData("THF", "109-99-9", "C4H8O", 72.11)]
    [InlineData("tetra-hydro furan", "109-99-9", "C4H8O", 72.11)]
    [InlineData("NaBH4", "16940-66-2", "BH4Na", 37.83)]
    [InlineData("Dichloromethane", "75-09-2", "CH2Cl2", 84.93)]
    [InlineData("dimethylformamide", "68-12-2", "C3H7NO", 73.09)]
    [InlineData("sodium chloride", "7647-14-5", "ClNa", 58.44)]
    [InlineData("mCPBA", "937-14-4", "C7H5ClO3", 172.57)]
    [InlineData("carbon disulphide", "75-15-0", "CS2", 76.14)]
    [InlineData("n-BuLi", "109-72-8", "C4H9Li", 64.06)]
    [InlineData("Na2SO4", "7757-82-6", "Na2O4S", 142.04)]
    [InlineData("silica gel", "7631-86-9", "O2Si", 60.08)]
    public void TryFindByName_CommonName_FindsSubstance(string name, string cas, string formula, double gramsPerMol)
    {
        Assert.True(Catalog.TryFindByName(name, out var substance));
        Assert.Equal(cas, substance.Identity.Cas);
        Assert.Equal(formula, substance.Identity.Formula);
        Assert.Equal(gramsPerMol, substance.Identity.MolarMassKgPerMol!.Value * 1000, 0.01);
    }

    [Theory]
    [InlineData("hydrochloric acid")]
    [InlineData("Hydrobromic acid")]
    [InlineData("hydrofluoric acid")]
    [InlineData("bleach")]
    [InlineData("formalin")]
    [InlineData("formol")]
    [InlineData("ammonia solution")]
    [InlineData("aqueous ammonia")]
    [InlineData("ammonium hydroxide")]
    [InlineData("brine")]
    [InlineData("petroleum ether")]
    public void TryFindByName_NameOfASolution_FindsNothing(string name) => Assert.False(Catalog.TryFindByName(name, out _));

    // Formulae and CAS numbers: CRC Handbook, 95th edition, and reagent catalogues, from memory; molar masses from the formulae.
    [Theory]
    [InlineData("palladium acetate", "3375-31-3", "C4H6O4Pd")]
    [InlineData("EDC", "25952-53-8", "C8H18ClN3")]
    [InlineData("benzylamine", "100-46-9", "C7H9N")]
    [InlineData("TBSCl", "18162-48-6", "C6H15ClSi")]
    [InlineData("NaOtBu", "865-48-5", "C4H9NaO")]
    [InlineData("DIC", "693-13-0", "C7H14N2")]
    [InlineData("skeletal nickel", "7440-02-0", "Ni")]
    [InlineData("PyBOP", "128625-52-5", "C18H28F6N6OP2")]
    [InlineData("COMU", "1075198-30-9", "C12H19F6N4O4P")]
    [InlineData("arsenic trioxide", "1327-53-3", "As2O3")]
    [InlineData("sugar", "57-50-1", "C12H22O11")]
    [InlineData("potassium superoxide", "12030-88-5", "KO2")]
    [InlineData("N-methyl-N-nitroso-p-toluenesulfonamide", "80-11-5", "C8H10N2O3S")]
    [InlineData("selenium dioxide", "7446-08-4", "O2Se")]
    [InlineData("lead(IV) acetate", "546-67-8", "C8H12O8Pb")]
    [InlineData("diazomethane", "334-88-3", "CH2N2")]
    [InlineData("propargyl bromide", "106-96-7", "C3H3Br")]
    [InlineData("propargyl chloride", "624-65-7", "C3H3Cl")]
    [InlineData("TosMIC", "36635-61-7", "C9H9NO2S")]
    [InlineData("trityl chloride", "76-83-5", "C19H15Cl")]
    [InlineData("SEMCl", "76513-69-4", "C6H15ClOSi")]
    [InlineData("samarium diiodide", "32248-43-4", "I2Sm")]
    [InlineData("lithium hexamethyldisilazide", "4039-32-1", "C6H18LiNSi2")]
    [InlineData("acetyl bromide", "506-96-7", "C2H3BrO")]
    [InlineData("hexabutylditin", "813-19-4", "C24H54Sn2")]
    [InlineData("ammonium sulfide", "12135-76-1", "H8N2S")]
    [InlineData("ethyl vinyl ether", "109-92-2", "C4H8O")]
    [InlineData("quinuclidine", "100-76-5", "C7H13N")]
    [InlineData("scandium triflate", "144026-79-9", "C3F9O9S3Sc")]
    [InlineData("thioacetic acid", "507-09-5", "C2H4OS")]
    [InlineData("diketene", "674-82-8", "C4H4O2")]
    [InlineData("cyclohexene oxide", "286-20-4", "C6H10O")]
    [InlineData("Meldrum's acid", "2033-24-1", "C6H8O4")]
    [InlineData("4-bromotoluene", "106-38-7", "C7H7Br")]
    [InlineData("ethyl benzoate", "93-89-0", "C9H10O2")]
    [InlineData("acetanilide", "103-84-4", "C8H9NO")]
    [InlineData("phenylacetic acid", "103-82-2", "C8H8O2")]
    [InlineData("methyltriphenylphosphonium bromide", "1779-49-3", "C19H18BrP")]
    [InlineData("copper(II) sulfate pentahydrate", "7758-99-8", "CuH10O9S")]
    [InlineData("diatomaceous earth", "61790-53-2", "O2Si")]
    [InlineData("HBTU", "94790-37-1", "C11H16F6N5OP")]
    [InlineData("Cbz-Cl", "501-53-1", "C8H7ClO2")]
    [InlineData("PPTS", "24057-28-1", "C12H13NO3S")]
    [InlineData("sodium ascorbate", "134-03-2", "C6H7NaO6")]
    [InlineData("9-BBN", "280-64-8", "C8H15B")]
    public void TryFindByName_ReagentOfTheBench_FindsSubstance(string name, string cas, string formula)
    {
        Assert.True(Catalog.TryFindByName(name, out var substance));
        Assert.Equal((cas, formula), (substance.Identity.Cas, substance.Identity.Formula));
    }

    [Fact]
    public void TryFindBySmiles_AsWritten_FindsSubstance()
    {
        Assert.True(Catalog.TryFindBySmiles("COCCOC", out var substance));
        Assert.Equal("110-71-4", substance.Identity.Cas);
    }

    [Fact]
    public void Search_BeginningOfName_PutsExactNameFirst() => Assert.Equal("toluene", Catalog.Search("toluene", 5)[0].Identity.Name);

    // What chemists type, and what they mean by it.
    [Theory]
    [InlineData("tol", "toluene")]
    [InlineData("THF", "tetrahydrofuran")]
    [InlineData("109-99", "tetrahydrofuran")]
    [InlineData("109999", "tetrahydrofuran")]
    [InlineData("H₂SO₄", "sulfuric acid")]
    [InlineData("sodium sulph", "sodium sulfite")]
    [InlineData("aluminum chlor", "aluminium chloride")]
    [InlineData("dimethoxyeth", "1,2-dimethoxyethane")]
    [InlineData("tolune", "toluene")]
    [InlineData("dicloromethane", "dichloromethane")]
    [InlineData("acetonitirle", "acetonitrile")]
    [InlineData("tetrahydrofurane", "tetrahydrofuran")]
    public void Search_AsTyped_FindsWhatIsMeant(string typed, string expected) => Assert.Contains(Catalog.Search(typed, 8), s => string.Equals(s.Identity.Name, expected, StringComparison.Ordinal));

    [Fact]
    public void Search_EveryNameSynonymAndCasNumber_FindsItsSubstanceFirstOrBesideItsNamesakes() => Assert.All(Catalog.Substances, static substance =>
    {
        foreach (var text in substance.Identity.Synonyms.Append(substance.Identity.Name).Append(substance.Identity.Cas!))
        {
            Assert.Same(substance, Catalog.Search(text, 1)[0]);
        }
    });

    // Plain reading of the rule, against the sorted index: a text finds every substance one of whose names begins with it.
    [Fact]
    public void Search_EveryBeginningOfAName_FindsWhatAPlainScanFinds()
    {
        var spelled = Catalog.Substances.SelectMany(s => s.Identity.Synonyms.Append(s.Identity.Name).Select(n => (Substance: s, Name: Catalog.IndexSpelling(n)))).ToList();
        var beginnings = spelled.SelectMany(s => Enumerable.Range(1, Math.Min(6, s.Name.Length)).Select(length => s.Name[..length])).Distinct(StringComparer.Ordinal);
        Assert.All(beginnings, beginning =>
        {
            var found = Catalog.Search(beginning, int.MaxValue).ToHashSet();
            Assert.All(spelled.Where(s => s.Name.StartsWith(beginning, StringComparison.Ordinal)), s => Assert.Contains(s.Substance, found));
        });
    }

    [Theory]
    [InlineData("")]
    [InlineData(" - ")]
    [InlineData("qqqq")]
    [InlineData("xyzzyx")]
    public void Search_NothingLikeIt_FindsNothing(string typed) => Assert.Empty(Catalog.Search(typed, 10));

    [Theory]
    [InlineData("toluene", "toluene", true)]
    [InlineData("toluene", "tolune", true)]
    [InlineData("toluene", "tolluene", true)]
    [InlineData("toluene", "toluune", true)]
    [InlineData("toluene", "toulene", true)]
    [InlineData("toluene", "toluenes", true)]
    [InlineData("toluene", "toluenee", true)]
    [InlineData("toluene", "tolueness", false)]
    [InlineData("toluene", "tlounee", false)]
    [InlineData("toluene", "benzene", false)]
    public void BeginsAlmostLike_OneLetter_IsForgiven(string name, string typed, bool expected) => Assert.Equal(expected, SpellingIndex.BeginsAlmostLike(name, typed));

    // 1,4-dioxane: IEC 60079-20-1:2010 prints 375 °C, NFPA 497:2008 prints 180 °C.
    [Fact]
    public void Autoignition_StandardsDisagree_LowestGovernsAndAllAreKept()
    {
        Assert.True(Catalog.TryFindByName("1,4-dioxane", out var dioxane));
        Assert.Equal(180 + 273.15, dioxane.AutoignitionK!.Governing.Value, 1e-9);
        Assert.Equal([180 + 273.15, 375 + 273.15], dioxane.AutoignitionK.All.Select(v => v.Value).Order());
    }

    // NFPA 497:2008 prints -80 °C for MTBE and -40 °C for isobutanol; IEC 60079-20-1:2010 has -27 and 28 °C.
    [Theory]
    [InlineData("MTBE", -27, -80)]
    [InlineData("isobutanol", 28, -40)]
    public void FlashPoint_SuspectedMisprint_IsShownAndDoesNotGovern(string name, double governingC, double printedC)
    {
        Assert.True(Catalog.TryFindByName(name, out var substance));
        Assert.Equal(governingC + 273.15, substance.FlashPointK!.Governing.Value, 1e-9);
        var misprint = Assert.Single(substance.FlashPointK.All, v => Math.Abs(v.Value - printedC - 273.15) < 1e-9);
        Assert.Contains("misprint", misprint.Note, StringComparison.Ordinal);
    }

    // Carbon disulfide: autoignition 90 °C in IEC 60079-20-1:2010 and NFPA 497:2008; LFL 0.6 and 1.3 %, UFL 60 and 50 %.
    [Fact]
    public void FlammableLimits_StandardsDisagree_WidestRangeGoverns()
    {
        Assert.True(Catalog.TryFindByCas("75-15-0", out var cs2));
        Assert.Equal(363.15, cs2.AutoignitionK!.Governing.Value, 1e-9);
        Assert.Equal(0.006, cs2.LowerFlammableLimit!.Governing.Value, 1e-12);
        Assert.Equal(0.60, cs2.UpperFlammableLimit!.Governing.Value, 1e-12);
    }

    [Fact]
    public void Digest_EmbeddedData_IsSha256InHexadecimal() => Assert.Matches("^sha256:[0-9a-f]{64}$", Catalog.Digest);

    [Fact]
    public void Reference_EveryQuotedSource_HasAReference()
    {
        var keys = Catalog.Substances.SelectMany(s => s.VapourPressure.Select(c => c.Source)).Concat(["ambrose-walton1989", "hankinson-thomson1979", "thomson1982", "iapws-if97", "rackett1970", "fredenslund1975", "unifac-published", "common-practice"]).Distinct(StringComparer.Ordinal);
        Assert.All(keys, key => Assert.False(string.Equals(key, Catalog.Reference(key), StringComparison.Ordinal)));
    }

    [Fact]
    public void LiquidVolume_EverySubstance_IsPositiveAndGrowsWithTemperature() => Assert.All(Catalog.Substances, s =>
    {
        var cold = LiquidVolume.At(s, 293.15).M3PerMol;
        Assert.InRange(cold, 1e-6, 2e-3);
        Assert.True(LiquidVolume.At(s, 353.15).M3PerMol >= cold);
    });
}
