using System.Runtime.InteropServices;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Plans;

/// <summary>A vessel while the plan is followed.</summary>
/// <param name="vessel">Which.</param>
/// <param name="vesselIndex">Its place in the plan.</param>
/// <param name="plan">The plan.</param>
/// <param name="ledger">Where the mol of every substance go.</param>
internal sealed partial class RunningVessel(Vessel vessel, int vesselIndex, Plan plan, BalanceLedger ledger)
{
    /// <summary>Boiling point up to which a rotary evaporator removes a liquid, in K (180 °C). Common practice, no source.</summary>
    private const double EvaporatedBelowK = 453.15;

    /// <summary>1 bar in a vessel at the atmosphere, or a gauge read a little lower than before, is no mistake. Common practice, no source.</summary>
    private const double NotRaisedBelow = 0.95;

    private const string Water = "7732-18-5";

    private readonly List<Content> contents = [];
    private readonly HashSet<string> frozenQuench = new(StringComparer.Ordinal);
    private Content[] snapshot = [];
    private HeatSource? heatSource;
    private bool cutOut;
    private double? surfaceK;
    private bool heats;
    private Headspace headspace = new Headspace.Air();
    private double headspacePa = AtmospherePa;
    private double? gasEvolvedMol = 0;
    private bool broughtInWarm;
    private bool heatedOrGassing;
    private double openTogetherS;
    private double? ownHeaterK;

    public Vessel Vessel { get; } = vessel;

    public IReadOnlyList<Content> Contents => contents;

    /// <summary>What is in the vessel now: the same list again for as long as nothing has changed.</summary>
    public IReadOnlyList<Content> Snapshot => CollectionsMarshal.AsSpan(contents).SequenceEqual(snapshot) ? snapshot : snapshot = [.. contents];

    private IReadOnlyList<Content> Present => contents.TrueForAll(static content => content.Mol is null or > 0) ? Snapshot : contents.FindAll(static content => content.Mol is null or > 0);

    public double TemperatureK { get; private set; } = Walk.RoomTemperatureK;

    public int? TemperatureStep { get; private set; }

    public Closing? Closing { get; private set; }

    public Closure? Vent { get; private set; }

    public StepState? Last { get; set; }

    public bool Evacuated => headspace is Headspace.Vacuum && Closing is not null;

    /// <summary>True while a pump has taken the air out, closed or not: opening lets it in.</summary>
    public bool UnderVacuum => headspace is Headspace.Vacuum;

    /// <summary>True after a venting: nothing is shut in any more, but the lid or plug is still to be opened.</summary>
    public bool LidOn { get; private set; }

    /// <summary>True once a filtration without a target has left solid and filtrate side by side; until a liquid comes in that may dissolve the solid again.</summary>
    public bool FilteredOff { get; private set; }

    // hot contents that nothing keeps hot: the vessel only cools from here
    private bool IsHeating => Heated && !broughtInWarm;

    private bool Heated => heats || TemperatureK > Walk.WarmK || surfaceK > Walk.WarmK;

    public void BeginStep() => contents.RemoveAll(static content => content.Mol is <= 0);

    public void Add(IReadOnlyList<Content> added)
    {
        for (var place = 0; place < added.Count; place++)
        {
            var content = added[place];
            var index = contents.Count - 1;
            while (index >= 0 && !SameKind(contents[index], content))
            {
                index--;
            }

            if (index < 0)
            {
                contents.Add(content);
            }
            else
            {
                contents[index] = contents[index] with { Mol = contents[index].Mol + content.Mol };
            }
        }

        Sort();
    }

    public void SetTemperature(int stepIndex, double temperatureK, Step step)
    {
        broughtInWarm = !IsHeating && step is { Action: StepAction.Charge or StepAction.Transfer, HeatSource: null, SurfaceTemperatureK: null };
        TemperatureK = temperatureK;
        TemperatureStep = stepIndex;
        ownHeaterK = null;
        heatSource = step.HeatSource;
        cutOut = step.IndependentCutOut;
        surfaceK = step.SurfaceTemperatureK;
        heats = step.Action is StepAction.Heat or StepAction.Reflux or StepAction.Distil
            || (step.HeatSource is not (null or HeatSource.IceBath or HeatSource.CryogenicBath) && temperatureK > Walk.WarmK);
    }

    /// <summary>Takes the temperature of warmer contents. They have no heater that could overshoot; one of the vessel's own goes no higher than before.</summary>
    public void ReceiveHot(RunningVessel from, Policy policy)
    {
        ownHeaterK ??= TemperatureK + OvershootK(policy);
        TemperatureK = from.TemperatureK;
        TemperatureStep = from.TemperatureStep;
    }

