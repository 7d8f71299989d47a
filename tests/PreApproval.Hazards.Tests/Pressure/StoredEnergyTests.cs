using CsCheck;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Tests.Pressure;

public sealed class StoredEnergyTests
{
    private const double Litre = 1e-3;
    private const double TenBar = 10e5;

    /// <summary>1.00 L of gas from 10 bar to the atmosphere, γ = 1.4: 2.247, 1.200, 2.289, 1.391 kJ. Formulas of Crowl and Louvar, Chemical Process Safety, ch. 6; figures by hand.</summary>
    [Fact]
    public void Formulas_OneLitreAtTenBar_GiveTheWorkedExample()
    {
        Assert.Equal(2247, StoredEnergy.BrodeJ(TenBar, Litre), 0.005 * 2247);
        Assert.Equal(1200, StoredEnergy.IsentropicJ(TenBar, Litre), 0.005 * 1200);
        Assert.Equal(2289, StoredEnergy.IsothermalJ(TenBar, Litre), 0.005 * 2289);
        Assert.Equal(1391, StoredEnergy.AvailableJ(TenBar, Litre), 0.005 * 1391);
    }

    /// <summary>2.247 kJ over 4.5 MJ/kg: 0.50 g.</summary>
    [Fact]
    public void TntKg_BrodeOfTheExample_IsHalfAGram() => Assert.Equal(0.50e-3, new StoredEnergy(2247, 0, []).TntKg, 0.005e-3);

    /// <summary>Saturated water from 200 to 100 °C: quality 0.169, Δu 78.3 kJ/kg; steam tables: s 2.3305, 1.3072, 7.3541 kJ/(kg K), u 850.5, 419.1, 2506 kJ/kg.</summary>
    [Fact]
    public void Isentropic_SaturatedWater_GivesTheSteamTables()
    {
        var (quality, fall) = StoredEnergy.Isentropic((2330.5, 1307.2, 7354.1), (850.5e3, 419.1e3, 2506e3));

        Assert.Equal(0.169, quality, 0.001);
        Assert.Equal(78.3e3, fall, 0.01 * 78.3e3);
    }

    /// <summary>
    /// The same water by heat capacity, 4.4 kJ/(kg K) as the mean between 100 and 200 °C: 50 kJ/kg, what the steam tables leave of 78.3 kJ/kg when the atmosphere has been
    /// pushed back (0.169·1.673 m³/kg·101.3 kPa = 28.6 kJ/kg).
    /// </summary>
    [Fact]
    public void FlashJ_SaturatedWater_GivesTheSteamTablesNetOfTheAtmosphere()
    {
        Assert.Equal(50e3, StoredEnergy.FlashJ(4400, 473.15, 373.15), 0.05 * 50e3);
        Assert.Equal(78.3e3 - (0.169 * 1.673 * 101_325), StoredEnergy.FlashJ(4400, 473.15, 373.15), 0.05 * 50e3);
    }

    /// <summary>0.25 to 0.39 kJ for 5 g of water at 200 °C against 0.02 kJ for 5 mL of gas at 17 bar: the liquid counts ten times the gas (steam tables, as above).</summary>
    [Fact]
    public void Of_WaterAt200Degrees_IsMostlyLiquid()
    {
        var energy = StoredEnergyOf(5, 10, 200);

        Assert.InRange(energy.LiquidJ, 0.2e3, 0.39e3);
        Assert.InRange(energy.GasJ, 0.008e3, 0.03e3);
    }

    /// <summary>
    /// 9.6 g of liquid ammonia at 95 °C: 9.6/17.03 mol · 80.8 J/(mol K) · (128.3 − 239.8·ln(368.15/239.8)) K = 1.16 kJ by hand; 4.75 kJ/(kg K) at 25 °C and the boiling point 239.8 K
    /// are those of the reference equation (Gao et al. 2020, from memory).
    /// </summary>
    [Fact]
    public void Of_LiquidAmmonia_CountsTheLiquid() => Assert.Equal(1.16e3, StoredEnergyOf("ammonia", 9.6 / 17.031, 50, 95).LiquidJ, 0.02e3);

