using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Plans;

/// <content>The vessel as it stands at a step, with its worst credible temperature.</content>
internal sealed partial class RunningVessel
{
    public StepState State(int index, Step step, Policy policy, StepCourse course)
    {
        var overshoot = OvershootK(policy);
        // a cooled, closed vessel warms to the room when its cooling is lost
        var floor = Closing is null ? TemperatureK : Math.Max(TemperatureK, Walk.RoomTemperatureK);
        var heater = Math.Max(Math.Max(TemperatureK + (broughtInWarm ? 0 : overshoot), floor), surfaceK ?? 0);
        // nothing that heats is colder than what it heats: such a statement counts as none
        var stated = surfaceK is { } surface && (!Heated || HeaterOvershoot.CanHeat(surface, TemperatureK));
        // without a declared accumulation all of the reagent counts, unless it is dosed while the vessel is held cold
        var worst = course.Heat is { MtsrK: { } mtsr, AccumulationDeclared: var declared } && Closing is not null && (declared || !IsDosedCold(step)) ? Math.Max(heater, mtsr) : heater;
        return new StepState
        {
            Index = index,
            Step = step,
            Vessel = Vessel,
            VesselIndex = vesselIndex,
            Contents = course.Before,
            Remaining = course.Remaining,
            ContentsAfter = Present,
            TemperatureK = TemperatureK,
            WorstTemperatureK = worst,
            SurfaceTemperatureK = stated ? surfaceK!.Value : heater,
            SurfaceStated = stated,
            Heated = Heated,
            HeatSource = heatSource,
            IndependentCutOut = cutOut,
            TemperatureStep = TemperatureStep,
            Closing = Closing,
            Vent = Vent,
            Headspace = headspace,
            GasEvolvedMol = gasEvolvedMol,
            GasMade = course.Gases,
            HeatedOrGassingSinceClosing = heatedOrGassing,
            Reactions = course.Reactions,
            ReactionHeat = course.Heat,
            ClosedBefore = course.ClosedBefore,
            Additions = course.Additions,
            MovedIn = course.MovedIn,
            Evaporated = course.Evaporated,
            LeftDry = course.LeftDry,
            FilteredOff = FilteredOff,
            HeadspacePaAbs = Closing?.PressurePaAbs ?? headspacePa,
        };
    }

    private double OvershootK(Policy policy) =>
        !Heated ? 0
        : ownHeaterK is { } own ? Math.Max(0, own - TemperatureK)
        : HeaterOvershoot.K(heatSource, TemperatureK, cutOut, policy);

    /// <summary>Dosing proves little accumulation only where what is dosed reacts as it comes and the heat has somewhere to go: over ten minutes, at most at 30 °C or with cooling among the safeguards.</summary>
    private bool IsDosedCold(Step step)
    {
        if (step.Materials.Count == 0 || !(step.OverS >= Safeguards.ControlNeeds.DosedFromS))
        {
            return false;
        }

        var cooled = TemperatureK <= Walk.WarmK;
        foreach (var safeguard in plan.Safeguards)
        {
            cooled |= (safeguard.Steps.Count == 0 || safeguard.Steps.Contains(step.Id, StringComparer.Ordinal)) && Safeguards.ControlList.Find(safeguard.Control) is "cooling";
        }

        return cooled;
    }
}
