using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Pairs as chemists know them, from general chemistry and from memory; severities are not compared with anything outside.</summary>
public sealed class PairAssessmentTests
{
    // what a textbook warns of, whatever the order
    [Theory]
    [InlineData("sodium hydride", "water")]
    [InlineData("water", "sodium hydride")]
    [InlineData("chlorotrimethylsilane", "water")]
    [InlineData("tert-butyldimethylsilyl chloride", "methanol")]
    [InlineData("sodium bis(trimethylsilyl)amide", "water")]
    [InlineData("lithium bis(trimethylsilyl)amide", "methanol")]
    [InlineData("potassium tert-butoxide", "dichloromethane")]
    [InlineData("sodium borohydride", "N,N-dimethylformamide")]
    [InlineData("bromine", "acetone")]
    [InlineData("bromine", "N,N-dimethylformamide")]
    [InlineData("N-bromosuccinimide", "N,N-dimethylformamide")]
    [InlineData("thionyl chloride", "N,N-dimethylformamide")]
    [InlineData("methanesulfonyl chloride", "water")]
    [InlineData("3-chloroperbenzoic acid", "acetone")]
    [InlineData("sulfuric acid", "acetonitrile")]
    [InlineData("lithium aluminium hydride", "ethyl acetate")]
    [InlineData("trifluoroacetic anhydride", "water")]
    [InlineData("triflic anhydride", "water")]
    [InlineData("trimethylsilyldiazomethane", "acetic acid")]
    [InlineData("dicyclohexylcarbodiimide", "acetic acid")]
    [InlineData("carbon", "hydrogen peroxide")]
    // what a broad family hid behind a basis (from memory; Bretherick's Handbook, Chemistry of the Elements)
    [InlineData("furan", "hydrogen chloride")]
    [InlineData("silver nitrate", "ethanol")]
    [InlineData("lithium", "nitrogen")]
    [InlineData("trichloroisocyanuric acid", "water")]
    [InlineData("trichloroisocyanuric acid", "urea")]
    [InlineData("sodium dihydrogen phosphate", "sodium cyanide")]
    [InlineData("pyridinium p-toluenesulfonate", "potassium cyanide")]
    [InlineData("tetrabutylammonium hydrogen sulfate", "sodium azide")]
    [InlineData("sodium metabisulfite", "sodium cyanide")]
    [InlineData("hydrogen cyanide", "triethylamine")]
    [InlineData("methyl triflate", "water")]
    [InlineData("ammonium nitrate", "mineral oil")]
    [InlineData("sodium peroxide", "ethanol")]
    [InlineData("acetylene", "copper(I) chloride")]
    [InlineData("benzyl chloride", "iron(III) chloride")]
    // not assessed before
    [InlineData("nitromethane", "lithium aluminium hydride")]
    [InlineData("hydrazine", "copper")]
    [InlineData("potassium chlorate", "sucrose")]
    [InlineData("hydrogen sulfide", "nitric acid")]
    [InlineData("aluminium", "mercury(II) chloride")]
    [InlineData("phosgene", "water")]
    [InlineData("triphosgene", "water")]
    [InlineData("urea", "sodium hypochlorite")]
    [InlineData("chromium trioxide", "acetic anhydride")]
    public void Of_PairThatReacts_IsAHazard(string a, string b) => Assert.Equal(Assessment.Hazard, Judge(a, b).Assessment);

    // everyday work: extraction, chromatography, drying, alkylation
    [Theory]
    [InlineData("n-hexane", "ethyl acetate")]
    [InlineData("toluene", "water")]
    [InlineData("diethyl ether", "n-hexane")]
    [InlineData("dichloromethane", "methanol")]
    [InlineData("sodium chloride", "water")]
    [InlineData("magnesium sulfate", "diethyl ether")]
    [InlineData("potassium carbonate", "N,N-dimethylformamide")]
    [InlineData("triethylamine", "dichloromethane")]
    [InlineData("acetic acid", "ethyl acetate")]
    [InlineData("n-butyllithium", "n-hexane")]
    [InlineData("phenylmagnesium bromide", "tetrahydrofuran")]
    [InlineData("sodium azide", "N,N-dimethylformamide")]
    [InlineData("nitrogen", "n-butyllithium")]
    [InlineData("tetrakis(triphenylphosphine)palladium(0)", "toluene")]
    [InlineData("azidotrimethylsilane", "dichloromethane")]
    [InlineData("disodium hydrogen phosphate", "sodium azide")]
    [InlineData("methyl (triphenylphosphoranylidene)acetate", "dichloromethane")]
    [InlineData("tributyl phosphate", "n-dodecane")]
    [InlineData("sodium thiocyanate", "acetone")]
    public void Of_EverydayPair_IsNoneKnownWithABasis(string a, string b)
    {
        var answer = Judge(a, b);

        Assert.Equal(Assessment.NoneKnown, answer.Assessment);
        Assert.NotEmpty(PairWords.Basis(answer));
        Assert.NotEmpty(PairWords.Sources(answer));
        Assert.Null(answer.Severity);
    }

    [Fact]
    public void Of_SubstanceWithoutFamily_IsNotAssessedAndSaysSo()
    {
        var answer = Assert.Single(PairAssessment.Of([new PairPartner("powder from the shelf", []), Partner("water")]));

        Assert.Equal(Assessment.NotAssessed, answer.Assessment);
        Assert.Contains("powder from the shelf", PairWords.Reason(answer), StringComparison.Ordinal);
        Assert.Contains("not assessed does not mean compatible", PairWords.Reason(answer), StringComparison.Ordinal);
    }

