using PreApproval.Documents.Units;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents;

/// <summary>A number with its unit, both as typed.</summary>
/// <param name="Value">Finite.</param>
/// <param name="Unit">Symbol or alias of <see cref="UnitTable"/>.</param>
public sealed record Quantity(double Value, string Unit)
{
    /// <summary>The unit's entry. Throws <see cref="InvalidOperationException"/> when the table has none, which the reader excludes.</summary>
    public Unit Definition => UnitTable.TryFind(Unit, out Unit? unit)
        ? unit
        : throw new InvalidOperationException($"'{Unit}' is no unit of the contract.");

    /// <summary>
    /// The value in SI units: kg, mol, m³, K, Pa absolute, s, mol/m³, a fraction of one, J, J/mol, J/kg, m³/s, kg/mol, kg/m³.
    /// </summary>
    public double Si
    {
        get
        {
            Unit unit = Definition;
            return (Value * unit.Factor) + unit.Offset;
        }
    }

    /// <summary>A pressure above the standard atmosphere in Pa, whether typed as gauge or absolute.</summary>
    public double PaGauge
    {
        get
        {
            Unit unit = Definition;
            return unit.IsGauge ? Value * unit.Factor : (Value * unit.Factor) - UnitTable.AtmospherePa;
        }
    }

    /// <summary>As the engine reads an amount. Throws <see cref="InvalidOperationException"/> for other dimensions.</summary>
    public Amount ToAmount() => Definition.Dimension switch
    {
        Dimension.Mass => new Amount.Mass(Si),
        Dimension.AmountOfSubstance => new Amount.Mol(Si),
        Dimension.Volume => new Amount.Volume(Si),
        Dimension.Temperature or Dimension.Pressure or Dimension.Time or Dimension.AmountConcentration or Dimension.Fraction
            or Dimension.Energy or Dimension.MolarEnergy or Dimension.SpecificEnergy or Dimension.VolumeFlow
            or Dimension.MolarMass or Dimension.Density => throw new InvalidOperationException($"{Unit} measures no amount."),
    };
}
