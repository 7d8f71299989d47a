namespace PreApproval.Hazards.Plans;

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

    /// <summary>Absolute pressure of <see cref="StepAction.Pressurise"/> or <see cref="StepAction.Evacuate"/>, and of the apparatus at <see cref="StepAction.Concentrate"/> or <see cref="StepAction.Distil"/>, in Pa.</summary>
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