    /// <summary>Known as hazards of hot melts only; cold, the row is the basis.</summary>
    [Fact]
    public void Judge_RowOnlyAboveATemperature_IsNoneKnownBelowIt()
    {
        var answer = PairAssessment.Judge(Partner("sodium nitrate"), Partner("sodium thiosulfate"), static row => row.AboveK is null);

        Assert.Equal(Assessment.NoneKnown, answer.Assessment);
        Assert.Contains("known only above 150 °C", PairWords.Basis(answer), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_ThreePartRow_NeedsTheThird()
    {
        Assert.DoesNotContain(PairAssessment.Of([Partner("acetone"), Partner("chloroform")]), static answer => answer.Assessment == Assessment.Hazard);
        Assert.Contains(
            PairAssessment.Of([Partner("acetone"), Partner("chloroform"), Partner("potassium hydroxide")]),
            static answer => answer.Encounters.Any(static row => row.Key is "ketone-with-haloform-and-base") && PairWords.Conditions(answer).Contains("with alkali hydroxides", StringComparison.Ordinal));
    }

    /// <summary>Diisopropyl ether is the textbook former of peroxides that explode by themselves (Kelly 1996): a bottle that is kept, not a step in air.</summary>
    [Fact]
    public void Of_EtherAndAir_NamesThePeroxidesOfStoring()
    {
        var answer = Assert.Single(PairAssessment.Of([Partner("diisopropyl ether"), new PairPartner("air", [EncounterTable.Air])]));

        Assert.Equal(Severity.Warning, answer.Severity);
        Assert.Contains("on storing", PairWords.Conditions(answer), StringComparison.Ordinal);
    }

    /// <summary>Oxygen boils at −183.0 °C: only what comes as a cold liquid condenses it.</summary>
    [Fact]
    public void Of_NitrogenAndAir_IsAHazardOnlyAsALiquid()
    {
        PairPartner air = new("air", [EncounterTable.Air]);

        Assert.Equal(Assessment.NoneKnown, Assert.Single(PairAssessment.Of([Partner("nitrogen"), air])).Assessment);
        Assert.Equal(Assessment.Hazard, Assert.Single(PairAssessment.Of([Partner("nitrogen") with { IsCryogenic = true }, air])).Assessment);
    }

    /// <summary>Sulfuric acid and peroxide in one bottle bring two of the three parts of what they do to acetone.</summary>
    [Fact]
    public void Of_BottleWithTwoOfThreeParts_FindsTheRow()
    {
        PairPartner bottle = new("sulfuric acid with peroxide", [.. Partner("sulfuric acid").Families, .. Partner("hydrogen peroxide").Families]);

        Assert.Contains(Assert.Single(PairAssessment.Of([bottle, Partner("acetone")])).Encounters, static row => row.Key is "peroxymonosulfuric-acid-with-ketone");
        Assert.DoesNotContain(Assert.Single(PairAssessment.Of([Partner("sulfuric acid"), Partner("acetone")])).Encounters, static row => row.C is not null);
    }

    /// <summary>Two rows that hold in two ranges are told apart by their severity, so that they do not seem to cancel.</summary>
    [Fact]
    public void Conditions_OfRowsInTwoRanges_SayWhichHoldsWhere() =>
        Assert.Equal("danger: above 25 °C; warning: up to 25 °C", PairWords.Conditions(Judge("sodium hydride", "dimethyl sulfoxide")));

    /// <summary>A basis for "none known" beside a row that holds at any temperature would contradict it.</summary>
    [Fact]
    public void HarmlessTable_NoPair_IsAlsoAHazardAtAnyTemperature() =>
        Assert.Empty(HarmlessTable.Pairs
            .Where(static pair => Anywhere(pair.First, pair.Second))
            .Select(static pair => $"{pair.First} + {pair.Second}"));

    [Fact]
    public void HarmlessTable_EverySourceAndFamily_IsKnown()
    {
        var known = FamilyTable.Default.All.Append(EncounterTable.Air).ToHashSet(StringComparer.Ordinal);

        Assert.All(HarmlessTable.Pairs, pair => Assert.True(known.Contains(pair.First) && known.Contains(pair.Second), $"{pair.First} + {pair.Second}"));
        Assert.All(HarmlessTable.Pairs.Select(static pair => HarmlessTable.Of(pair.First, pair.Second)!).DistinctBy(static basis => basis.Key, StringComparer.Ordinal), static basis => Assert.All(basis.Sources, static source => Assert.True(References.IsOwn(source), source)));
    }

    [Fact]
    public void Catalogue_EverySubstance_HasAFamily() =>
        Assert.Empty(Catalog.Default.Substances.Where(static substance => FamilyTable.Default.Of(Substance(substance.Identity.Name)).Count == 0).Select(static substance => substance.Identity.Name));

    private static bool Anywhere(string one, string other)
    {
        foreach (var row in EncounterIndex.Default.Between(one, other))
        {
            if (row is { C: null, AboveK: null, BelowK: null })
            {
                return true;
            }
        }

        return false;
    }

    private static PairAnswer Judge(string a, string b) => Assert.Single(PairAssessment.Of([Partner(a), Partner(b)]));

    private static PairPartner Partner(string name) => new(name, FamilyTable.Default.Of(Substance(name)));
}