    public void ChangeHeadspace(Headspace gas)
    {
        headspace = gas;
        headspacePa = gas is Headspace.Vacuum ? 0 : AtmospherePa;
        if (Closing is not null)
        {
            Closing = Closing with { Gases = Gases(gas), PressurePaAbs = headspacePa, AtAtmosphere = gas is not Headspace.Vacuum, TemperatureK = TemperatureK };
        }
    }

    public void Seal(int stepIndex) => Shut(stepIndex, Gases(headspace), headspacePa, headspace is not Headspace.Vacuum);

    public void VentThrough(Closure vent) => Vent = vent;

    /// <summary>Charges a gas. A pressure that is clearly below what is there cannot be absolute: it counts as above the atmosphere, and what it then is, in Pa absolute, is returned.</summary>
    public double? Pressurise(int stepIndex, PlanSubstance? gas, double? pressurePaAbs)
    {
        var before = Closing?.PressurePaAbs ?? headspacePa;
        var trapped = Closing?.Gases ?? Gases(headspace);
        var asGauge = pressurePaAbs < NotRaisedBelow * before ? pressurePaAbs + AtmospherePa : null;
        var total = Math.Max(asGauge ?? pressurePaAbs ?? before, before);
        var share = total <= 0 ? 0 : before / total;
        var gases = trapped.Select(pair => (pair.Gas, Fraction: pair.Fraction * share)).Where(static pair => pair.Fraction > 0).ToList();
        if (gas is not null && share < 1)
        {
            gases.Add((gas, 1 - share));
            headspace = new Headspace.Gas(gas);
        }

        Shut(Closing?.StepIndex ?? stepIndex, gases, total, atAtmosphere: false);
        return asGauge is null ? null : total;
    }

    public void Evacuate(int stepIndex, double? pressurePaAbs)
    {
        _ = stepIndex;
        headspace = new Headspace.Vacuum();
        headspacePa = pressurePaAbs ?? 0;
        gasEvolvedMol = 0;
        if (Closing is not null)
        {
            Closing = Closing with { Gases = headspacePa > 0 ? StandardGases.Air : [], PressurePaAbs = headspacePa, AtAtmosphere = false, TemperatureK = TemperatureK };
        }
    }

    public void Open()
    {
        LidOn = false;
        Closing = null;
        Vent = null;
        gasEvolvedMol = 0;
        heatedOrGassing = false;
        headspace = new Headspace.Air();
        headspacePa = AtmospherePa;
    }

    /// <summary>Lets the pressure go but keeps the gas over the contents.</summary>
    public void Release()
    {
        if (Closing is null)
        {
            return;
        }

        var gas = headspace;
        Open();
        headspace = gas is Headspace.Vacuum ? new Headspace.Air() : gas;
    }

    /// <summary>Lets the pressure go through a valve or needle, the lid still on.</summary>
    public void LetDown()
    {
        var lidOn = LidOn || Closing is not null;
        Release();
        LidOn = lidOn;
    }

    /// <summary>Counts the stated time of a step in the open; what comes in starts it anew.</summary>
    public void PassTime(Step step, bool received)
    {
        // what is held or stirred without another temperature is kept at the one it has
        broughtInWarm &= step.Action is not (StepAction.Hold or StepAction.Stir or StepAction.Irradiate or StepAction.Reflux or StepAction.Heat or StepAction.Distil or StepAction.Concentrate or StepAction.Dry);
        if (Closing is null)
        {
            openTogetherS = (received ? 0 : openTogetherS) + (step.OverS ?? 0) + (step.DurationS ?? 0);
        }
    }

    /// <summary>Gas that formed in the closed vessel and stays there although a quench has since destroyed its source.</summary>
    public void KeepGas(double? mol) => gasEvolvedMol += mol;

    public void MakeGas(IReadOnlyList<GasMade> gases)
    {
        if (Closing is not null)
        {
            foreach (var gas in gases)
            {
                gasEvolvedMol += gas.Mol;
            }

            heatedOrGassing |= gases.Count > 0 || IsHeating;
        }
    }

    public void RefreshLast() => Last = Last! with { ContentsAfter = Present };

    private static IReadOnlyList<(PlanSubstance Gas, double Fraction)> Gases(Headspace gas) => gas switch
    {
        Headspace.Air => StandardGases.Air,
        Headspace.Vacuum => [],
        Headspace.Gas one => [(one.Substance, 1)],
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private void Shut(int stepIndex, IReadOnlyList<(PlanSubstance Gas, double Fraction)> gases, double pressurePa, bool atAtmosphere)
    {
        Vent = null;
        gasEvolvedMol = Closing is null ? 0 : gasEvolvedMol;
        heatedOrGassing = Closing is not null && heatedOrGassing;
        Closing = new Closing(stepIndex, TemperatureK, gases, pressurePa, atAtmosphere, Snapshot)
        {
            MetOpen = Closing?.MetOpen ?? Last?.ContentsAfter ?? [],
            OpenTogetherS = Closing?.OpenTogetherS ?? openTogetherS,
        };
    }
}
