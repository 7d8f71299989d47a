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
        Assert.All(HarmlessTable.Pairs.Select(static pair => HarmlessTable.Of(pair.First, pair.Second)!).DistinctBy(static basis => basis.Key), static basis => Assert.All(basis.Sources, static source => Assert.True(References.IsOwn(source), source)));
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
