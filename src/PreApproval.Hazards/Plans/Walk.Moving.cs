using PreApproval.Hazards.Screening;
namespace PreApproval.Hazards.Plans;

/// <content>What leaves a vessel, and what a step leaves behind.</content>
public static partial class Walk
{
    private sealed partial class Walker
    {
        /// <summary>Time in s from which a purge has taken the gas out of vessel and liquid. Common practice, no source.</summary>
        private const double PurgedAfterS = 300;

        private IReadOnlyList<Content> After(int index, Step step, RunningVessel vessel)
        {
            switch (step.Action)
            {
                case StepAction.Quench:
                    vessel.Quench(step.Materials.Select(static use => use.MaterialId).ToHashSet(StringComparer.Ordinal));
                    break;
                case StepAction.Evacuate:
                    vessel.SweepGas(null);
                    break;
                case StepAction.Purge when step.Headspace is Headspace.Gas over && (step.DurationS ?? step.OverS) >= PurgedAfterS:
                    vessel.SweepGas(over.Substance);
                    break;
                case StepAction.Concentrate:
                    var gone = vessel.RemoveVolatiles(step.PressurePaAbs);
                    if (gone.Count == 0)
                    {
                        Issue(WalkIssueKind.NothingToConcentrate, index, vessel.Contents.Count == 0
                            ? $"“{vessel.Vessel.Id}” is empty when it is concentrated"
                            : $"nothing in “{vessel.Vessel.Id}” evaporates when it is concentrated");
                    }

                    return gone;
                case StepAction.Discard:
                    if (vessel.Contents.Count == 0)
                    {
                        Issue(WalkIssueKind.NothingToMove, index, $"“{vessel.Vessel.Id}” is empty when its contents are discarded");
                    }

                    // into a vessel of the plan they are moved, not lost
                    if (Target(step, vessel) is null)
                    {
                        vessel.Empty();
                    }

                    break;
                case StepAction.Transfer when vessel.Contents.Count > 0 && Target(step, vessel) is null:
                    Issue(WalkIssueKind.TargetNotStated, index, $"the contents of “{vessel.Vessel.Id}” are transferred, but not into another vessel of the plan; they count as left where they are");
                    break;
                case StepAction.Transfer or StepAction.Filter when vessel.Contents.Count == 0:
                    issues.Add(new WalkIssue(WalkIssueKind.NothingToMove, index, null, $"“{vessel.Vessel.Id}” is empty when its contents are moved"));
                    break;
                default:
                    break;
            }

            return [];
        }

        private RunningVessel? Target(Step step, RunningVessel source) =>
            step.ToVessel is { } to && vessels.TryGetValue(to, out var target) && !ReferenceEquals(source, target) ? target : null;

        /// <summary>What arrives hot stays hot, whatever the amounts: the cautious reading. What is colder than the receiver is not taken to cool it.</summary>
        private void Warm(int index, Step step, RunningVessel source, RunningVessel target, IReadOnlyList<Content> moved)
        {
            // a distillate arrives cooled
            if (step.Action == StepAction.Distil || source.TemperatureK <= target.TemperatureK || moved.Count == 0)
            {
                return;
            }

            if (step is { Action: StepAction.Transfer, TemperatureK: { } at })
            {
                target.SetTemperature(index, at, step);
                return;
            }

            // what is not hot is poured into ice or a cold bath to be cold
            if (source.TemperatureK > WarmK)
            {
                target.ReceiveHot(source, policy);
                Issue(WalkIssueKind.ArrivesHot, index, $"the contents of “{source.Vessel.Id}” arrive in “{target.Vessel.Id}” at {Wording.Celsius(target.TemperatureK)}, and count as that hot there until a step states another temperature");
            }
        }

        private void Move(int index, Step step, RunningVessel source, Reaction[] reactions)
        {
            if (step.Action is not (StepAction.Transfer or StepAction.Filter or StepAction.Discard) || Target(step, source) is not { } target)
            {
                return;
            }

            if (target.Closing is not null)
            {
                Issue(WalkIssueKind.AddedWhileClosed, index, $"“{target.Vessel.Id}” is closed when it receives the contents of “{source.Vessel.Id}”: its gas is compressed, unless it is opened first");
            }

            var moved = step.Action == StepAction.Filter ? source.TakeFiltrate() : source.TakeAll();
            var receives = target.Contents.Where(static content => !content.Spent).Select(static content => content.MaterialId).OfType<string>().ToHashSet(StringComparer.Ordinal);
            target.BeginStep();
            target.ReceiveCake(source, moved);
            target.Add(moved);
            target.PassTime(step, received: true);
            Warm(index, step, source, target, moved);
            var contents = target.Snapshot;
            var (gases, heat) = React(index, reactions, target);
            target.MakeGas(gases);
            var remaining = target.Snapshot;

            // what runs into the water, alcohol or acid of the receiver is quenched there
            target.Quench(receives);
            var state = target.State(index, step with { Vessel = target.Vessel.Id, Materials = [] }, policy, new StepCourse { Before = contents, Remaining = remaining, Gases = gases, Reactions = reactions, Heat = heat, MovedIn = step.Action == StepAction.Transfer ? moved : [] });
            target.Last = state;
            states.Add(state);
            source.RefreshLast();
            states[^2] = source.Last!;
        }
    }
}
