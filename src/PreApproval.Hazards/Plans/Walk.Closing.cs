using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Plans;

/// <content>Sealing, pressurising, evacuating, venting and opening.</content>
public static partial class Walk
{
    private sealed partial class Walker
    {
        /// <summary>Overpressure in Pa up to which a balloon stays on. Common practice, no source.</summary>
        private const double BalloonPa = 1e4;

        /// <summary>Closes or opens; true when this step lets a closed vessel open.</summary>
        private bool Close(int index, Step step, RunningVessel vessel)
        {
            var wasClosed = vessel.Closing is not null;
            switch (step.Action)
            {
                case StepAction.Seal:
                    var closure = step.Closure ?? ClosureWords.Vent(vessel.Vessel.Closure);
                    if (wasClosed)
                    {
                        issues.Add(new WalkIssue(WalkIssueKind.AlreadySealed, index, null, $"“{vessel.Vessel.Id}” is sealed although it is already closed"));
                    }
                    else if (closure is Closure.Balloon or Closure.Bubbler or Closure.Needle)
                    {
                        if (vessel.Vent is { } already)
                        {
                            Issue(WalkIssueKind.VentedTwice, index, $"“{vessel.Vessel.Id}” gets a {ClosureWords.Name(closure.Value)} although it has a {ClosureWords.Name(already)} already; the last one counts");
                        }

                        vessel.VentThrough(closure.Value);
                    }
                    else
                    {
                        vessel.Seal(index);
                    }

                    return false;
                case StepAction.Pressurise:
                    if (step.PressurePaAbs is null)
                    {
                        issues.Add(new WalkIssue(WalkIssueKind.PressureNotStated, index, null, $"pressurising “{vessel.Vessel.Id}” names no pressure"));
                    }

                    if (step.Gas is null)
                    {
                        issues.Add(new WalkIssue(WalkIssueKind.GasNotStated, index, null, $"pressurising “{vessel.Vessel.Id}” names no gas"));
                    }

                    // a balloon holds no more than this: it is filled, and the vessel stays open to it
                    if (vessel is { Vent: Closure.Balloon, Closing: null } && step is { Gas: { } filled, PressurePaAbs: { } low } && low <= AtmospherePa + BalloonPa)
                    {
                        vessel.ChangeHeadspace(new Headspace.Gas(filled));
                        return false;
                    }

                    if (vessel.Pressurise(index, step.Gas, step.PressurePaAbs) is { } countedPaAbs)
                    {
                        Issue(WalkIssueKind.PressureNotRaised, index, $"{Wording.Figures(step.PressurePaAbs!.Value / 1e5)} bar absolute is less than what is in “{vessel.Vessel.Id}” already; it counts as {Wording.BarGauge(countedPaAbs - AtmospherePa)}, above the atmosphere");
                    }

                    return false;
                case StepAction.Evacuate:
                    if (vessel.Evacuated)
                    {
                        Issue(WalkIssueKind.AlreadyEvacuated, index, $"“{vessel.Vessel.Id}” is evacuated although it is already under vacuum");
                    }

                    vessel.Evacuate(index, step.PressurePaAbs);
                    return false;
                case StepAction.Open:
                case StepAction.Vent:
                    if (!wasClosed && vessel.Vent is null && !vessel.LidOn && !vessel.UnderVacuum)
                    {
                        issues.Add(new WalkIssue(WalkIssueKind.AlreadyOpen, index, null, $"“{vessel.Vessel.Id}” is opened although it is already open"));
                    }

                    if (step.Action == StepAction.Vent)
                    {
                        vessel.LetDown();
                    }
                    else
                    {
                        vessel.Open();
                    }

                    if (step.Headspace is { } gasAfterOpening)
                    {
                        vessel.ChangeHeadspace(gasAfterOpening);
                    }

                    return wasClosed;
                case StepAction.Transfer or StepAction.Filter or StepAction.Concentrate or StepAction.Chromatograph or StepAction.Discard:
                    // none of these can be done through a closed vessel: it is opened on the way
                    vessel.Release();
                    return wasClosed;
                default:
                    return false;
            }
        }
    }
}
