using CsCheck;
using PreApproval.Hazards.Fire;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>Laws of release and evaporation against worked examples. Molar volume 24.465 L/mol at 25 °C throughout.</summary>
public sealed class ReleaseLawTests
{
    private const double CubicFootM3 = 0.028316846592;
    private const double MmHgPa = 133.322;

    /// <summary>Stoichiometry: 100 mL of acetone (0.784 g/mL, 58.08 g/mol) in 30 m³: 1101 ppm, 4.4 % of 2.5 %; in 1.35 m³ 2.45 %, 98 % of it.</summary>
    [Theory]
    [InlineData(30, 1101, 0.044)]
    [InlineData(1.35, 24_460, 0.98)]
    public void FractionIn_AcetoneEvaporated_IsAsByStoichiometry(double spaceM3, double ppm, double shareOfLimit)
    {
        var fraction = ReleaseLaw.FractionIn(spaceM3, ReleaseLaw.VapourM3(100 * 0.784 / 58.08));

        Assert.Equal(ppm, fraction * 1e6, ppm * 0.005);
        Assert.Equal(shareOfLimit, fraction / 0.025, 0.005);
    }

    /// <summary>Stoichiometry: 500 mL of diethyl ether (0.7134 g/mL) in 60 m³: 0.195 %, 11.5 % of 1.7 %; 10 mL of carbon disulfide (1.263 g/mL) in 1.35 m³: 0.30 %, 50 % of 0.6 %.</summary>
    [Theory]
    [InlineData(500, 0.7134, 74.12, 60, 0.00195, 0.017, 0.115)]
    [InlineData(10, 1.263, 76.14, 1.35, 0.0030, 0.006, 0.50)]
    public void FractionIn_SolventEvaporated_IsAsByStoichiometry(double mL, double gPerMl, double gPerMol, double spaceM3, double expected, double limit, double share)
    {
        var fraction = ReleaseLaw.FractionIn(spaceM3, ReleaseLaw.VapourM3(mL * gPerMl / gPerMol));

        Assert.Equal(expected, fraction, expected * 0.015);
        Assert.Equal(share, fraction / limit, 0.01);
    }

    /// <summary>Stoichiometry: 1.00 g of LiAlH4 (37.955 g/mol) makes 4 H2, 105.4 mmol; in the air standing in a hood of 1.35 m³ 0.19 %, 4.8 % of 4.0 %.</summary>
    [Fact]
    public void FractionIn_HydrogenFromAGramOfHydride_IsFivePercentOfTheLimit()
    {
        var fraction = ReleaseLaw.FractionIn(1.35, ReleaseLaw.VapourM3(4 / 37.955));

        Assert.Equal(0.0019, fraction, 0.00002);
        Assert.Equal(0.048, fraction / 0.04, 0.0005);
    }

    /// <summary>1.00 g of KCN (65.12 g/mol) with acid: 7.5 ppm HCN in 50 m³, 376 ppm in 1 m³, above the IDLH of 50 ppm (stoichiometry; NIOSH).</summary>
    [Theory]
    [InlineData(50, 7.5)]
    [InlineData(1, 376)]
    public void FractionIn_HydrogenCyanide_IsAsByStoichiometry(double spaceM3, double ppm) =>
        Assert.Equal(ppm, ReleaseLaw.FractionIn(spaceM3, ReleaseLaw.VapourM3(1 / 65.12)) * 1e6, ppm * 0.01);

    /// <summary>Steam tables: the liquid enthalpy at 150 and 100 °C is 632.2 and 419.1 kJ/kg, evaporation at 100 °C takes 2256.5: 9.4 % flashes (isenthalpic). With cp 4.26 kJ/(kg K).</summary>
    [Fact]
    public void FlashFraction_WaterAt150_IsThatOfTheSteamTables() =>
        Assert.Equal((632.2 - 419.1) / 2256.5, ReleaseLaw.FlashFraction(4.26, 423.15, 373.15, 2256.5), 0.0005);

    [Fact]
    public void Flash_fraction_is_zero_below_boiling_and_never_falls_with_temperature() => Check.Sample(
        Gen.Select(Gen.Double[50, 400], Gen.Double[250, 450], Gen.Double[2e4, 6e4], Gen.Double[200, 600], Gen.Double[0, 200]),
        static x =>
        {
            var (cp, boiling, heat, at, more) = x;
            var here = ReleaseLaw.FlashFraction(cp, at, boiling, heat);
            var hotter = ReleaseLaw.FlashFraction(cp, at + more, boiling, heat);
            return here is >= 0 and <= 1 && hotter >= here && (at > boiling || here == 0);
        });

