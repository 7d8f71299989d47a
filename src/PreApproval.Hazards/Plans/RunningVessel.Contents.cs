using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;
namespace PreApproval.Hazards.Plans;

/// <content>What reacts, is quenched, evaporates, is filtered or poured off.</content>
internal sealed partial class RunningVessel
{
    /// <summary>
    /// Share of the stated pressure from which a liquid counts as gone: a pump takes it away below its boiling point too, and a gauge is read to no better. Dry is the cautious reading. Common practice, no source.
    /// </summary>
    private const double LeavesFrom = 0.5;

    private const string Ozone = "10028-15-6";

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
    public void Quench(IReadOnlySet<string> quenchMaterials) =>
        Destroy([.. contents.Where(content => !IsOf(content, quenchMaterials) && !content.Spent)], new QuenchPower(contents.Where(content => IsOf(content, quenchMaterials))));

    /// <summary>The same for water and acids that a step adds without calling it a quench, on what they destroy as fast as they come in; true where they did.</summary>
    public bool QuenchByAdding(Step step)
    {
        var hit = contents.FindAll(content => !content.Spent && !Brings(step, content) && QuenchPower.IsGoneAtOnce(content));
        if (hit.Count == 0)
        {
            return false;
        }

        var by = contents.FindAll(content => Brings(step, content) && QuenchPower.QuenchesWhenAdded(content));
        if (by.Exists(IsFrozen))
        {
            frozenQuench.UnionWith(by.Select(static content => content.MaterialId).OfType<string>());
            return false;
        }

        return by.Count > 0 && Destroy(hit, new QuenchPower(by));
    }

    /// <summary>What came in frozen reacts in the step that thaws it; true where it does.</summary>
    public bool QuenchByThawing()
    {
        if (frozenQuench.Count == 0)
        {
            return false;
        }

        var by = contents.FindAll(content => IsOf(content, frozenQuench));
        if (by.Count == 0 || by.Exists(IsFrozen))
        {
            return false;
        }

        frozenQuench.Clear();
        return Destroy(contents.FindAll(static content => !content.Spent && QuenchPower.IsGoneAtOnce(content)), new QuenchPower(by));
    }

    // acids dissolve in what is there, water freezes out
    private bool IsFrozen(Content content) => content.Substance.Known is { Identity.Cas: Water, MeltingPointK.Value: var melts } && melts > TemperatureK;

    private static bool Brings(Step step, Content content)
    {
        for (var use = 0; use < step.Materials.Count; use++)
        {
            if (string.Equals(step.Materials[use].MaterialId, content.MaterialId, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private bool Destroy(List<Content> present, QuenchPower power)
    {
        var any = false;
        foreach (var content in present)
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
            any = true;
        }

        return any;
    }

    /// <summary>Of the liquids, at the atmosphere or at a lower stated pressure; null: none has a boiling point on file.</summary>
    public double? LowestBoilingPointK(double? pressurePaAbs) =>
        contents.Where(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid, Involatile: false })
            .Min(content => pressurePaAbs is { } pressure and < AtmospherePa ? BoilsAtK(content.Substance, pressure) : content.Substance.Known!.BoilingPointK?.Value);

    /// <summary>Where the vapour pressure reaches a pressure below the atmosphere, in K; the normal boiling point where no vapour pressure is on file.</summary>
    private static double? BoilsAtK(PlanSubstance substance, double pressurePa)
    {
        if (substance.Known!.BoilingPointK?.Value is not { } high || !(Volatility(substance, high) > pressurePa))
        {
            return substance.Known!.BoilingPointK?.Value;
        }

        var low = 0.4 * high;
        while (high - low > 0.01)
        {
            var middle = 0.5 * (low + high);
            (low, high) = Volatility(substance, middle) > pressurePa ? (low, middle) : (middle, high);
        }

        return high;
    }

    /// <summary>Evaporates what goes, most volatile first; empty when nothing goes.</summary>
    public IReadOnlyList<Content> RemoveVolatiles(double? pressurePaAbs)
    {
        var gone = Take(content => IsEvaporated(content, pressurePaAbs));
        ledger.Remove(gone);
        return [.. gone.OrderByDescending(content => Volatility(content.Substance, TemperatureK))];
    }

    /// <summary>A purge or a pump takes the gas out, save what it purges with, ozone, which stands for the ozonide it has made, and what can condense at the temperature of the contents, which liquids hold on to.</summary>
    public void SweepGas(PlanSubstance? with) => ledger.Remove(Take(content =>
        content is { Substance.Known: { PhaseAt298K: Phase.Gas } known } && content.MassFraction is not < 1
        && !string.Equals(content.Substance.Key, with?.Key, StringComparison.Ordinal)
        && known.Identity.Cas is not Ozone
        && known.CriticalTemperatureK?.Value < TemperatureK));

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

    /// <summary>Filtered, with no word of where the filtrate goes. The step itself is told as the filtration, so this counts from the next one on.</summary>
    public void FilterOff() => FilteredOff = true;

    /// <summary>What comes in may take up a solid that was filtered off before. A wash runs through the cake.</summary>
    public void Wet(StepAction action, IReadOnlyList<Content> added)
    {
        for (var index = 0; FilteredOff && action != StepAction.Wash && index < added.Count; index++)
        {
            FilteredOff = added[index].Substance.Known is not { PhaseAt298K: Phase.Liquid };
        }
    }

    /// <summary>A cake that is tipped into a vessel without liquid stays the cake.</summary>
    public void ReceiveCake(RunningVessel from, IReadOnlyList<Content> moved)
    {
        if (from.FilteredOff && !contents.Exists(static content => content is { Mol: null or > 0, Substance.Known.PhaseAt298K: Phase.Liquid }))
        {
            FilteredOff = true;
        }
        else if (!from.FilteredOff)
        {
            Wet(StepAction.Transfer, moved);
        }
    }

    public void Empty()
    {
        FilteredOff = false;
        ledger.Remove(contents);
        contents.Clear();
    }

    private static bool SameKind(Content one, Content other) =>
        string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal)
        && string.Equals(one.MaterialId, other.MaterialId, StringComparison.Ordinal)
        && one.Spent == other.Spent;

    private static bool IsOf(Content content, IReadOnlySet<string> materials) => content.MaterialId is { } id && materials.Contains(id);

    /// <summary>With a stated pressure, what comes near boiling at the set temperature goes; without one, what boils below 180 °C.</summary>
    private bool IsEvaporated(Content content, double? pressurePaAbs) =>
        content.Substance.Known is { Involatile: false, PhaseAt298K: not Phase.Solid } known
        && (known.PhaseAt298K == Phase.Gas
            || (known.BoilingPointK is { Value: < EvaporatedBelowK }
                && (pressurePaAbs is not { } pressure || TemperatureStep is null || !(Volatility(content.Substance, TemperatureK) < LeavesFrom * pressure))));

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
        var counted = plan.MaterialOf(materialId)?.Composition switch
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

    private List<Content> Take(Predicate<Content> which)
    {
        var moved = contents.FindAll(which);
        contents.RemoveAll(which);
        return moved;
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

    private int Place(Content content) => content.MaterialId is { } id ? plan.PlaceOf(id) ?? int.MaxValue : int.MaxValue;
}
