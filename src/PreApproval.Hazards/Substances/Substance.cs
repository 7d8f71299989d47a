using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Substances;

/// <summary>What names a substance. Formula in Hill order.</summary>
public sealed record Identity
{
    /// <summary>CAS registry number, or null for a group's own substance that has none.</summary>
    public string? Cas { get; init; }

    public required string Name { get; init; }

    public IReadOnlyList<string> Synonyms { get; init; } = [];

    /// <summary>Molecular formula in Hill order, or null where the substance has none (a natural product, a polymer).</summary>
    public string? Formula { get; init; }

    /// <summary>Molar mass in kg/mol.</summary>
    public double? MolarMassKgPerMol { get; init; }

    public string? Smiles { get; init; }
}

/// <summary>A pure substance and what is known of it, in SI units. A null member is unknown: it becomes a finding, never a default.</summary>
public sealed record Substance
{
    public required Identity Identity { get; init; }

    /// <summary>CAS number, or the name where there is none: the key used in results.</summary>
    public string Key => Identity.Cas ?? Identity.Name;

    public Sourced<double>? MeltingPointK { get; init; }

    /// <summary>Normal boiling point in K.</summary>
    public Sourced<double>? BoilingPointK { get; init; }

    public Sourced<double>? CriticalTemperatureK { get; init; }

    public Sourced<double>? CriticalPressurePa { get; init; }

    /// <summary>Pitzer's acentric factor.</summary>
    public Sourced<double>? AcentricFactor { get; init; }

    /// <summary>Critical molar volume in m³/mol.</summary>
    public Sourced<double>? CriticalVolumeM3PerMol { get; init; }

    /// <summary>Molar heat capacity of the liquid at constant pressure in J/(mol K) at 298.15 K.</summary>
    public Sourced<double>? LiquidHeatCapacityJPerMolK { get; init; }

    /// <summary>Molar enthalpy of vaporisation in J/mol at the normal boiling point.</summary>
    public Sourced<double>? EnthalpyOfVaporisationJPerMol { get; init; }

    /// <summary>Standard molar enthalpy of formation of the ideal gas in J/mol at 298.15 K.</summary>
    public Sourced<double>? GasEnthalpyOfFormationJPerMol { get; init; }

    /// <summary>Standard molar enthalpy of formation of the liquid in J/mol at 298.15 K.</summary>
    public Sourced<double>? LiquidEnthalpyOfFormationJPerMol { get; init; }

    /// <summary>Standard molar enthalpy of formation of the solid in J/mol at 298.15 K.</summary>
    public Sourced<double>? SolidEnthalpyOfFormationJPerMol { get; init; }

    /// <summary>Published correlations, preferred first.</summary>
    public IReadOnlyList<VapourPressureCorrelation> VapourPressure { get; init; } = [];

    /// <summary>Saturated liquid density over temperature, preferred first.</summary>
    public IReadOnlyList<LiquidDensityCorrelation> LiquidDensity { get; init; } = [];

    /// <summary>
    /// Density in kg/m³ (liquid or solid) at <see cref="DensityTemperatureK"/>. For the volume of an amount at a temperature, use
    /// <see cref="LiquidVolume"/>.
    /// </summary>
    public Sourced<double>? DensityKgPerM3 { get; init; }

    /// <summary>Temperature in K that the density holds for.</summary>
    public double DensityTemperatureK { get; init; } = 298.15;

    /// <summary>Closed-cup flash point in K; the lowest published value governs.</summary>
    public Published? FlashPointK { get; init; }

    /// <summary>Autoignition temperature in K; the lowest published value governs.</summary>
    public Published? AutoignitionK { get; init; }

    /// <summary>Lower flammable limit as a volume fraction; the lowest governs.</summary>
    public Published? LowerFlammableLimit { get; init; }

    /// <summary>Upper flammable limit as a volume fraction; the highest governs.</summary>
    public Published? UpperFlammableLimit { get; init; }

    /// <summary>True: does not burn, on a named authority. False: burns. Null: not known.</summary>
    public Sourced<bool>? NonFlammable { get; init; }

    /// <summary>Original UNIFAC subgroups and their counts; null when not assigned.</summary>
    public Sourced<IReadOnlyDictionary<int, int>>? UnifacGroups { get; init; }

    /// <summary>
    /// Hazard statements with class and category. Null: not on file, which says nothing about hazards. Empty: known as not
    /// classified, with the basis in the note.
    /// </summary>
    public Sourced<IReadOnlyList<HazardStatement>>? HazardStatements { get; init; }

    /// <summary>Occupational exposure limits; null when none is on file.</summary>
    public ExposureLimits? ExposureLimits { get; init; }

    /// <summary>Concentration immediately dangerous to life or health; null when none is on file.</summary>
    public ImmediateDanger? Idlh { get; init; }

    /// <summary>Evaluation in the IARC Monographs; null when none is on file.</summary>
    public CarcinogenNote? Carcinogen { get; init; }

    /// <summary>Gas, liquid or solid at 298.15 K and 101 325 Pa.</summary>
    public required Phase PhaseAt298K { get; init; }

    /// <summary>Salt, metal, polymer: leaves no vapour worth counting (vapour pressure below 1 kPa at any temperature here).</summary>
    public bool Involatile { get; init; }
}

/// <summary>State of matter.</summary>
public enum Phase
{
    Gas,
    Liquid,
    Solid,
}