    /// <summary>Crowl and Louvar, evaporation of toluene from a tank of 5 ft at 77 °F, 28.2 mmHg, 3000 ft³/min: K 0.482 cm/s, 0.162 lb/min, 230 ppm (figures recomputed from the book's formulas).</summary>
    [Fact]
    public void Rate_TolueneTank_IsThatOfTheBook()
    {
        const double molarMass = 0.09214;
        const double areaM2 = Math.PI / 4 * 1.524 * 1.524;

        var rate = Evaporation.RateKgPerS(molarMass, areaM2, 28.2 * MmHgPa, 298.15);

        Assert.Equal(0.482e-2, Evaporation.MassTransferMPerS(molarMass), 0.002e-2);
        Assert.Equal(0.162, rate * 60 / 0.45359237, 0.162 * 0.03);
        Assert.Equal(230, Evaporation.SteadyFraction(rate, molarMass, 3000 * CubicFootM3 / 60, 298.15) * 1e6, 230 * 0.03);
    }

    /// <summary>EPA 550-B-99-009, equation for evaporation (from memory): acetone, 1.0 m², 0.5 m/s, 25 °C, 231 mmHg: 114 g/min.</summary>
    [Fact]
    public void RateInWind_AcetonePool_Is114GramPerMinute() =>
        Assert.Equal(114, Evaporation.RateInWindKgPerS(0.5, 0.05808, 1, 231 * MmHgPa, 298.15) * 60_000, 114 * 0.05);

    /// <summary>ACGIH, Industrial Ventilation (from memory), Q = 403 SG 10⁶ K ER/(M C): one pint of toluene (SG 0.866) an hour, K 5, 20 ppm: 15.8 thousand ft³/min.</summary>
    [Fact]
    public void DilutionAir_PintOfTolueneAnHour_IsThatOfTheFormula()
    {
        const double pintM3 = 473.176473e-6;

        var flow = Evaporation.DilutionAirM3PerS(pintM3 * 866 / 3600, 0.09214, 20e-6, 5);

        Assert.Equal(15.8e3, flow * 60 / CubicFootM3, 15.8e3 * 0.01);
    }

    /// <summary>NFPA 69 (from memory): 2 vol% below the limiting oxygen with a monitor, 60 % of it without; below 5 vol% 60 % in both cases.</summary>
    [Theory]
    [InlineData(0.12, true, 0.10)]
    [InlineData(0.12, false, 0.072)]
    [InlineData(0.05, true, 0.03)]
    [InlineData(0.04, true, 0.024)]
    public void Allowed_ByMonitor_IsAsTheStandardHasIt(double limiting, bool monitored, double expected) =>
        Assert.Equal(expected, LimitingOxygen.Allowed(limiting, monitored), 1e-12);

    /// <summary>Crowl and Louvar, vacuum purging: y = y0 (p/P)^n. 21 % evacuated to 20 mmHg of 760 leaves 0.553 % after one cycle, 0.0145 % after two.</summary>
    [Theory]
    [InlineData(1, 0.00553)]
    [InlineData(2, 0.000145)]
    public void AfterVacuumPurge_TwentyTorr_LeavesTheBooksOxygen(int cycles, double expected) =>
        Assert.Equal(expected, LimitingOxygen.AfterVacuumPurge(20 * MmHgPa, cycles), expected * 0.005);

    /// <summary>Sweep-through purging: 0.21 exp(−q/V); three volumes leave 1.05 %.</summary>
    [Fact]
    public void AfterSweep_ThreeVolumes_LeavesAPercent() => Assert.Equal(0.01046, LimitingOxygen.AfterSweep(3), 0.00002);

    /// <summary>Crowl and Louvar, evaporation example: 0.162 lb/min of toluene (92.14 g/mol) into 3000 ft³/min, 77 °F: 230 ppm once steady.</summary>
    [Fact]
    public void PeakFraction_LongLastingPool_IsTheSteadyConcentration() =>
        Assert.Equal(230e-6, ReleaseLaw.PeakFraction(30, 3000 * 0.0283168 / 60, 0, 1e6, 0.162 * 0.45359237 / 60 / 0.09214 * 0.024465), 5e-6);

    /// <summary>Acetone, 100 mL, 33.03 L of vapour: 1101 ppm in 30 m³ when all of it is there at once (stoichiometry).</summary>
    [Theory]
    [InlineData(0.03303, 0, 1)]
    [InlineData(0, 0.03303, 1e6)]
    [InlineData(0.01303, 0.02, 1e6)]
    public void PeakFraction_AtOnce_IsTheWholeInTheSpace(double atOnce, double pool, double rate) => Assert.Equal(1101e-6, ReleaseLaw.PeakFraction(30, 0.03, atOnce, pool, rate), 1e-6);

    [Fact]
    public void PeakFraction_never_passes_the_whole_and_falls_with_more_air() => Check.Sample(
        Gen.Select(Gen.Double[1, 100], Gen.Double[0.001, 1], Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[1e-6, 1]),
        static x =>
        {
            var (space, flow, atOnce, pool, rate) = x;
            var peak = ReleaseLaw.PeakFraction(space, flow, atOnce, pool, rate);
            return peak <= ((atOnce + pool) / space * (1 + 1e-9)) && ReleaseLaw.PeakFraction(space, 2 * flow, atOnce, pool, rate) <= peak * (1 + 1e-9);
        });
}
