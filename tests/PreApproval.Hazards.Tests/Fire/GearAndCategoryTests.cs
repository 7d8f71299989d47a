using System.Globalization;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class GearAndCategoryTests
{
    /// <summary>IEC 60079-20-1 and NFPA 497, lower autoignition temperature of both: hexane 225, carbon disulfide 90, tetrahydrofuran 230, 1,4-dioxane 180, diethyl ether 160 °C.</summary>
    [Theory]
    [InlineData("n-hexane", TemperatureClass.T3)]
    [InlineData("carbon disulfide", TemperatureClass.T6)]
    [InlineData("tetrahydrofuran", TemperatureClass.T3)]
    [InlineData("1,4-dioxane", TemperatureClass.T4)]
    [InlineData("diethyl ether", TemperatureClass.T4)]
    public void Of_LowestPublishedAutoignition_IsTheClassOfTheStandard(string substance, TemperatureClass expected) =>
        Assert.Equal(expected, TemperatureClasses.Of(Substance(substance).Known!.AutoignitionK!.Governing.Value));

    /// <summary>IEC 60079-0: a class is for vapours that ignite above its surface temperature, not at it.</summary>
    [Theory]
    [InlineData(451, TemperatureClass.T1)]
    [InlineData(450, TemperatureClass.T2)]
    [InlineData(200, TemperatureClass.T4)]
    [InlineData(86, TemperatureClass.T6)]
    public void Of_AtTheBoundary_TakesTheStricterClass(double celsius, TemperatureClass expected) => Assert.Equal(expected, TemperatureClasses.Of(celsius + 273.15));

    [Fact]
    public void Of_AutoignitionAt85_HasNoClass() => Assert.Null(TemperatureClasses.Of(85 + 273.15));

    /// <summary>TRGS 723, 5.2.3: 80 % of 90 °C is 72 °C; T6 allows 85 °C (IEC 60079-0).</summary>
    [Fact]
    public void KeepingShare_CarbonDisulfide_HasNoClass() => Assert.Null(TemperatureClasses.KeepingShare(90 + 273.15, 0.8));

    /// <summary>80 % of 225 °C is 180 °C, below the 200 °C of T3.</summary>
    [Fact]
    public void KeepingShare_Hexane_IsT4() => Assert.Equal(TemperatureClass.T4, TemperatureClasses.KeepingShare(225 + 273.15, 0.8));

    /// <summary>IEC 60079-20-1: gaps of 0.29 mm (hydrogen), 0.65 mm (ethylene), 0.92 mm (propane).</summary>
    [Theory]
    [InlineData(0.29, GasGroup.IIC)]
    [InlineData(0.65, GasGroup.IIB)]
    [InlineData(0.92, GasGroup.IIA)]
    public void FromSafeGap_TestGases_GiveTheirGroups(double millimetres, GasGroup expected) => Assert.Equal(expected, GasGroups.FromSafeGap(millimetres / 1000));

    [Theory]
    [InlineData("hydrogen", GasGroup.IIC)]
    [InlineData("carbon disulfide", GasGroup.IIC)]
    [InlineData("diethyl ether", GasGroup.IIB)]
    [InlineData("toluene", GasGroup.IIA)]
    public void Of_ListedSubstance_HasItsGroup(string substance, GasGroup expected) => Assert.Equal(expected, GasGroups.Of(Substance(substance).Known!)!.Value);

    [Fact]
    public void Table_WhereTheGapIsGiven_GroupFollowsFromIt()
    {
        var rows = EmbeddedTable.Rows("gas-groups.tsv").Where(static row => row["safeGapMm"].Length > 0).ToArray();

        Assert.NotEmpty(rows);
        Assert.All(rows, static row => Assert.Equal(Enum.Parse<GasGroup>(row["group"]), GasGroups.FromSafeGap(double.Parse(row["safeGapMm"], CultureInfo.InvariantCulture) / 1000)));
    }

    /// <summary>CLP Annex I, 2.6, and NFPA 30 (from memory): flash and boiling points in °C.</summary>
    [Theory]
    [InlineData(-45, 34.6, 1, "IA")]
    [InlineData(-40, 36.1, 2, "IA")]
    [InlineData(-30, 46, 2, "IB")]
    [InlineData(35, 118, 3, "IC")]
    [InlineData(58, 153, 3, "II")]
    [InlineData(70, 184, 4, "IIIA")]
    [InlineData(100, 200, null, "IIIB")]
    public void Category_BothSchemes_AreThoseOfTheRules(double flashC, double boilingC, int? ghs, string nfpa)
    {
        Assert.Equal(ghs, LiquidCategory.Ghs(flashC + 273.15, boilingC + 273.15));
        Assert.Equal(nfpa, LiquidCategory.Nfpa30(flashC + 273.15, boilingC + 273.15));
    }

    /// <summary>BG RCI on TRGS 721: a mixture with a flash point of 45 °C is safe up to 30 °C and not at 35; a pure liquid of 45 °C still at 38; a halogenated one never.</summary>
    [Theory]
    [InlineData(30, true, false, true)]
    [InlineData(35, true, false, false)]
    [InlineData(38, false, false, true)]
    [InlineData(41, false, false, false)]
    [InlineData(-20, false, true, false)]
    public void IsKept_FlashPointOf45_IsAsInTheLeaflet(double celsius, bool mixture, bool halogenated, bool expected) =>
        Assert.Equal(expected, FlashMargin.IsKept(Policy.Default, 45 + 273.15, celsius + 273.15, mixture, halogenated));

    [Fact]
    public void Screen_EtherStandingOpen_NamesClassGroupAndMargin()
    {
        var report = Screener.Screen(Open("diethyl ether", 50), Policy.Default);

        var gear = Assert.Single(report.Findings, static finding => finding.Code is "fire.electrical-gear");
        var margin = Assert.Single(report.Findings, static finding => finding.Code is "fire.flash-margin");
        Assert.Equal(Severity.Notice, gear.Severity);
        Assert.Contains("temperature class T4, or T5 to stay below 128 °C", gear.Statement, StringComparison.Ordinal);
        Assert.Contains("gas group IIB", gear.Statement, StringComparison.Ordinal);
        Assert.Equal(Severity.Notice, margin.Severity);
        // −45 °C (IEC 60079-20-1) less 20 °C
        Assert.Equal(-65, Assert.Single(margin.Evidence).Value, 0.01);
        Assert.Equal(5, Assert.Single(margin.Evidence).Limit);
    }

    [Fact]
    public void Screen_CarbonDisulfideStandingOpen_SaysThatItsClassDoesNotPromiseTheMargin()
    {
        var gear = Assert.Single(Screener.Screen(Open("carbon disulfide", 50), Policy.Default).Findings, static finding => finding.Code is "fire.electrical-gear");

        Assert.Equal(Severity.Caution, gear.Severity);
        Assert.Contains("T6 and a surface below 72 °C, which the class does not promise", gear.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_LiquidWithoutGasGroup_SaysSo() =>
        Assert.Contains("Not on file: the gas group of morpholine", Assert.Single(Screener.Screen(Open("morpholine", 50, 40), Policy.Default).Findings, static finding => finding.Code is "fire.electrical-gear").Statement, StringComparison.Ordinal);

    [Fact]
    public void Screen_DichloromethaneWithEther_SaysThatNoDistanceIsValid()
    {
        var plan = Open("diethyl ether", 50);
        plan = plan with { Materials = [.. plan.Materials, Of("dcm", "dichloromethane", ML(50), Role.Solvent)], Steps = [plan.Steps[0] with { Materials = [new MaterialUse("liquid", null), new MaterialUse("dcm", null)] }] };

        Assert.Contains("with dichloromethane in it no distance to a flash point is a valid margin", Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.flash-margin").Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_OvenWithOpenEther_IsAWarning()
    {
        var plan = Open("ethanol", 50);
        plan = plan with { Steps = [.. plan.Steps, Step("2", StepAction.Heat, "flask", 60) with { HeatSource = HeatSource.Oven }] };

        Assert.Equal(Severity.Warning, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.heated-openly").Severity);
    }

    /// <summary>Dimethylformamide flashes at 58 °C (IEC 60079-20-1): 5 K below is 53 °C.</summary>
    [Fact]
    public void Screen_DimethylformamideHeatedOpenly_OffersATemperatureThatClears()
    {
        var plan = Open("N,N-dimethylformamide", 50);
        plan = plan with { Steps = [.. plan.Steps, Step("2", StepAction.Heat, "flask", 80) with { HeatSource = HeatSource.OilBath }] };
        var offer = Assert.Single(Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.heated-openly").ClearedBy);

        Assert.Equal(53, offer.Value);
        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static finding => finding.Code is "fire.heated-openly");
    }

    private static Plan Open(string substance, double mL, double celsius = 20) => new()
    {
        Materials = [Of("liquid", substance, ML(mL), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, "liquid")],
        FireResponse = Agents(Agent.CarbonDioxide),
    };
}
