using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Solutions;

namespace PreApproval.Hazards.Vessels;

/// <summary>What the solutes of a sealed charge do to its liquid: volume, sources, and where the published range ends.</summary>
internal static class SolutionDensities
{
    private const double WaterM3PerMol = 18.05e-6;
    private const double WaterKgPerMol = 0.018015;

    /// <summary>Apparent molar volume of a solute: the density of its solution, or 1000 kg/m³ where none is on file.</summary>
    public static double SoluteM3PerMol(SealedCharge charge, ChargedPart solute)
    {
        if (solute.Substance.Identity.MolarMassKgPerMol is not { } molarMass)
        {
            return 0;
        }

        var water = charge.Mixing.FirstOrDefault(static part => part.Substance.Key is SolutionVapour.Water).Mol;
        var soluteKg = solute.Mol * molarMass;
        var total = soluteKg + (water * WaterKgPerMol);
        return water > 0 && SolutionDensity.Of(solute.Substance.Identity.Cas, SolutionVapour.Water)?.At(soluteKg / total) is { } density
            ? Math.Max(0, ((total / density) - (water * WaterM3PerMol)) / solute.Mol)
            : molarMass / 1000;
    }

    /// <summary>Keys of the sources behind the partial pressures of a solute.</summary>
    public static IEnumerable<string> Sources(SealedCharge charge, Substances.Substance solute)
    {
        var water = charge.Mixing.FirstOrDefault(static part => part.Substance.Key is SolutionVapour.Water).Mol;
        return water > 0 && SolutionVapour.Aqueous(solute, 0.01, water, 298.15) is { } aqueous ? [aqueous.Source] : ["gerrard1976"];
    }

    /// <summary>Names of the solutes whose strength or temperature leaves the published range.</summary>
    public static IEnumerable<string> OutOfRange(SealedCharge charge, double temperatureK)
    {
        var water = charge.Mixing.FirstOrDefault(static part => part.Substance.Key is SolutionVapour.Water).Mol;
        return charge.Dissolved.Where(part => water > 0 && SolutionVapour.Aqueous(part.Substance, part.Mol, water, temperatureK) is { InRange: false }).Select(static part => part.Substance.Identity.Name);
    }
}
