using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Plans;

/// <summary>
/// Follows the contents of every vessel through the plan: amounts, temperature, open or closed, gas over the contents,
/// what was shut in. An absurd order of steps is an issue, never an exception. Conventions: docs/methods/walk.md.
/// </summary>
public static partial class Walk
{
    /// <summary>Temperature of everything until a step sets another, in K (20 °C).</summary>
    public const double RoomTemperatureK = 293.15;

    /// <summary>Contents above this count as heated, in K (30 °C, a warm room).</summary>
    public const double WarmK = 303.15;

    /// <summary>Follows the plan.</summary>
    public static WalkResult Follow(Plan plan, Policy policy) => new Walker(plan, policy).Run();

    private sealed partial class Walker
    {
        /// <summary>Mol share from which a liquid freezes about where the pure one does: a tenth of something else brings usual solvents down by 7 to 20 K. Common practice, no source.</summary>
        private const double PureFrom = 0.9;

        /// <summary>A difference of temperature that is meant, in K: readings of room and bath differ by less. Common practice, no source.</summary>
        private const double WarmerK = 5;

        private readonly Plan plan;
        private readonly Policy policy;
        private readonly Dictionary<string, RunningVessel> vessels;
        private readonly MaterialStock stock;
        private readonly List<StepState> states;
        private readonly List<WalkIssue> issues = [];
        private readonly BalanceLedger ledger = new();

        public Walker(Plan plan, Policy policy)
        {
            this.plan = plan;
            this.policy = policy;
            stock = new MaterialStock(plan, issues);
            states = new List<StepState>(plan.Steps.Count);
            vessels = new Dictionary<string, RunningVessel>(plan.Vessels.Count, StringComparer.Ordinal);
            for (var index = 0; index < plan.Vessels.Count; index++)
            {
                vessels[plan.Vessels[index].Id] = new RunningVessel(plan.Vessels[index], index, plan, ledger);
            }
        }

        public WalkResult Run()
        {
            for (var index = 0; index < plan.Steps.Count; index++)
            {
                Take(index, plan.Steps[index]);
            }

            // in the order of the plan, so that sums do not depend on a table's order
            return new WalkResult(states, issues, stock.Used()) { Ledger = ledger, LeftInVessels = plan.Vessels.Select(vessel => vessels[vessel.Id]).Distinct().SelectMany(static vessel => vessel.Contents) };
        }

        private void Take(int index, Step step)
        {
            if (!vessels.TryGetValue(step.Vessel, out var vessel))
            {
                return;
            }

            var closedBefore = vessel.Closing is null ? null : vessel.Last;
            vessel.BeginStep();
            var measuredK = step.TemperatureK ?? (vessel.TemperatureStep is null ? null : vessel.TemperatureK);
            var added = step.Materials.Count == 0 ? [] : new double?[step.Materials.Count];
            for (var use = 0; use < added.Length; use++)
            {
                var taken = stock.Take(step.Materials[use], index, measuredK, vessel.Vessel.VolumeM3);
                ledger.Charge(taken);
                vessel.Wet(step.Action, taken);
                vessel.Add(taken);
                added[use] = Sum(taken);
            }

            if (step.Materials.Count > 0 && vessel.Closing is not null && step.Action != StepAction.Quench)
            {
                Issue(WalkIssueKind.AddedWhileClosed, index, $"“{vessel.Vessel.Id}” is closed when materials are added: its gas is compressed, unless it is opened first");
            }

            SetTemperature(index, step, vessel);
            if (step.Headspace is { } headspace)
            {
                vessel.ChangeHeadspace(headspace);
            }

            var opened = Close(index, step, vessel);
            vessel.PassTime(step, step.Materials.Count > 0);
            // what is declared for a transfer happens where the partners meet, in the vessel that receives
            var declared = Declared(step);
            var reactions = step.Action == StepAction.Transfer && Target(step, vessel) is not null ? [] : declared;
            var before = vessel.Snapshot;
            var (gases, heat) = React(index, reactions, vessel);
            vessel.MakeGas(gases);
            CheckFrozen(index, step, vessel);
            var remaining = vessel.Snapshot;
            var quenched = vessel.QuenchByThawing() || (step.Action is StepAction.Add or StepAction.Wash or StepAction.Extract && vessel.QuenchByAdding(step));
            var evaporated = After(index, step, vessel);
            var state = vessel.State(index, step, policy, new StepCourse
            {
                Before = before,
                Remaining = remaining,
                Gases = gases,
                Reactions = reactions,
                Heat = heat,
                ClosedBefore = opened ? closedBefore : null,
                Additions = Additions(step, added, vessel),
                Evaporated = evaporated,
                LeftDry = evaporated.Count > 0 && vessel.Contents.Any(static content => content.Mol is null or > 0)
                    && !vessel.Contents.Any(static content => content is { Mol: null or > 0, Substance.Known: { PhaseAt298K: not Substances.Phase.Solid, Involatile: false } }),
            });
            vessel.Last = state;
            states.Add(state);
            // what the quench has destroyed has left its gas in a closed vessel
            if ((step.Action == StepAction.Quench || quenched) && Reactivity.GasEvolution.Undeclared(state) is { } gas)
            {
                vessel.KeepGas(gas.Mol);
            }

            if (step.Action == StepAction.Filter && Target(step, vessel) is null)
            {
                vessel.FilterOff();
            }

            Move(index, step, vessel, reactions.Length == 0 ? declared : []);
        }

