using CsCheck;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Health;

/// <summary>Conversions of ppm and mg/m³ against the factors that the NIOSH Pocket Guide (2007) prints for 25 °C (from memory).</summary>
public sealed class AirConcentrationTests
{
    [Theory]
    [InlineData("71-43-2", 3.19)]
    [InlineData("108-88-3", 3.77)]
    [InlineData("67-64-1", 2.38)]
    [InlineData("67-56-1", 1.31)]
    [InlineData("7664-41-7", 0.70)]
    [InlineData("7782-50-5", 2.90)]
    [InlineData("630-08-0", 1.15)]
    [InlineData("7783-06-4", 1.40)]
    [InlineData("75-44-5", 4.05)]
    [InlineData("50-00-0", 1.23)]
    [InlineData("75-09-2", 3.47)]
    [InlineData("67-66-3", 4.88)]
    [InlineData("56-23-5", 6.29)]
    [InlineData("74-90-8", 1.10)]
    [InlineData("10102-44-0", 1.88)]
    [InlineData("13463-39-3", 6.98)]
    [InlineData("75-05-8", 1.68)]
    [InlineData("110-54-3", 3.53)]
    public void MilligramPerM3_OnePpm_IsThePrintedFactor(string cas, double milligramPerM3)
    {
        Assert.True(Catalog.Default.TryFindByCas(cas, out var substance));

        // The guide rounds the factor to 0.01 and the molar mass to 0.1 g/mol, and divides by 24.45 instead of 24.465.
        var rounding = 0.005 + (0.05 / 24.45) + (milligramPerM3 * ((24.465 / 24.45) - 1));
        Assert.Equal(milligramPerM3, AirConcentration.MilligramPerM3(1, substance.Identity.MolarMassKgPerMol!.Value), rounding);
    }

    /// <summary>By hand: 10 mg/m³ of benzene, 78.114 g/mol: 10 × 24.465/78.114 = 3.13196 ppm.</summary>
    [Fact]
    public void Ppm_OfBenzene_IsTheHandCalculation() => Assert.Equal(3.13196, AirConcentration.Ppm(10, 0.078114), 1e-5);

    [Fact]
    public void ppm_of_mg_of_x_eq_x() =>
        Gen.Select(Gen.Double[1e-6, 1e5], Gen.Double[0.002, 0.5]).Sample((ppm, molarMass) =>
            Math.Abs(AirConcentration.Ppm(AirConcentration.MilligramPerM3(ppm, molarMass), molarMass) - ppm) <= 1e-12 * ppm);

    [Fact]
    public void mg_is_linear_in_ppm() =>
        Gen.Select(Gen.Double[1e-6, 1e5], Gen.Double[0.002, 0.5]).Sample((ppm, molarMass) =>
            Math.Abs(AirConcentration.MilligramPerM3(2 * ppm, molarMass) - (2 * AirConcentration.MilligramPerM3(ppm, molarMass))) <= 1e-9 * ppm);
}
