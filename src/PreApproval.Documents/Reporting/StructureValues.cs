using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Reporting;

/// <summary>One estimate from a structure, in the unit people use.</summary>
/// <param name="Name">For instance <c>boiling point</c>.</param>
/// <param name="Value">In <paramref name="Unit"/>; null with <paramref name="Because"/>.</param>
/// <param name="Unit">°C, bar, kJ/mol, J/(mol K) or %.</param>
/// <param name="Error">Error bar in the same unit; null where the method has none.</param>
/// <param name="AtC">Temperature in °C it holds at, or null.</param>
/// <param name="Model">What it was computed by.</param>
/// <param name="Sources">Full references.</param>
/// <param name="Because">Why there is no value.</param>
public sealed record StructureValue(string Name, double? Value, string Unit, double? Error, double? AtC, string Model, IReadOnlyList<string> Sources, string? Because);

/// <summary>What follows from the structure of a substance that the catalogue does not list: the same list for the command line, the API and the page.</summary>
public static class StructureValues
{
    /// <summary>What to know of every number in the list.</summary>
    public const string Caution = "Estimates from the structure alone, for information: no check of pressure, fire or exposure is made with them, and what cannot be checked becomes a finding.";

    private const double CelsiusZeroK = 273.15;
    private const double StandardC = 25;

    /// <summary>Every estimate, those that cannot be had with the reason.</summary>
    public static IReadOnlyList<StructureValue> Of(TypedStructure structure)
    {
        ArgumentNullException.ThrowIfNull(structure);
        JobackEstimate? joback = structure.Joback;
        return
        [
            Joback("boiling point", joback?.BoilingPointK - CelsiusZeroK, "°C", JobackEstimate.BoilingPointErrorK),
            Joback("critical temperature", joback?.CriticalTemperatureK - CelsiusZeroK, "°C", JobackEstimate.CriticalTemperatureErrorK),
            Joback("critical pressure", joback?.CriticalPressurePa / 1e5, "bar", joback?.CriticalPressurePa / 1e5 * JobackEstimate.CriticalPressureRelativeError),
            Joback("enthalpy of formation, gas", joback?.GasEnthalpyOfFormationJPerMol / 1000, "kJ/mol", JobackEstimate.EnthalpyOfFormationErrorJPerMol / 1000, StandardC),
            Joback("heat capacity, gas", joback?.GasHeatCapacityJPerMolK(StandardC + CelsiusZeroK), "J/(mol K)", joback?.GasHeatCapacityJPerMolK(StandardC + CelsiusZeroK) * JobackEstimate.HeatCapacityRelativeError, StandardC),
            new StructureValue("oxygen balance", structure.OxygenBalancePercent, "%", null, null, "combustion to CO2, H2O, N2 and SO2", [Catalog.Default.Reference(OxygenBalance.Source)],
                structure.OxygenBalancePercent is null ? "an element whose oxide is not settled, or more halogen than hydrogen" : null),
        ];

        StructureValue Joback(string name, double? value, string unit, double? error, double? atC = null) =>
            new(name, value, unit, value is null ? null : error, atC, JobackEstimate.Model, [Catalog.Default.Reference(JobackEstimate.Source)],
                value is not null ? null : structure.NoJobackBecause ?? "the groups hold no strain of small rings");
    }

    /// <summary>UNIFAC subgroups as "2 CH2, 1 OH", or why there are none.</summary>
    public static string Unifac(TypedStructure structure)
    {
        ArgumentNullException.ThrowIfNull(structure);
        return structure.Unifac is { } groups
            ? string.Join(", ", groups.OrderBy(g => g.Key).Select(g => $"{g.Value} {Hazards.Mixtures.UnifacTable.Default.Subgroups[g.Key].Label}"))
            : $"none: {structure.NoUnifacBecause}";
    }
}