        private void SetTemperature(int index, Step step, RunningVessel vessel)
        {
            var heats = step.Action is StepAction.Heat or StepAction.Reflux or StepAction.Distil;
            if (vessel.Contents.Count == 0 && (heats || IsHot(step)))
            {
                Issue(DriesGlass(step.Action) ? WalkIssueKind.DriedEmpty : WalkIssueKind.HeatedEmpty, index, $"“{vessel.Vessel.Id}” is empty when it is heated");
            }

            if (step is { Action: StepAction.Cool, TemperatureK: { } to } && to > vessel.TemperatureK + WarmerK && (to > WarmK || vessel.TemperatureK < RoomTemperatureK - WarmerK))
            {
                Issue(WalkIssueKind.CooledToHotter, index, $"“{vessel.Vessel.Id}” is cooled to {Wording.Celsius(to)} although it is at {Wording.Celsius(vessel.TemperatureK)}; is a step missing or a sign wrong?");
            }

            if (step.TemperatureK is { } set)
            {
                vessel.SetTemperature(index, set, step);
            }
            else if (heats || step.HeatSource is not null || step.SurfaceTemperatureK is not null)
            {
                var boils = step.Action is StepAction.Reflux or StepAction.Distil ? vessel.LowestBoilingPointK(step.PressurePaAbs) : null;
                if (heats && boils is null && vessel.TemperatureStep is null)
                {
                    issues.Add(new WalkIssue(WalkIssueKind.TemperatureNotStated, index, null, $"{Verb(step.Action)} “{vessel.Vessel.Id}” names no temperature"));
                }

                vessel.SetTemperature(index, boils ?? vessel.TemperatureK, step);
            }
            else if (step.Action == StepAction.Cool)
            {
                issues.Add(new WalkIssue(WalkIssueKind.TemperatureNotStated, index, null, $"cooling “{vessel.Vessel.Id}” names no temperature, so the last one still counts"));
            }
        }

        /// <summary>Mol share of a liquid among all liquids, gases and solutes of bottled solutions in the vessel; 1 where amounts are missing.</summary>
        private static double ShareOfFluids(Content liquid, RunningVessel vessel) => ShareOfFluids(vessel, content => string.Equals(content.Substance.Key, liquid.Substance.Key, StringComparison.Ordinal));

        /// <summary>The same for all that is liquid at room temperature: dissolved gases and solutes bring a mixture down further than is known here.</summary>
        private static double ShareOfLiquids(RunningVessel vessel) => ShareOfFluids(vessel, static content => content.Substance.Known is { PhaseAt298K: Substances.Phase.Liquid });

        private static double ShareOfFluids(RunningVessel vessel, Predicate<Content> counts)
        {
            double? total = 0;
            double? own = 0;
            foreach (var content in vessel.Contents)
            {
                if (!content.Spent && (content.Substance.Known is { PhaseAt298K: not Substances.Phase.Solid } || content.MassFraction is < 1))
                {
                    total += content.Mol;
                    own += counts(content) ? content.Mol : 0;
                }
            }

            return total is > 0 ? own / total ?? 1 : 1;
        }

