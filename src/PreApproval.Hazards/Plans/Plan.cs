using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>
/// A planned procedure in SI units, as the engine reads it. Lists keep the order of the procedure document, so that the
/// index of an entry is its index there (a finding points back with a JSON Pointer such as <c>/steps/2/temperature</c>).
/// The document layer guarantees: references resolve, numbers are finite and in range, every vessel named exists.
/// </summary>
public sealed record Plan
{
    public required IReadOnlyList<Material> Materials { get; init; }

    public required IReadOnlyList<Vessel> Vessels { get; init; }

    public required IReadOnlyList<Step> Steps { get; init; }

    public IReadOnlyList<Reaction> Reactions { get; init; } = [];

    public IReadOnlyList<Safeguard> Safeguards { get; init; } = [];

    /// <summary>Extinguishing agents at hand and the plan, or null when the procedure does not say.</summary>
    public FireResponse? FireResponse { get; init; }

    public IReadOnlyList<WasteContainer> Waste { get; init; } = [];

    /// <summary>Material identifier of the limiting reagent, and its amount in mol.</summary>
    public string? LimitingMaterial { get; init; }

    public Amount? Scale { get; init; }

    public Attendance Attendance { get; init; } = Attendance.Attended;

    /// <summary>True when nobody else is within call.</summary>
    public bool Lone { get; init; }

    public Experience? Experience { get; init; }

    public Protection? Protection { get; init; }

    public Place? Place { get; init; }

    /// <summary>The engine's only "today".</summary>
    public DateOnly? PlannedOn { get; init; }
}

/// <summary>A substance as named in the plan: known to the catalogue, or only by its name.</summary>
/// <param name="Key">CAS number as given, or the name or SMILES as typed: the key used in results.</param>
/// <param name="Name">For sentences.</param>
/// <param name="Known">The catalogue entry or the group's own; null when nobody knows it, which is a finding.</param>
/// <param name="Smiles">Structure as typed, kept even when unlisted.</param>
public sealed record PlanSubstance(string Key, string Name, Substance? Known, string? Smiles = null);

/// <summary>An amount as given; conversion to mol needs the substance.</summary>
public abstract record Amount
{
    private Amount()
    {
    }

    /// <param name="Kg">Mass in kg.</param>
    public sealed record Mass(double Kg) : Amount;

    /// <param name="Moles">Amount of substance in mol.</param>
    public sealed record Mol(double Moles) : Amount;

    /// <param name="M3">Volume in m³ at room temperature.</param>
    public sealed record Volume(double M3) : Amount;
}

/// <summary>What a material is made of.</summary>
public abstract record Composition
{
    private Composition()
    {
    }

    public sealed record Pure(PlanSubstance Substance) : Composition;

    /// <summary>A solute in a solvent. A <see cref="Amount.Mol"/> of a solution counts the solute.</summary>
    public sealed record Solution(PlanSubstance Solute, PlanSubstance Solvent, Concentration Concentration) : Composition;

    /// <summary>A mixture by fractions that sum to one.</summary>
    public sealed record Mixture(IReadOnlyList<MixturePart> Parts) : Composition;
}

/// <param name="Substance">The component.</param>
/// <param name="Fraction">Fraction between 0 and 1 on <paramref name="Basis"/>.</param>
/// <param name="Basis">What the fraction counts.</param>
public sealed record MixturePart(PlanSubstance Substance, double Fraction, FractionBasis Basis);

public enum FractionBasis
{
    Mass,
    Volume,
    Mole,
}

/// <summary>Strength of a solution.</summary>
public abstract record Concentration
{
    private Concentration()
    {
    }

    /// <param name="Value">mol of solute per m³ of solution.</param>
    public sealed record MolPerM3(double Value) : Concentration;

    /// <param name="Value">Fraction between 0 and 1.</param>
    /// <param name="Basis">What it counts.</param>
    public sealed record Fraction(double Value, FractionBasis Basis) : Concentration;
}

/// <summary>One line of the material list.</summary>
public sealed record Material
{
    public required string Id { get; init; }

    public required Composition Composition { get; init; }

    public required Role Role { get; init; }

    /// <summary>Amount in all; null when only the steps give amounts.</summary>
    public Amount? Amount { get; init; }

    /// <summary>Powder, wire, 60 % in oil, on carbon …, as typed.</summary>
    public string? Form { get; init; }

    public DateOnly? OpenedOn { get; init; }

    /// <summary>Date and result (mass fraction as ppm) of the last peroxide test.</summary>
    public (DateOnly On, double Ppm)? PeroxideTest { get; init; }
}

public enum Role
{
    Reagent,
    Solvent,
    Catalyst,
    Product,
    Quench,
    Gas,
    Other,
}

/// <summary>A vessel and what it is good for.</summary>
public sealed record Vessel
{
    public required string Id { get; init; }

    /// <summary>Kind as typed, for instance <c>thick-walled glass tube</c>.</summary>
    public required string Kind { get; init; }

    /// <summary>Inner volume in m³; null when not given, which forbids closing it without a finding.</summary>
    public double? VolumeM3 { get; init; }

    /// <summary>Rated gauge pressure in Pa; null when unknown, which counts as zero.</summary>
    public double? RatingPaGauge { get; init; }

    public string? RatingEvidence { get; init; }

    public double? MaximumTemperatureK { get; init; }

    public string? Closure { get; init; }

    public DateOnly? InspectedOn { get; init; }

    /// <summary>Closure, seal and fittings with ratings of their own; the weakest governs.</summary>
    public IReadOnlyList<VesselPart> Parts { get; init; } = [];
}

