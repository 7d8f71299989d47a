using System.Text;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Tests;

public class FindingWordsTests
{
    [Fact]
    public void Of_PressureOfOneVesselInThreeSteps_IsOneGroupWithTheWorstFirst()
    {
        FindingGroup group = Assert.Single(FindingGroup.Of(
        [
            Finding("pressure.near-rating", Hazard.Pressure, Severity.Warning, "tube", "4", "8.1 bar(g)"),
            Finding("pressure.near-rating", Hazard.Pressure, Severity.Danger, "tube", "3", "9.5 bar(g)"),
            Finding("pressure.near-rating", Hazard.Pressure, Severity.Warning, "tube", "5", "8.0 bar(g)"),
        ]));
        Assert.Equal(["3"], group.First.Steps);
        Assert.Equal("Also in steps 4, 5, as warning", group.Also);
    }

    [Fact]
    public void Of_TwoPairsOfMaterialsInOneVessel_AreTwoGroups() => Assert.Equal(2, FindingGroup.Of(
    [
        Finding("incompatibility.pair", Hazard.Incompatibility, Severity.Danger, "flask", "1", "azide with acid"),
        Finding("incompatibility.pair", Hazard.Incompatibility, Severity.Danger, "flask", "1", "azide with dichloromethane"),
    ]).Count);

    [Fact]
    public void Of_OneVesselAndAnother_AreTwoGroups() => Assert.Equal(2, FindingGroup.Of(
    [
        Finding("pressure.near-rating", Hazard.Pressure, Severity.Danger, "tube", "3", "a"),
        Finding("pressure.near-rating", Hazard.Pressure, Severity.Danger, "flask", "3", "b"),
    ]).Count);

    [Theory]
    [InlineData("""{"change":"rating","path":"/vessels/0/rating","to":{"value":16.5,"unit":"bar(g)"}}""", "use a vessel rated for at least 16.5 bar(g)")]
    [InlineData("""{"change":"rating","path":"/vessels/0/parts/1/rating","to":{"value":16.5,"unit":"bar(g)"}}""", "use a part rated for at least 16.5 bar(g)")]
    [InlineData("""{"change":"vessel volume","path":"/vessels/0/volume","to":{"value":60,"unit":"mL"}}""", "use a vessel of at least 60 mL")]
    [InlineData("""{"change":"set temperature","path":"/steps/2/temperature","to":{"value":68,"unit":"°C"}}""", "set at most 68 °C")]
    [InlineData("""{"change":"set temperature","path":"/steps/2/temperature","to":{"value":68,"unit":"°C"},"with":{"path":"/steps/2/surfaceTemperature","to":{"value":83,"unit":"°C"}}}""", "set at most 68 °C, with the surface at most 83 °C")]
    public void Advice_OfAWayOut_SaysWhatToDo(string clearing, string expected)
    {
        ClearingView way = Read($$"""{"clearedBy":[{{clearing}}]}""").ClearedBy[0];
        Assert.Equal(expected, $"{way.Advice} {way.ToWords}");
    }

    [Fact]
    public void Rule_OfAShareOfTheRating_NamesTheLimitOfTheReport() => Assert.Equal(
        "Rule: warning from 50 % of the rating; here 84 %.",
        Read("""{"evidence":[{"name":"share of the rating","value":0.838,"unit":"fraction","limit":0.5,"model":"","source":[],"quality":"correlated"}]}""").Rule);

    [Theory]
    [InlineData("pressure.exceeds-rating", "danger", 1.347, "Rule: danger above the rating; here 135 %.")]
    [InlineData("pressure.near-rating", "danger", 0.95, "Rule: danger close to the rating, warning from 50 % of it; here 95 %.")]
    [InlineData("pressure.near-rating", "warning", 0.6, "Rule: warning from 50 % of the rating; here 60 %.")]
    public void Rule_OfADanger_IsNotTheOneOfAWarning(string code, string severity, double share, string expected) => Assert.Equal(
        expected,
        Read($$"""{"code":"{{code}}","severity":"{{severity}}","evidence":[{"name":"share of the rating","value":{{share.ToString(System.Globalization.CultureInfo.InvariantCulture)}},"unit":"fraction","limit":0.5,"model":"","source":[],"quality":"correlated"}]}""").Rule);

    [Fact]
    public void Rule_WithoutAShare_IsNotSaid() => Assert.Null(Read("""{"evidence":[]}""").Rule);

    private static FindingView Finding(string code, Hazard hazard, Severity severity, string vessel, string step, string statement) =>
        new() { Id = $"{code}/{vessel}/{step}", Code = code, Hazard = hazard, Severity = severity, Vessel = vessel, Steps = [step], Statement = statement };

    private static FindingView Read(string finding) =>
        ScreeningView.Read(Encoding.UTF8.GetBytes($$"""{"findings":[{{finding}}]}""")).Findings[0];
}