        /// <summary>By its temperature, its surface or a source of heat; where the action itself finds the vessel empty, once is enough.</summary>
        private static bool IsHot(Step step) => step.Action is not (StepAction.Concentrate or StepAction.Transfer or StepAction.Filter or StepAction.Discard) && (step.TemperatureK > WarmK || step.SurfaceTemperatureK > WarmK
            || step.HeatSource is not (null or HeatSource.IceBath or HeatSource.CryogenicBath));

        /// <summary>Empty glass is dried hot, under a gas or a pump: usual, but what comes in next meets hot glass.</summary>
        private static bool DriesGlass(StepAction action) => action is StepAction.Dry or StepAction.Evacuate or StepAction.Purge;

        private static string Verb(StepAction action) => action switch
        {
            StepAction.Reflux => "refluxing",
            StepAction.Distil => "distilling",
            _ => "heating",
        };

        private static double? Sum(IReadOnlyList<Content> contents)
        {
            double? sum = 0;
            for (var index = 0; index < contents.Count; index++)
            {
                sum += contents[index].Mol;
            }

            return sum;
        }

        private static Addition[] Additions(Step step, double?[] mol, RunningVessel vessel)
        {
            var additions = mol.Length == 0 ? [] : new Addition[mol.Length];
            for (var use = 0; use < additions.Length; use++)
            {
                additions[use] = new Addition(step.Materials[use].MaterialId, mol[use], step.OverS, vessel.TemperatureK);
            }

            return additions;
        }

        private void Issue(WalkIssueKind kind, int index, string detail) => issues.Add(new WalkIssue(kind, index, null, detail));

        /// <summary>Frozen under vacuum, or pumped next, with nothing added and nothing reacting: degassing by freezing, or freeze-drying, spelt out.</summary>
        private bool IsFrozenToBePumped(int index, Step step, RunningVessel vessel)
        {
            if (step.Materials.Count > 0 || Declared(step).Length > 0)
            {
                return false;
            }

            var next = index + 1;
            while (next < plan.Steps.Count && !string.Equals(plan.Steps[next].Vessel, step.Vessel, StringComparison.Ordinal))
            {
                next++;
            }

            return vessel.Last is { Headspace: Headspace.Vacuum } || (next < plan.Steps.Count && plan.Steps[next] is { Action: StepAction.Evacuate, Materials.Count: 0 });
        }

        /// <summary>Freezing is meant when a solution is degassed or stored; elsewhere it stops the stirrer and keeps reagent for later.</summary>
        private void CheckFrozen(int index, Step step, RunningVessel vessel)
        {
            if (step.TemperatureK is not { } set || step.Action is StepAction.Degas or StepAction.Store or StepAction.Evacuate || IsFrozenToBePumped(index, step, vessel))
            {
                return;
            }

            Content? lowest = null;
            for (var content = 0; content < vessel.Contents.Count; content++)
            {
                if (vessel.Contents[content] is { Mol: null or > 0, Spent: false, Substance.Known: { PhaseAt298K: Substances.Phase.Liquid } known } liquid)
                {
                    if (!(known.MeltingPointK?.Value > set))
                    {
                        return;
                    }

                    lowest = lowest is null || known.MeltingPointK.Value < lowest.Substance.Known!.MeltingPointK!.Value ? liquid : lowest;
                }
            }

            // the melting point is that of the pure liquid; below its eutectic a mixture is solid throughout
            if (lowest is null || Brines.StaysLiquid(vessel.Contents, set))
            {
                return;
            }

            if (ShareOfFluids(lowest, vessel) < PureFrom)
            {
                if (ShareOfLiquids(vessel) >= PureFrom && SolidMixture.BelowK(vessel.Contents) is { } solid && set < solid)
                {
                    Issue(WalkIssueKind.Frozen, index, $"{Wording.Celsius(set)} is below the melting point of every liquid in “{vessel.Vessel.Id}” (the lowest: {lowest.Substance.Name}, {Wording.Celsius(lowest.Substance.Known!.MeltingPointK!.Value)}), and below {Wording.Celsius(solid)}, where their mixture is solid too");
                }
            }
            else
            {
                Issue(WalkIssueKind.Frozen, index, $"{Wording.Celsius(set)} is below the melting point of every liquid in “{vessel.Vessel.Id}” (the lowest: {lowest.Substance.Name}, {Wording.Celsius(lowest.Substance.Known!.MeltingPointK!.Value)})");
            }
        }
    }
}