/// <param name="Name">What it is.</param>
/// <param name="RatingPaGauge">Rated gauge pressure in Pa, or null when unknown.</param>
/// <param name="MaximumTemperatureK">Highest temperature in K, or null when unknown.</param>
public sealed record VesselPart(string Name, double? RatingPaGauge, double? MaximumTemperatureK);

/// <summary>One step of the procedure.</summary>
public sealed record Step
{
    public required string Id { get; init; }

    public required StepAction Action { get; init; }

    /// <summary>Identifier of the vessel it happens in.</summary>
    public required string Vessel { get; init; }

    public IReadOnlyList<MaterialUse> Materials { get; init; } = [];

    /// <summary>Set temperature of the contents in K, or null: unchanged.</summary>
    public double? TemperatureK { get; init; }

    /// <summary>Duration in s.</summary>
    public double? DurationS { get; init; }

    /// <summary>Time over which the materials are added, in s.</summary>
    public double? OverS { get; init; }

    public HeatSource? HeatSource { get; init; }

    public bool IndependentCutOut { get; init; }

    /// <summary>Temperature of the hottest surface in K.</summary>
    public double? SurfaceTemperatureK { get; init; }

    /// <summary>Gas over the contents from this step on, or null: unchanged (air at the beginning).</summary>
    public Headspace? Headspace { get; init; }

    /// <summary>How <see cref="StepAction.Seal"/> closes; null: the vessel's own closure.</summary>
    public Closure? Closure { get; init; }

    /// <summary>Target of a transfer or a filtration.</summary>
    public string? ToVessel { get; init; }

    /// <summary>Gas of <see cref="StepAction.Pressurise"/>.</summary>
    public PlanSubstance? Gas { get; init; }

    /// <summary>Absolute pressure of <see cref="StepAction.Pressurise"/> or <see cref="StepAction.Evacuate"/> in Pa.</summary>
    public double? PressurePaAbs { get; init; }
}

/// <param name="MaterialId">Which material.</param>
/// <param name="Amount">How much; null: the whole remainder.</param>
public sealed record MaterialUse(string MaterialId, Amount? Amount);

public enum StepAction
{
    Charge,
    Add,
    Seal,
    Open,
    Vent,
    Purge,
    Evacuate,
    Heat,
    Cool,
    Hold,
    Stir,
    Reflux,
    Distil,
    Filter,
    Transfer,
    Quench,
    Extract,
    Concentrate,
    Store,
    Discard,
    Pressurise,
    Degas,
    Irradiate,
    Grind,
    Dry,
    Wash,
    Chromatograph,
}

public enum HeatSource
{
    MetalBlock,
    OilBath,
    WaterBath,
    SandBath,
    Hotplate,
    Mantle,
    Oven,
    Microwave,
    HeatGun,
    Steam,
    IceBath,
    CryogenicBath,
}

public enum Closure
{
    Stopper,
    Septum,
    Balloon,
    Bubbler,
    Needle,
    Plug,
    Cap,
}

/// <summary>The gas over the contents.</summary>
public abstract record Headspace
{
    private Headspace()
    {
    }

    public sealed record Air : Headspace;

    public sealed record Vacuum : Headspace;

    /// <summary>One gas: nitrogen, argon, hydrogen, carbon dioxide, oxygen or another substance.</summary>
    public sealed record Gas(PlanSubstance Substance) : Headspace;
}

/// <summary>A declared reaction.</summary>
public sealed record Reaction
{
    /// <summary>Identifier of the step it happens in.</summary>
    public required string Step { get; init; }

    public IReadOnlyList<Consumption> Consumes { get; init; } = [];

    public IReadOnlyList<Production> Produces { get; init; } = [];

    /// <summary>Heat in J per mol of the limiting material; exothermic is negative.</summary>
    public double? HeatJPerMol { get; init; }

    /// <summary>Largest share of unreacted reagent, 0 to 1.</summary>
    public double? Accumulation { get; init; }

    public double? DecompositionOnsetK { get; init; }
}

public sealed record Consumption(string MaterialId, double Equivalents);

public sealed record Production(PlanSubstance Substance, double Equivalents, Phase? State);

/// <param name="Control">As typed.</param>
/// <param name="Steps">Steps it covers; empty: all.</param>
/// <param name="Detail">As typed.</param>
public sealed record Safeguard(string Control, IReadOnlyList<string> Steps, string? Detail);

public sealed record FireResponse(IReadOnlyList<Agent> Agents, string? Plan);

/// <summary>Extinguishing agents.</summary>
public enum Agent
{
    Water,
    Foam,
    CarbonDioxide,
    DryPowder,
    ClassDPowder,
    DrySand,
    WetChemical,
    FireBlanket,
}

public sealed record WasteContainer(IReadOnlyList<string> Materials, string Container);

public enum Attendance
{
    Attended,
    Unattended,
    Overnight,
}

public enum Experience
{
    FirstTime,
    UnderSupervision,
    Experienced,
}

public sealed record Protection(string? Gloves, string? Eyes, string? Coat);

public enum PlaceKind
{
    Bench,
    Hood,
    HoodWithScrubber,
}

/// <param name="Name">As typed.</param>
/// <param name="Kind">What it is, or null when not said.</param>
/// <param name="RoomVolumeM3">Room volume in m³.</param>
/// <param name="AirFlowM3PerS">Air flow in m³/s.</param>
public sealed record Place(string? Name, PlaceKind? Kind, double? RoomVolumeM3, double? AirFlowM3PerS);
