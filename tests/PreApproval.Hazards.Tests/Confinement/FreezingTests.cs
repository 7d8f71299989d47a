using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Confinement;

/// <summary>Ice at 0 °C has 916.7 kg/m³, liquid water 998.2 at 20 °C (CRC Handbook): 100 mL become 108.9 mL by hand.</summary>
public sealed class FreezingTests
{
    [Theory]
    [InlineData(100, 105, true)]
    [InlineData(98, 100, true)]
    [InlineData(100, 108, true)]
    [InlineData(100, 110, false)]
    [InlineData(50, 100, false)]
    public void Screen_WaterFrozenClosed_WarnsWhereTheIceHasNoRoom(double waterML, double bottleML, bool expected)
    {
        var found = Found(Plan(bottleML, StepAction.Store, -20, Of("water", "water", ML(waterML), Role.Solvent)));

        Assert.Equal(expected, found is not null);
        Assert.True(found is null || found.Severity == Severity.Warning);
    }

    [Fact]
    public void Screen_WaterFrozenClosed_OffersTheRoomOfTheIce() =>
        Assert.Contains(Found(Plan(105, StepAction.Cool, -20, Of("water", "water", ML(100), Role.Solvent)))!.ClearedBy, static offer => offer is { Change: "vessel volume", Value: >= 109 and <= 110 });

    /// <summary>Measured freezing points: 1:1 by volume of ethanol and water near −31 °C, of ethylene glycol and water near −37 °C (handbook tables, from memory); toluene and water do not mix.</summary>
    [Theory]
    [InlineData("ethanol", false)]
    [InlineData("ethylene glycol", false)]
    [InlineData("toluene", true)]
    public void Screen_HalfOfAnotherLiquid_CountsOnlyWhereItMixes(string other, bool expected) =>
        Assert.Equal(expected, Found(Plan(101, StepAction.Store, -15, Of("water", "water", ML(50), Role.Solvent), Of("other", other, ML(50), Role.Solvent))) is not null);

    /// <summary>
    /// CRC Handbook, concentrative properties of aqueous solutions (from memory): sodium chloride and ice freeze together at −21.1 °C and 23.3 %, so brine of 26 % holds no ice at −20 °C; 10 % freezes from −6.6 °C on.
    /// Calcium chloride of 35 % is liquid at −30 °C (its eutectic: −49.8 °C, 30.2 %). A salt charged as a solid may lie on the bottom.
    /// </summary>
    [Theory]
    [InlineData("sodium chloride", 26, -20, false)]
    [InlineData("sodium chloride", 26, -25, true)]
    [InlineData("sodium chloride", 10, -5, false)]
    [InlineData("sodium chloride", 10, -10, true)]
    [InlineData("calcium chloride", 35, -30, false)]
    public void Screen_BrineFullToTheCap_FreezesWhereItsIceForms(string salt, double percent, double celsius, bool expected) =>
        Assert.Equal(expected, Found(Plan(100.5, StepAction.Store, celsius, WeightPercent("brine", salt, "water", percent, ML(100), Role.Solvent))) is not null);

    [Fact]
    public void Screen_SaltPouredIntoWater_KeepsNothingLiquid() =>
        Assert.NotNull(Found(Plan(101, StepAction.Store, -20, Of("water", "water", ML(85), Role.Solvent), Of("salt", "sodium chloride", G(32)))));

    [Fact]
    public void Screen_BrineCooledToMinus20_IsNotFrozen()
    {
        var plan = Plan(200, StepAction.Cool, -20, WeightPercent("brine", "sodium chloride", "water", 24, ML(100), Role.Solvent));

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.frozen");
    }

    /// <summary>Above the freezing point of water, open, or of a liquid that shrinks (benzene: 1 g/mL solid against 0.88 liquid) nothing breaks.</summary>
    [Fact]
    public void Screen_NothingFreezesThatSwells_FindsNothing()
    {
        Assert.Null(Found(Plan(101, StepAction.Store, 4, Of("water", "water", ML(100), Role.Solvent))));
        Assert.Null(Found(Plan(101, StepAction.Store, -20, Of("benzene", "benzene", ML(100), Role.Solvent))));
        var open = Plan(101, StepAction.Cool, -20, Of("water", "water", ML(100), Role.Solvent));
        Assert.Null(Found(open with { Steps = [open.Steps[0], open.Steps[2]] }));
    }

    private static Finding? Found(Plan plan) => Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => string.Equals(finding.Code, "pressure.freezing-fills", StringComparison.Ordinal));

    private static Plan Plan(double bottleML, StepAction action, double celsius, params Material[] materials) => new()
    {
        Materials = materials,
        Vessels = [new Vessel { Id = "bottle", Kind = "glass bottle", VolumeM3 = bottleML * 1e-6, RatingPaGauge = 2e5 }],
        Steps =
        [
            Step("1", StepAction.Charge, "bottle", 20, [.. materials.Select(static material => material.Id)]),
            Step("2", StepAction.Seal, "bottle") with { Closure = Closure.Cap },
            Step("3", action, "bottle", celsius),
        ],
    };
}
