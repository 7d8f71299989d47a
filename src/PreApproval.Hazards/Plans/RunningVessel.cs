using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>A vessel while the plan is followed.</summary>
/// <param name="vessel">Which.</param>
/// <param name="vesselIndex">Its place in the plan.</param>
/// <param name="plan">The plan.</param>
/// <param name="places">Place of each material in the plan's list.</param>
/// <param name="ledger">Where the mol of every substance go.</param>
internal sealed class RunningVessel(Vessel vessel, int vesselIndex, Plan plan, IReadOnlyDictionary<string, int> places, BalanceLedger ledger)
{
    private const double AtmospherePa = 101_325;

    /// <summary>Boiling point up to which a rotary evaporator removes a liquid, in K (180 °C). Common practice, no source.</summary>
    private const double EvaporatedBelowK = 453.15;

    private const string Water = "7732-18-5";

    private readonly List<Content> contents = [];
    private HeatSource? heatSource;
    private bool cutOut;
    private double? surfaceK;
    private bool heats;
    private Headspace headspace = new Headspace.Air();
    private double headspacePa = AtmospherePa;
    private double? gasEvolvedMol = 0;
    private bool heatedOrGassing;
    private double openTogetherS;

    public Vessel Vessel { get; } = vessel;

    public IReadOnlyList<Content> Contents => contents;

    public double TemperatureK { get; private set; } = Walk.RoomTemperatureK;

    public int? TemperatureStep { get; private set; }

    public Closing? Closing { get; private set; }

    public Closure? Vent { get; private set; }

    public StepState? Last { get; set; }

    public bool Evacuated => headspace is Headspace.Vacuum && Closing is not null;

    private bool Heated => heats || TemperatureK > Walk.WarmK || surfaceK > Walk.WarmK;

    public void BeginStep() => contents.RemoveAll(static content => content.Mol is <= 0);

