using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

public sealed class FlammabilityReferenceTests
{
    public static TheoryData<string, string, string, double> Standards => new(
        Read("flammability.tsv").Where(r => r[4] is "iec" or "nfpa").Select(r => (r[0], r[2], r[4], InUnit(r[3], Number(r[5])))));

    public static TheoryData<string, string, double> Cautious => Marked("cautious");

    public static TheoryData<string, string, double> Misprints => Marked("misprint");

    [Theory]
    [MemberData(nameof(Standards))]
    public void Catalogue_Standard_HoldsThePrintedValue(string cas, string quantity, string publication, double value)
    {
        var key = publication is "iec" ? "iec60079-20-1-2010" : "nfpa497-2008";
        Assert.Contains(Of(cas, quantity)!.All, kept => kept.Sources.Contains(key, StringComparer.Ordinal) && Math.Abs(kept.Value - value) < 1e-6 * Math.Max(value, 1));
    }

    [Theory]
    [MemberData(nameof(Cautious))]
    public void Catalogue_WhereStandardsDisagree_TheCautiousValueGoverns(string cas, string quantity, double value) =>
        Assert.Equal(value, Of(cas, quantity)!.Governing.Value, 1e-6);

    // NFPA 497 prints −80 °C for MTBE and −40 °C for isobutanol, IEC 60079-20-1 −27 and 28 °C: kept and shown, but taken for misprints.
    [Theory]
    [MemberData(nameof(Misprints))]
    public void Catalogue_SuspectedMisprint_IsKeptWithANoteAndDoesNotGovern(string cas, string quantity, double value)
    {
        var published = Of(cas, quantity)!;
        Assert.True(published.Governing.Value > value + 1);
        Assert.Contains(published.All, kept => Math.Abs(kept.Value - value) < 1e-6 && kept.Note is not null);
    }

    // NFPA 497 prints −29 °C for ethane, a gas that boils at −89 °C.
    [Fact]
    public void Catalogue_FlashPointAboveTheBoilingPoint_DoesNotGovern() => Assert.Null(Of("74-84-0", "flash point"));

    // chemicals 1.5.2, fire_mixing: 1/Σ(y/L).
    [Theory]
    [InlineData(new[] { 0.7, 0.3 }, new[] { 0.025, 0.017 }, 0.021907216494845363)]
    [InlineData(new[] { 0.7, 0.3 }, new[] { 0.143, 0.392 }, 0.17666561613614876)]
    [InlineData(new[] { 0.6, 0.4 }, new[] { 0.04, 0.109 }, 0.053562653562653564)]
    [InlineData(new[] { 0.6, 0.4 }, new[] { 0.77, 0.74 }, 0.7577127659574467)]
    [InlineData(new[] { 0.3, 0.4, 0.3 }, new[] { 0.01, 0.031, 0.01 }, 0.013716814159292035)]
    [InlineData(new[] { 0.3, 0.4, 0.3 }, new[] { 0.078, 0.19, 0.089 }, 0.1072707753867174)]
    public void LeChatelier_ReferenceMixtures_AgreeToAllFigures(double[] shares, double[] limits, double expected) =>
        Near(expected, FlammableLimits.LeChatelier([.. shares.Zip(limits)]), 1e-12);

    // Ethanol in water by volume, closed cup, quoted from an encyclopaedia (secondary source); densities 0.789 and 0.998 g/mL at 20 °C.
    [Theory]
    [InlineData(10, 49)]
    [InlineData(30, 29)]
    [InlineData(50, 24)]
    [InlineData(70, 21)]
    [InlineData(90, 17)]
    public void FlashPoint_EthanolInWater_WithinThreeKelvin(double percent, double celsius)
    {
        var mixture = new LiquidMixture([new MixtureComponent(ByName("ethanol"), percent * 0.789 / 46.07), new MixtureComponent(ByName("water"), (100 - percent) * 0.998 / 18.015)]);
        Assert.Equal(celsius, MixtureFlashPoint.Of(mixture).FlashPointK!.Value - 273.15, 3.0);
    }

    private static TheoryData<string, string, double> Marked(string mark) => new(
        Read("flammability.tsv").Where(r => string.Equals(r[4], mark, StringComparison.Ordinal)).Select(r => (r[0], r[2], InUnit(r[3], Number(r[5])))));

    private static double InUnit(string unit, double value) => unit is "degC" ? value + 273.15 : value;

    private static Published? Of(string cas, string quantity) => quantity switch
    {
        "flash point" => ByCas(cas).FlashPointK,
        "autoignition temperature" => ByCas(cas).AutoignitionK,
        "lower flammable limit" => ByCas(cas).LowerFlammableLimit,
        "upper flammable limit" => ByCas(cas).UpperFlammableLimit,
        _ => throw new ArgumentException(quantity, nameof(quantity)),
    };
}
