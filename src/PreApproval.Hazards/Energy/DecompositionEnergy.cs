using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>What the oxygen of a substance makes of its carbon once all hydrogen has become water.</summary>
public enum CarbonProduct
{
    Dioxide,
    Monoxide,
}

/// <summary>
/// Heat of decomposition from the enthalpy of formation, to fixed products: water, then an oxide of carbon, soot, nitrogen, hydrogen chloride. The rules are those of
/// the explosives books (R. Meyer, Explosives); enthalpies of formation of the products from the CRC Handbook, 95th ed. An upper bound of what is measured.
/// </summary>
public static class DecompositionEnergy
{
    private const double WaterVapourJPerMol = -241_800;
    private const double WaterLiquidJPerMol = -285_800;
    private const double CarbonDioxideJPerMol = -393_500;
    private const double CarbonMonoxideJPerMol = -110_500;
    private const double HydrogenChlorideJPerMol = -92_300;

    /// <summary>
    /// Heat of decomposition in J/kg, exothermic negative; null for elements other than C, H, N, O and Cl. Trinitrotoluene (−63.2 kJ/mol): 2.5 H2O, then 1.75 CO2, −5.4 MJ/kg.
    /// </summary>
    /// <param name="formula">Molecular formula.</param>
    /// <param name="formationJPerMol">Enthalpy of formation in J/mol at 298.15 K in the state it is in.</param>
    /// <param name="carbon">Which oxide comes second.</param>
    /// <param name="liquidWater">True: water condenses.</param>
    public static double? JPerKg(string formula, double formationJPerMol, CarbonProduct carbon, bool liquidWater = false)
    {
        ArgumentNullException.ThrowIfNull(formula);
        if (!Formula.TryCount(formula, out var atoms) || Formula.MolarMassKgPerMol(formula) is not { } molarMass || atoms.Keys.Any(static element => element is not ("C" or "H" or "N" or "O" or "Cl")))
        {
            return null;
        }

        double oxygen = atoms.GetValueOrDefault("O");
        var chloride = (double)Math.Min(atoms.GetValueOrDefault("Cl"), atoms.GetValueOrDefault("H"));
        var water = Math.Min((atoms.GetValueOrDefault("H") - chloride) / 2, oxygen);
        oxygen -= water;
        var (each, perMol) = carbon switch
        {
            CarbonProduct.Dioxide => (2.0, CarbonDioxideJPerMol),
            CarbonProduct.Monoxide => (1.0, CarbonMonoxideJPerMol),
        };
        var oxide = Math.Min(atoms.GetValueOrDefault("C"), oxygen / each);
        return ((water * (liquidWater ? WaterLiquidJPerMol : WaterVapourJPerMol)) + (oxide * perMol) + (chloride * HydrogenChlorideJPerMol) - formationJPerMol) / molarMass;
    }
}
