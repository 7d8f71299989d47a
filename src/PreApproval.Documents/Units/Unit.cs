using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Units;

/// <summary>What a unit measures.</summary>
public enum Dimension
{
    Mass,
    AmountOfSubstance,
    Volume,
    Temperature,
    Pressure,
    Time,
    AmountConcentration,
    Fraction,
    Energy,
    MolarEnergy,
    SpecificEnergy,
    VolumeFlow,
    MolarMass,
    Density,
}

/// <summary>A unit of the contract: SI value = typed value × <paramref name="Factor"/> + <paramref name="Offset"/>.</summary>
/// <param name="Symbol">The symbol of the contract.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Factor">SI units per unit.</param>
/// <param name="Offset">SI value of zero: 273.15 K for °C, 101 325 Pa for a gauge pressure.</param>
/// <param name="Aliases">Other accepted spellings.</param>
/// <param name="Basis">What a fraction counts; null for other dimensions.</param>
/// <param name="IsGauge">True for a pressure above the atmosphere.</param>
public sealed record Unit(string Symbol, Dimension Dimension, double Factor, double Offset, IReadOnlyList<string> Aliases, FractionBasis? Basis, bool IsGauge);
