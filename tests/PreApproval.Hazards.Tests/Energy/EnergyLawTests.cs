using CsCheck;
using PreApproval.Hazards.Energy;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Formula screens, heats of decomposition and Yoshida's correlation against published values.</summary>
public sealed class EnergyLawTests
{
    // R. Meyer, J. Köhler, A. Homburg, Explosives (tables of single substances): TNT −73.9, nitroglycerin +3.5, glycol dinitrate 0, PETN −10.1, RDX −21.6, picric acid −45.4,
    // ammonium nitrate +20.0, nitromethane −39.3, tetryl −47.4, ammonium perchlorate +34.0 %. The rest is the formula of the UN Manual worked by hand.
    [Theory]
    [InlineData("C7H5N3O6", -73.96)]
    [InlineData("C3H5N3O9", 3.52)]
    [InlineData("C2H4N2O6", 0.00)]
    [InlineData("C5H8N4O12", -10.1)]
    [InlineData("C3H6N6O6", -21.61)]
    [InlineData("C6H3N3O7", -45.4)]
    [InlineData("H4N2O3", 20.0)]
    [InlineData("CH3NO2", -39.3)]
    [InlineData("C7H5N5O8", -47.4)]
    [InlineData("ClH4NO4", 34.0)]
    [InlineData("ClKO3", 39.2)] // Meyer, Köhler and Homburg, Explosives (from memory): the chloride is left
    [InlineData("ClNaO4", 52.3)]
    [InlineData("C9H18O6", -151.2)]
    [InlineData("C6H12N2O6", -92.2)]
    [InlineData("C8H12N4", -214.3)]
    [InlineData("C6H5N3", -194.7)]
    [InlineData("C14H10O4", -191.5)]
    [InlineData("C4H10O2", -195.3)]
    public void OxygenBalance_OfFormula_IsThePublishedOne(string formula, double percent) =>
        Assert.Equal(percent, OxygenBalance.Percent(formula)!.Value, 0.1);

    [Theory]
    [InlineData("UO2")]
    [InlineData("not a formula")]
    public void OxygenBalance_OutsideTheConvention_IsNotGiven(string formula) => Assert.Null(OxygenBalance.Percent(formula));

    // azide rule, by hand from the formulas: 1-azidononane, benzyl azide, phenyl azide, tosyl azide, 1,2-diazidoethane, ethyl diazoacetate
    [Theory]
    [InlineData("C9H19N3", 3.00)]
    [InlineData("C7H7N3", 2.33)]
    [InlineData("C6H5N3", 2.00)]
    [InlineData("C7H7N3O2S", 3.00)]
    [InlineData("C2H4N6", 0.33)]
    [InlineData("C4H6N2O2", 3.00)]
    public void CarbonAndOxygenPerNitrogen_OfFormula_IsTheCount(string formula, double ratio) =>
        Assert.Equal(ratio, OxygenBalance.CarbonAndOxygenPerNitrogen(formula)!.Value, 0.005);

    [Fact]
    public void CarbonAndOxygenPerNitrogen_WithoutNitrogen_IsNone() => Assert.Null(OxygenBalance.CarbonAndOxygenPerNitrogen("C4H10O2"));

    // TNT, ΔfH −63.2 kJ/mol (CRC Handbook); the products by hand: 2.5 H2O + 1.75 CO2 + 5.25 C, and 2.5 H2O + 3.5 CO + 3.5 C
    [Theory]
    [InlineData(CarbonProduct.Dioxide, false, -5.42)]
    [InlineData(CarbonProduct.Monoxide, false, -4.09)]
    [InlineData(CarbonProduct.Dioxide, true, -5.90)]
    [InlineData(CarbonProduct.Monoxide, true, -4.57)]
    public void DecompositionEnergy_Trinitrotoluene_FollowsTheRule(CarbonProduct carbon, bool liquid, double megajoulePerKg) =>
        Assert.Equal(megajoulePerKg, DecompositionEnergy.JPerKg("C7H5N3O6", -63_200, carbon, liquid)!.Value / 1e6, 0.005 * -megajoulePerKg);

    // arithmetic of the correlation of Yoshida 1987 and of its cautious constants (Org. Process Res. Dev. 2020, 24, 67; constants from memory)
    [Theory]
    [InlineData(2000, 100, 0.349, 0.297, 0.687, 0.475)]
    [InlineData(1000, 150, -0.111, -0.088, 0.266, 0.111)]
    [InlineData(500, 200, -0.518, -0.445, -0.114, -0.232)]
    public void SensitivityEstimate_OfHeatAndOnset(double joulePerGram, double onset, double shock, double propagation, double cautiousShock, double cautiousPropagation)
    {
        var published = SensitivityEstimate.Of(joulePerGram, onset, SensitivityConstants.Published)!.Value;
        var cautious = SensitivityEstimate.Of(joulePerGram, onset, SensitivityConstants.Cautious)!.Value;

        Assert.Equal(shock, published.Shock, 0.002);
        Assert.Equal(propagation, published.Propagation, 0.002);
        Assert.Equal(cautiousShock, cautious.Shock, 0.002);
        Assert.Equal(cautiousPropagation, cautious.Propagation, 0.002);
    }

    [Theory]
    [InlineData(500, 25)]
    [InlineData(0, 100)]
    public void SensitivityEstimate_OutsideItsRange_IsNotGiven(double joulePerGram, double onset) => Assert.Null(SensitivityEstimate.Of(joulePerGram, onset, SensitivityConstants.Published));

    [Fact]
    public void Cautious_constants_geq_published_ones() => Gen.Select(Gen.Double[10, 6000], Gen.Double[27, 500]).Sample(static (heat, onset) =>
    {
        var published = SensitivityEstimate.Of(heat, onset, SensitivityConstants.Published)!.Value;
        var cautious = SensitivityEstimate.Of(heat, onset, SensitivityConstants.Cautious)!.Value;
        Assert.True(cautious.Shock >= published.Shock && cautious.Propagation >= published.Propagation);
    });

    // UN Manual of Tests and Criteria, Appendix 6: 450 J/g needs no testing for class 1; azo and azide compounds are not waived by an oxygen balance of −214 and −195, peroxides not by −192
    [Theory]
    [InlineData(true, true, -100.0, 450.0, 150.0, false)]
    [InlineData(true, true, -100.0, 600.0, 150.0, true)]
    [InlineData(true, true, -230.0, 900.0, 150.0, false)]
    [InlineData(true, false, -214.3, 1100.0, 65.0, true)]
    [InlineData(true, false, -194.7, 2000.0, 120.0, true)]
    [InlineData(true, true, -191.5, 1486.0, 80.0, true)]
    [InlineData(true, true, null, null, null, true)]
    [InlineData(false, false, -60.0, 900.0, 100.0, false)]
    public void IsExplosiveCandidate_AfterTheWaivers(bool group, bool oxygen, double? balance, double? heat, double? onset, bool candidate) =>
        Assert.Equal(candidate, TransportScreens.IsExplosiveCandidate(group, oxygen, balance, heat, onset));
}