    public void Add(IReadOnlyList<Content> added)
    {
        foreach (var content in added)
        {
            var index = contents.FindIndex(present => SameKind(present, content));
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
        TemperatureK = temperatureK;
        TemperatureStep = stepIndex;
        heatSource = step.HeatSource;
        cutOut = step.IndependentCutOut;
        surfaceK = step.SurfaceTemperatureK;
        heats = step.Action is StepAction.Heat or StepAction.Reflux or StepAction.Distil
            || (step.HeatSource is not (null or HeatSource.IceBath or HeatSource.CryogenicBath) && temperatureK > Walk.WarmK);
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

    public void Pressurise(int stepIndex, PlanSubstance? gas, double? pressurePaAbs)
    {
        var before = Closing?.PressurePaAbs ?? headspacePa;
        var trapped = Closing?.Gases ?? Gases(headspace);
        var total = Math.Max(pressurePaAbs ?? before, before);
        var share = total <= 0 ? 0 : before / total;
        var gases = trapped.Select(pair => (pair.Gas, Fraction: pair.Fraction * share)).Where(static pair => pair.Fraction > 0).ToList();
        if (gas is not null && share < 1)
        {
            gases.Add((gas, 1 - share));
            headspace = new Headspace.Gas(gas);
        }

        Shut(Closing?.StepIndex ?? stepIndex, gases, total, atAtmosphere: false);
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

    /// <summary>Counts the stated time of a step in the open; what comes in starts it anew.</summary>
    public void PassTime(Step step, bool received)
    {
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

            heatedOrGassing |= gases.Count > 0 || Heated;
        }
    }

    /// <summary>Mol of what a material brought that can still react; null when unknown or absent.</summary>
    public double? Available(string materialId) => Reactive(materialId) is var index && index >= 0 ? contents[index].Mol : null;

    /// <summary>True when something of the material is left to react, of known or unknown amount.</summary>
    public bool Holds(string materialId) => Reactive(materialId) is var index && index >= 0 && contents[index].Mol is null or > 0;

    public void Consume(string materialId, double? mol)
    {
        var index = Reactive(materialId);
        if (index >= 0 && contents[index].Mol is { } present && mol is { } asked)
        {
            // the remainder of a division must not stay behind as a partner in encounters
            var left = present - asked;
            left = left <= present * 1e-9 ? 0 : left;
            ledger.Consume(contents[index].Substance, present - left);
            contents[index] = contents[index] with { Mol = left };
        }
    }

    public void Produce(PlanSubstance substance, double? mol)
    {
        var listed = plan.Materials.FirstOrDefault(material => material.Role == Role.Product
            && material.Composition is Composition.Pure pure && string.Equals(pure.Substance.Key, substance.Key, StringComparison.Ordinal));
        ledger.Produce(substance, mol);
        Add([new Content(substance, listed?.Id, mol, 1)]);
    }

    /// <summary>After a quench, what its equivalents turn over at once is spent; the rest stays, and so does the quench itself.</summary>
    /// <remarks>Where the plan's amounts are missing nothing counts as destroyed.</remarks>
    public void Quench(IReadOnlySet<string> quenchMaterials)
    {
        var power = new QuenchPower(contents.Where(content => IsOf(content, quenchMaterials)));
        foreach (var content in contents.Where(content => !IsOf(content, quenchMaterials) && !content.Spent).ToArray())
        {
            var destroyed = power.Destroy(content);
            if (destroyed <= 0)
            {
                continue;
            }

            // the remainder of a division must not stay behind as a partner in encounters
            var left = content.Mol!.Value - destroyed;
            contents.Remove(content);
            if (left > content.Mol.Value * 1e-9)
            {
                contents.Add(content with { Mol = left });
            }

            Add([content with { Mol = destroyed, Spent = true }]);
        }
    }

    public double? LowestBoilingPointK() =>
        contents.Where(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid, Involatile: false })
            .Min(static content => content.Substance.Known!.BoilingPointK?.Value);

    /// <summary>Evaporates what goes, most volatile first; empty when nothing goes.</summary>
    public IReadOnlyList<Content> RemoveVolatiles(double? pressurePaAbs)
    {
        var gone = Take(content => IsEvaporated(content, pressurePaAbs));
        ledger.Remove(gone);
        return [.. gone.OrderByDescending(content => Volatility(content.Substance, TemperatureK))];
    }

    public IReadOnlyList<Content> TakeVolatiles() => Take(content => IsEvaporated(content, null));

    public IReadOnlyList<Content> TakeAll() => Take(static _ => true);

    /// <summary>
    /// Liquids go through. Catalysts on a support, and neutral salts and drying agents where there is no water, stay on the filter; any
    /// other solid may stay or go through dissolved: it counts in both places.
    /// </summary>
    public IReadOnlyList<Content> TakeFiltrate()
    {
        var wet = contents.Exists(static content => content.Substance.Known?.Identity.Cas is Water);
        var moved = contents.FindAll(content => !StaysOnFilter(content, wet));
        contents.RemoveAll(content => content.Substance.Known is { PhaseAt298K: not Phase.Solid } && moved.Contains(content));
        ledger.CountTwice(moved.FindAll(contents.Contains));
        return moved;
    }

    public void Empty()
    {
        ledger.Remove(contents);
        contents.Clear();
    }

    public void RefreshLast() => Last = Last! with { ContentsAfter = [.. contents.Where(static content => content.Mol is null or > 0)] };

    public StepState State(int index, Step step, Policy policy, IReadOnlyList<Content> before, IReadOnlyList<Content> remaining, IReadOnlyList<GasMade> gases, IReadOnlyList<Reaction> reactions, ReactionHeat? heat = null)
    {
        var overshoot = !Heated ? 0 : HeaterOvershoot.K(heatSource, TemperatureK, cutOut, policy);
        // a cooled, closed vessel warms to the room when its cooling is lost
        var floor = Closing is null ? TemperatureK : Math.Max(TemperatureK, Walk.RoomTemperatureK);
        var heater = Math.Max(Math.Max(TemperatureK + overshoot, floor), surfaceK ?? 0);
        // without a declared accumulation the temperature of the reaction is an upper bound, reported on its own
        var worst = heat is { AccumulationDeclared: true, MtsrK: { } mtsr } && Closing is not null ? Math.Max(heater, mtsr) : heater;
        return new StepState
        {
            Index = index,
            Step = step,
            Vessel = Vessel,
            VesselIndex = vesselIndex,
            Contents = before,
            Remaining = remaining,
            ContentsAfter = [.. contents.Where(static content => content.Mol is null or > 0)],
            TemperatureK = TemperatureK,
            WorstTemperatureK = worst,
            SurfaceTemperatureK = surfaceK ?? heater,
            SurfaceStated = surfaceK is not null,
            Heated = Heated,
            HeatSource = heatSource,
            IndependentCutOut = cutOut,
            TemperatureStep = TemperatureStep,
            Closing = Closing,
            Vent = Vent,
            Headspace = headspace,
            GasEvolvedMol = gasEvolvedMol,
            GasMade = gases,
            HeatedOrGassingSinceClosing = heatedOrGassing,
            Reactions = reactions,
            ReactionHeat = heat,
            HeadspacePaAbs = Closing?.PressurePaAbs ?? headspacePa,
        };
    }

    private static bool SameKind(Content one, Content other) =>
        string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal)
        && string.Equals(one.MaterialId, other.MaterialId, StringComparison.Ordinal)
        && one.Spent == other.Spent;