    /// <summary>The assumed 3.3 kJ/(kg K) for 10 g of methyl chloride (boils at 249 K) at 60 °C: 33·(84.2 − 249·ln(333.15/249)) = 0.384 kJ by hand.</summary>
    [Fact]
    public void Of_NoHeatCapacityOnFile_AssumesOneAndSaysSo()
    {
        var energy = StoredEnergyOf("chloromethane", 10 / 50.488, 50, 60);

        Assert.Equal(0.384e3, energy.LiquidJ, 0.01e3);
        Assert.Equal(["chloromethane"], energy.Assumed);
    }

    /// <summary>Bands of common practice: 50, 500 J, 5 kJ.</summary>
    [Theory]
    [InlineData(49, ShieldClass.Sash)]
    [InlineData(50, ShieldClass.Shield)]
    [InlineData(499, ShieldClass.Shield)]
    [InlineData(500, ShieldClass.Cell)]
    [InlineData(5000, ShieldClass.Cell)]
    [InlineData(5001, ShieldClass.Engineered)]
    public void Of_Energy_GivesItsBand(double energyJ, ShieldClass expected) => Assert.Equal(expected, ShieldClasses.Of(energyJ, Policy.Default));

    [Fact]
    public void energy_is_linear_in_volume_and_monotone_in_pressure() =>
        Gen.Select(Gen.Double[1.1e5, 3e7], Gen.Double[1e-6, 1], Gen.Double[1, 3]).Sample(static (pressure, volume, factor) =>
        {
            Assert.Equal(factor * StoredEnergy.IsentropicJ(pressure, volume), StoredEnergy.IsentropicJ(pressure, factor * volume), 1e-9 * StoredEnergy.IsentropicJ(pressure, factor * volume));
            Assert.True(StoredEnergy.IsentropicJ(pressure * factor, volume) >= StoredEnergy.IsentropicJ(pressure, volume));
        });

    /// <summary>Isentropic expansion lies below both Brode's bound and the isothermal one at every pressure (thermodynamics).</summary>
    [Fact]
    public void isentropic_below_brode_and_isothermal() =>
        Gen.Select(Gen.Double[1.02e5, 3e7], Gen.Double[1.05, 1.67]).Sample(static (pressure, gamma) =>
        {
            var isentropic = StoredEnergy.IsentropicJ(pressure, 1, gamma);
            Assert.True(isentropic <= StoredEnergy.BrodeJ(pressure, 1, gamma) * (1 + 1e-12));
            Assert.True(isentropic <= StoredEnergy.IsothermalJ(pressure, 1) * (1 + 1e-12));
        });

    [Fact]
    public void flash_monotone_in_temperature_and_zero_at_boiling() =>
        Gen.Select(Gen.Double[300, 500], Gen.Double[0, 150], Gen.Double[0, 50]).Sample(static (boiling, over, more) =>
        {
            Assert.Equal(0, StoredEnergy.FlashJ(1000, boiling, boiling));
            // rounding of 1 part in 1e16 of 1 kJ/K times 500 K
            Assert.True(StoredEnergy.FlashJ(1000, boiling + over + more, boiling) >= StoredEnergy.FlashJ(1000, boiling + over, boiling) - 1e-8);
        });

    private static StoredEnergy StoredEnergyOf(double waterML, double vesselML, double celsius) => StoredEnergyOf("water", waterML * 0.997 / 18.015, vesselML, celsius);

    private static StoredEnergy StoredEnergyOf(string name, double mol, double vesselML, double celsius)
    {
        var substance = Plans.PlanOf.Substance(name).Known!;
        var state = SafeWindow.StateOf(Plans.PlanOf.Tube(vesselML, 40), [new ChargedSubstance(substance, mol)], celsius + 273.15, Hazards.Plans.HeatSource.MetalBlock, Policy.Default with { OvershootK = 0 });
        return ClosedResult.Of(state, Policy.Default)!.Energy!;
    }
}
