using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class HotSurfaceTests
{
    /// <summary>
    /// Autoignition of diethyl ether 160 °C (NFPA 497; IEC 60079-20-1: 175 °C). No heater is colder than what it heats (second law of thermodynamics), so 50 and 149 °C under
    /// contents of 150 °C tell nothing; 150 °C is above 80 % of 160 °C and below it (TRGS 723, 5.2.3).
    /// </summary>
    [Theory]
    [InlineData(null, Severity.Danger, false)]
    [InlineData(50.0, Severity.Danger, true)]
    [InlineData(149.0, Severity.Danger, true)]
    [InlineData(150.0, Severity.Warning, false)]
    public void Screen_EtherAt150Degrees_IsNotClearedByAColderSurface(double? surfaceC, Severity severity, bool named)
    {
        var findings = Screener.Screen(Closed("diethyl ether", 150, surfaceC), Policy.Default).Findings;

        Assert.Equal(severity, Assert.Single(findings, static finding => finding.Code is "fire.hot-surface").Severity);
        Assert.Equal(named, findings.Any(static finding => finding.Code is "fire.surface-below-contents"));
    }

    /// <summary>The temperature of the contents is the lowest that anything which heats them can have (second law of thermodynamics): margin at most 128 °C less the set temperature.</summary>
    [Theory]
    [InlineData(80, 50.0)]
    [InlineData(80, 90.0)]
    public void OverTemperature_SetAboveItsStatedSurface_TheSurfaceIsNoColderThanTheContents(double setC, double surfaceC)
    {
        var state = Walk.Follow(Closed("diethyl ether", setC, surfaceC), Policy.Default).States[^1];

        var points = SafeWindow.OverTemperature(state, Policy.Default, 60 + 273.15, 160 + 273.15, 11).Points;

        Assert.All(points, static point => Assert.True(point.SurfaceMarginK <= 128 + 273.15 - point.TemperatureK + 0.05));
        Assert.All(points.Zip(points.Skip(1)), static pair => Assert.True(pair.First.SurfaceMarginK >= pair.Second.SurfaceMarginK));
        Assert.False(points[^1].Safe);
    }

    /// <summary>A point of the explorer is the plan typed with that temperature: above the stated 90 °C it has the 15 K of a block (common practice, no source).</summary>
    [Theory]
    [InlineData(85)]
    [InlineData(120)]
    public void OverTemperature_RaisedPlan_EqualsTheScreen(double celsius)
    {
        var typed = SafeWindow.At(Walk.Follow(Closed("diethyl ether", celsius, 90), Policy.Default).States[^1], Policy.Default);
        var moved = SafeWindow.OverTemperature(Walk.Follow(Closed("diethyl ether", 80, 90), Policy.Default).States[^1], Policy.Default, 353.15, celsius + 273.15, 2).Points[1];

        Assert.Equal(typed.SurfaceMarginK!.Value, moved.SurfaceMarginK!.Value, 1e-6);
        Assert.Equal(typed.WorstTemperatureK, moved.WorstTemperatureK, 1e-6);
    }

    /// <summary>
    /// Temperature class of IEC 60079-20-1: diethyl ether T4 (ignites at or below 200 °C), n-hexane T3 (225 °C), toluene T1 (535 °C). Class T4 or worse over an element of unknown temperature is a warning; toluene may meet 428 °C,
    /// more than the 300 °C assumed of an element (common practice, no source). A block and an oil bath are held at their own temperature.
    /// </summary>
    [Theory]
    [InlineData("diethyl ether", 34, HeatSource.Mantle, Severity.Warning)]
    [InlineData("diethyl ether", 34, HeatSource.SandBath, Severity.Warning)]
    [InlineData("diethyl ether", 34, HeatSource.Hotplate, Severity.Warning)]
    [InlineData("n-hexane", 65, HeatSource.Mantle, Severity.Caution)]
    [InlineData("toluene", 105, HeatSource.Mantle, null)]
    [InlineData("diethyl ether", 34, HeatSource.MetalBlock, null)]
    [InlineData("diethyl ether", 34, HeatSource.OilBath, null)]
    public void Screen_ElementOfUnknownTemperature_IsNamedByWhatIgnites(string substance, double celsius, HeatSource source, Severity? expected)
    {
        var findings = Screener.Screen(Closed(substance, celsius, null, source), Policy.Default).Findings;

        Assert.Equal(expected, findings.FirstOrDefault(static finding => finding.Code is "fire.surface-not-stated")?.Severity);
        Assert.DoesNotContain(findings, static finding => finding.Code is "fire.hot-surface");
    }

    /// <summary>Saturated steam at one atmosphere is at 100 °C (IAPWS), and carbon disulfide ignites at 90 °C (IEC 60079-20-1), whatever the contents are set to; ether does not (160 °C).</summary>
    [Theory]
    [InlineData("carbon disulfide", 40, true)]
    [InlineData("diethyl ether", 34, false)]
    public void Screen_SteamWithoutAStatedSurface_IsAtItsBoilingPoint(string substance, double celsius, bool ignites) =>
        Assert.Equal(ignites, Screener.Screen(Closed(substance, celsius, null, HeatSource.Steam), Policy.Default).Findings.Any(static finding => finding is { Code: "fire.hot-surface", Severity: Severity.Danger }));

    /// <summary>
    /// Fire needs oxygen: decalin (autoignition 250 °C, IEC 60079-20-1) at 265 °C in steel closed under argon can burn only outside, after a leak; over air, or in hydrogen, which burns itself on leaking, it stays a danger.
    /// Severity: common practice, no source.
    /// </summary>
    [Theory]
    [InlineData("argon", Severity.Warning)]
    [InlineData("hydrogen", Severity.Danger)]
    [InlineData(null, Severity.Danger)]
    public void Screen_ClosedSteelAboveAutoignition_IsGradedByTheGasInIt(string? gas, Severity expected) =>
        Assert.Equal(expected, Assert.Single(Screener.Screen(Closed("decalin", 250, null, under: gas is null ? null : Under(gas)), Policy.Default).Findings, static finding => finding.Code is "fire.hot-surface").Severity);

    private static Plan Closed(string substance, double celsius, double? surfaceC, HeatSource source = HeatSource.MetalBlock, Headspace? under = null) => new()
    {
        Materials = [Of("solvent", substance, ML(20), Role.Solvent)],
        Vessels = [new Vessel { Id = "a", Kind = "stainless steel autoclave", VolumeM3 = 50e-6, RatingPaGauge = 100e5 }],
        Steps =
        [
            Step("1", StepAction.Charge, "a", 20, "solvent") with { Headspace = under },
            Step("2", StepAction.Seal, "a"),
            Step("3", StepAction.Heat, "a", celsius) with { HeatSource = source, SurfaceTemperatureK = surfaceC + 273.15 },
        ],
    };
}