    private static bool IsOf(Content content, IReadOnlySet<string> materials) => content.MaterialId is { } id && materials.Contains(id);

    /// <summary>With a stated pressure, what boils at it at the set temperature goes; without one, what boils below 180 °C.</summary>
    private bool IsEvaporated(Content content, double? pressurePaAbs) =>
        content.Substance.Known is { Involatile: false, PhaseAt298K: not Phase.Solid } known
        && (known.PhaseAt298K == Phase.Gas
            || (known.BoilingPointK is { Value: < EvaporatedBelowK }
                && (pressurePaAbs is not { } pressure || TemperatureStep is null || !(Volatility(content.Substance, TemperatureK) < pressure))));

    /// <summary>Vapour pressure in Pa; infinite for a gas, not a number where nothing is on file.</summary>
    private static double Volatility(PlanSubstance substance, double temperatureK)
    {
        if (substance.Known is not { } known)
        {
            return double.NaN;
        }

        var saturation = VapourPressure.At(known, temperatureK);
        return saturation.Volatility switch
        {
            Mixtures.Volatility.Condensable or Mixtures.Volatility.None => saturation.Pascal,
            Mixtures.Volatility.Gas => double.PositiveInfinity,
            Mixtures.Volatility.Unknown => double.NaN,
        };
    }

    private static bool StaysOnFilter(Content content, bool wet)
    {
        if (content.Substance.Known is not { PhaseAt298K: Phase.Solid })
        {
            return false;
        }

        var families = Reactivity.FamilyTable.Default.Of(content.Substance, content.MassFraction);
        return families.Contains("hydrogenation catalysts", StringComparer.Ordinal) || (!wet && families.Contains("neutral salts and drying agents", StringComparer.Ordinal));
    }

    /// <summary>What the material counts by (the solute of a solution), else the first of what it brought; spent only when nothing else is left.</summary>
    private int Reactive(string materialId)
    {
        var counted = plan.Materials.FirstOrDefault(material => string.Equals(material.Id, materialId, StringComparison.Ordinal))?.Composition switch
        {
            Composition.Pure pure => pure.Substance.Key,
            Composition.Solution solution => solution.Solute.Key,
            Composition.Mixture { CountedPart: { } part } mixture => mixture.Parts[part].Substance.Key,
            Composition.Mixture { Parts.Count: 2 } mixture => mixture.Parts[0].Substance.Key,
            Composition.Mixture or null => null,
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        return contents.FindIndex(content => !content.Spent && string.Equals(content.MaterialId, materialId, StringComparison.Ordinal)
            && (counted is null || string.Equals(content.Substance.Key, counted, StringComparison.Ordinal)));
    }

    private static IReadOnlyList<(PlanSubstance Gas, double Fraction)> Gases(Headspace gas) => gas switch
    {
        Headspace.Air => StandardGases.Air,
        Headspace.Vacuum => [],
        Headspace.Gas one => [(one.Substance, 1)],
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private List<Content> Take(Predicate<Content> which)
    {
        var moved = contents.FindAll(which);
        contents.RemoveAll(which);
        return moved;
    }

    private void Shut(int stepIndex, IReadOnlyList<(PlanSubstance Gas, double Fraction)> gases, double pressurePa, bool atAtmosphere)
    {
        Vent = null;
        gasEvolvedMol = Closing is null ? 0 : gasEvolvedMol;
        heatedOrGassing = Closing is not null && heatedOrGassing;
        Closing = new Closing(stepIndex, TemperatureK, gases, pressurePa, atAtmosphere, [.. contents])
        {
            MetOpen = Closing?.MetOpen ?? Last?.ContentsAfter ?? [],
            OpenTogetherS = Closing?.OpenTogetherS ?? openTogetherS,
        };
    }

    // by the plan's list of materials, products last; few contents, and those of one material keep their order
    private void Sort()
    {
        for (var i = 1; i < contents.Count; i++)
        {
            for (var j = i; j > 0 && Place(contents[j]) < Place(contents[j - 1]); j--)
            {
                (contents[j], contents[j - 1]) = (contents[j - 1], contents[j]);
            }
        }
    }

    private int Place(Content content) => content.MaterialId is { } id && places.TryGetValue(id, out var place) ? place : int.MaxValue;
}
