using PreApproval.Hazards.Reactivity;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Plans;

/// <summary>One substance in a vessel, by the material that brought it.</summary>
/// <param name="Substance">What.</param>
/// <param name="MaterialId">Material that brought it, or null for a product nobody listed.</param>
/// <param name="Mol">Amount in mol; null: present, amount unknown.</param>
/// <param name="MassFraction">Mass fraction in the material as delivered; null when unknown.</param>
/// <param name="Spent">True once a quench has met it: kept in the list, no longer a partner in later encounters.</param>
public sealed record Content(PlanSubstance Substance, string? MaterialId, double? Mol, double? MassFraction, bool Spent = false);

/// <summary>How a vessel was closed.</summary>
/// <param name="StepIndex">Index of the closing step.</param>
/// <param name="TemperatureK">Temperature of the contents at closing in K.</param>
/// <param name="Gases">Gas shut in, by mole fraction; empty: vacuum.</param>
/// <param name="PressurePaAbs">Pressure of the gas alone at closing, in Pa absolute.</param>
/// <param name="AtAtmosphere">True when it was closed at atmospheric pressure, without a charge of gas or a pump.</param>
/// <param name="Contents">What was in the vessel at closing.</param>
public sealed record Closing(
    int StepIndex,
    double TemperatureK,
    IReadOnlyList<(PlanSubstance Gas, double Fraction)> Gases,
    double PressurePaAbs,
    bool AtAtmosphere,
    IReadOnlyList<Content> Contents)
{
    /// <summary>What shared the vessel in the open, in a step before the one that closed it.</summary>
    public IReadOnlyList<Content> MetOpen { get; init; } = [];

    /// <summary>Stated time in s that the contents stood open together since the last of them came in.</summary>
    public double OpenTogetherS { get; init; }
}

/// <summary>Gas that a declared reaction makes in a step.</summary>
public sealed record GasMade(PlanSubstance Gas, double? Mol);

/// <summary>A material that goes into a vessel in one step.</summary>
/// <param name="MaterialId">Which.</param>
/// <param name="Mol">Mol of all its substances; null when an amount is not known.</param>
/// <param name="OverS">Stated time of the addition in s; null: at once.</param>
/// <param name="TemperatureK">Temperature of the contents while it is added, in K.</param>
public sealed record Addition(string MaterialId, double? Mol, double? OverS, double TemperatureK)
{
    /// <summary>Dose rate in mol/s; null when it is added at once or the amount is not known.</summary>
    public double? MolPerS => OverS is > 0 ? Mol / OverS : null;
}

/// <summary>A vessel at one step.</summary>
public sealed record StepState
{
    public required int Index { get; init; }

    public required Step Step { get; init; }

    public required Vessel Vessel { get; init; }

    public required int VesselIndex { get; init; }

    /// <summary>Everything that shares the vessel in this step, before its declared reactions.</summary>
    public required IReadOnlyList<Content> Contents { get; init; }

    /// <summary>What the declared reactions of this step have left, before a quench or a move.</summary>
    public required IReadOnlyList<Content> Remaining { get; init; }

    /// <summary>What is left after the step.</summary>
    public required IReadOnlyList<Content> ContentsAfter { get; init; }

    /// <summary>Set temperature of the contents in K.</summary>
    public required double TemperatureK { get; init; }

    /// <summary>Worst credible temperature in K: max(set + overshoot, hottest surface), and in a closed vessel MTSR unless the reagent is dosed into it cold.</summary>
    public required double WorstTemperatureK { get; init; }

    /// <summary>Hottest surface in K: as stated, else, or where a heated step states one colder than its contents, the worst credible temperature.</summary>
    public required double SurfaceTemperatureK { get; init; }

    /// <summary>True where <see cref="SurfaceTemperatureK"/> is a stated one that can be.</summary>
    public required bool SurfaceStated { get; init; }

    public required bool Heated { get; init; }

    public HeatSource? HeatSource { get; init; }

    public bool IndependentCutOut { get; init; }

    /// <summary>Index of the step that set the temperature; null: room temperature from the start.</summary>
    public int? TemperatureStep { get; init; }

    /// <summary>Null: open or vented.</summary>
    public Closing? Closing { get; init; }

    public bool Sealed => Closing is not null;

    /// <summary>Balloon, bubbler or needle through which the vessel is open; null when it is not vented that way.</summary>
    public Closure? Vent { get; init; }

    /// <summary>Gas over the contents.</summary>
    public required Headspace Headspace { get; init; }

    /// <summary>Gas made since closing, in mol; null when a reaction makes gas and its amount cannot be had.</summary>
    public double? GasEvolvedMol { get; init; } = 0;

    /// <summary>Gas made by declared reactions of this step, whether shut in or not.</summary>
    public IReadOnlyList<GasMade> GasMade { get; init; } = [];

    /// <summary>True from the first heated or gassing step after closing: the trapped gas then counts as dry.</summary>
    public bool HeatedOrGassingSinceClosing { get; init; }

    /// <summary>For an opening or a venting: the vessel as it was before, if it was closed.</summary>
    public StepState? ClosedBefore { get; init; }

    /// <summary>Explosives that encounters can have left in the vessel although no line of the plan names them. Set where a plan is screened.</summary>
    public IReadOnlyList<Energy.PossibleProduct> CanHold { get; init; } = [];

    /// <summary>What this step adds, and how fast; empty when it adds nothing.</summary>
    public IReadOnlyList<Addition> Additions { get; init; } = [];

    /// <summary>What a transfer has brought here from another vessel in this step.</summary>
    public IReadOnlyList<Content> MovedIn { get; init; } = [];

    /// <summary>What evaporated in this step, most volatile first.</summary>
    public IReadOnlyList<Content> Evaporated { get; init; } = [];

    /// <summary>True when a concentration has left no liquid: what is left is a dry residue.</summary>
    public bool LeftDry { get; init; }

    /// <summary>True where an earlier step has filtered the solid off and not said where the filtrate went: the solid counts as isolated and the liquid as still there, whichever is worse.</summary>
    public bool FilteredOff { get; init; }

    /// <summary>Pressure of the gas over the contents in Pa absolute, at closing or while pumped; vapour not counted.</summary>
    public double HeadspacePaAbs { get; init; } = AtmospherePa;

    /// <summary>What the declared heat of this step can do; null when nothing declares that it gives heat.</summary>
    public ReactionHeat? ReactionHeat { get; init; }

    /// <summary>True where the worst credible temperature is that of the reaction, MTSR.</summary>
    public bool ReactionGoverns => Closing is not null && ReactionHeat?.MtsrK == WorstTemperatureK && WorstTemperatureK > TemperatureK;

    /// <summary>Declared reactions of this step.</summary>
    public IReadOnlyList<Reaction> Reactions { get; init; } = [];

    /// <summary>Every encounter in the vessel at this step, found once.</summary>
    internal IReadOnlyList<Meeting> Meetings
    {
        get
        {
            // a copy with other contents takes the field along, and asks anew
            if (met is null || !ReferenceEquals(met.Of, this))
            {
                met = new Met(this, Meeting.At(this));
            }

            return met.Meetings;
        }
    }

    private Met? met;

    private sealed class Met(StepState of, IReadOnlyList<Meeting> meetings)
    {
        public StepState Of { get; } = of;

        public IReadOnlyList<Meeting> Meetings { get; } = meetings;
    }
}

/// <summary>What the walk itself found odd or missing.</summary>
public enum WalkIssueKind
{
    AmountUnknown,
    AmountNotStated,
    MoreThanAvailable,
    HeatedEmpty,
    AlreadyOpen,
    AlreadySealed,
    TemperatureNotStated,
    ReactionExtentUnknown,
    NothingToMove,
    PressureNotStated,
    GasNotStated,
    TakenAsGas,
    TakenAsLiquid,
    Frozen,
    NothingToConcentrate,
    ReactionPartnerAbsent,
    TargetNotStated,
    AddedWhileClosed,
    AlreadyEvacuated,
    ArrivesHot,
    DriedEmpty,
    CooledToHotter,
    VentedTwice,
    PressureNotRaised,
}

/// <param name="Kind">What.</param>
/// <param name="StepIndex">Where.</param>
/// <param name="MaterialId">Which material, if one.</param>
/// <param name="Detail">Words for the sentence.</param>
public sealed record WalkIssue(WalkIssueKind Kind, int StepIndex, string? MaterialId, string Detail)
{
    /// <summary>True where it contradicts the plan by more than a rounding, so that the amounts judged may not be those meant.</summary>
    public bool IsFar { get; init; }
}

/// <summary>The plan followed step by step.</summary>
/// <param name="States">In step order; a transfer gives two entries, source first.</param>
/// <param name="Issues">In step order.</param>
/// <param name="UsedMaterials">Materials that some step takes.</param>
public sealed record WalkResult(IReadOnlyList<StepState> States, IReadOnlyList<WalkIssue> Issues, IReadOnlySet<string> UsedMaterials)
{
    /// <summary>Where the mol of every substance came from and went, in the order they first appear.</summary>
    public IReadOnlyList<SubstanceBalance> Balance => field ??= Ledger?.Close(LeftInVessels) ?? [];

    /// <summary>The books behind <see cref="Balance"/>; closed only when somebody asks.</summary>
    internal BalanceLedger? Ledger { get; init; }

    /// <summary>What the vessels hold at the end, vessel by vessel.</summary>
    internal IEnumerable<Content> LeftInVessels { get; init; } = [];

    /// <summary>What burns at every state, in their order; asked for by the screens and again by the actions at the bench.</summary>
    internal IReadOnlyList<Fire.FireScene> Scenes => field ??= Fire.FireScene.All(States);

    /// <summary>The states of each vessel in step order, the vessel that comes first in front.</summary>
    internal IReadOnlyList<StepState[]> ByVessel => field ??=
        Grouping.Of(States, static _ => true, static (one, other) => string.Equals(one.Vessel.Id, other.Vessel.Id, StringComparison.Ordinal));
}
