using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>The pressure between closed and open: what is still in a vessel that a step opens, and gas that is shut in too early. docs/methods/pressure-screen.md.</summary>
internal static class OpeningPressure
{
    /// <summary>Contents above this scald, in K (60 °C). Common practice, no source.</summary>
    private const double HotK = 333.15;

    /// <summary>Share of a gas made at once that the liquid still holds as it is closed, dissolved and supersaturated. Common practice, no source.</summary>
    private const double KeptBack = 0.1;

    private const string ShareSource = "common-practice";

    /// <summary>What a step opens or vents while it is still under pressure; null where it is not, or nothing was closed.</summary>
    public static Finding? Opened(StepState state, ScreeningContext context)
    {
        if (state.ClosedBefore is not { Closing: { } closing } before)
        {
            return null;
        }

        if (state.Vessel.VolumeM3 is not { } volume)
        {
            return new Finding
            {
                Code = "data.opening-pressure",
                Hazard = Hazard.Data,
                Severity = Severity.Caution,
                Steps = [state.Step.Id],
                Vessel = state.Vessel.Id,
                Statement = $"What pressure “{state.Vessel.Id}” still holds when step {state.Step.Id} opens it cannot be computed without its volume.",
            };
        }

        // what matters on opening is what is in there now: the likely pressure, with the gas saturated when it was shut in
        var atOpening = before with { TemperatureK = state.TemperatureK, Contents = before.ContentsAfter };
        var notCounted = new List<string>();
        var undeclared = GasEvolution.Undeclared(before);
        if (before.GasEvolvedMol is null || undeclared is { Mol: null })
        {
            notCounted.Add(undeclared?.Words ?? "the gas a declared reaction makes");
        }

        var (condensed, _) = undeclared is null ? default : CondensableGas.Condensed(before with { WorstTemperatureK = state.TemperatureK }, Math.Max(0, volume - FillLimits.CondensedM3(before.ContentsAfter).M3));
        var input = ClosedAssessment.InputOf(atOpening, volume, saturated: true, notCounted) with { GasEvolvedMol = Math.Max(0, (before.GasEvolvedMol ?? 0) + (undeclared?.Mol ?? 0) - condensed) };
        var whole = new SealedCharge(input, context.ChargeOf(before));
        var (charge, opened) = HeldGas.At(whole, state.TemperatureK);
        string[] leftOut = [.. notCounted, .. HeldGas.Between(whole, charge)];
        var about = leftOut.Length == 0 ? "about" : "at least";
        var pressure = opened.PressurePaAbs - AtmospherePa;
        if (closing is { AtAtmosphere: false, PressurePaAbs: < AtmospherePa } || pressure is null || pressure <= context.Policy.UnratedNothingPa)
        {
            return null;
        }

        var byValve = state.Step.Action == StepAction.Vent;
        var high = pressure > context.Policy.UnratedCautionPa;
        return new Finding
        {
            Code = "pressure.opened-under-pressure",
            Hazard = Hazard.Pressure,
            Severity = (byValve, high) switch
            {
                (true, true) => Severity.Caution,
                (true, false) => Severity.Notice,
                // what is hot under pressure boils over the hand that opens it, and cold gas throws the lid
                (false, true) => state.TemperatureK > HotK || ThrowsTheLid(pressure.Value, volume - FillLimits.CondensedM3(before.ContentsAfter).M3, context.Policy) ? Severity.Danger : Severity.Warning,
                (false, false) => Severity.Caution,
            },
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = byValve
                ? $"Step {state.Step.Id} vents “{state.Vessel.Id}” at {about} {Wording.BarGauge(pressure.Value)}; let it down slowly into the hood."
                : $"Step {state.Step.Id} opens “{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)} with {about} {Wording.BarGauge(pressure.Value)} still in it; vent or cool it first.",
            Evidence =
            [
                new Evidence
                {
                    Name = "pressure at opening",
                    Value = pressure.Value / 1e5,
                    Unit = "bar(g)",
                    Limit = context.Policy.UnratedNothingPa / 1e5,
                    Model = PressureSentences.ModelWords(opened.Model) + PressureSentences.AtLeast(leftOut),
                    Sources = References.Full([.. opened.Sources, ShareSource]),
                    Quality = opened.Quality,
                },
            ],
        };
    }

    /// <summary>The gas holds what a vessel needs a shield for.</summary>
    private static bool ThrowsTheLid(double pressurePaGauge, double gasM3, Policy policy) =>
        gasM3 > 0 && StoredEnergy.IsentropicJ(pressurePaGauge + AtmospherePa, gasM3) >= policy.ShieldFromJ;

    /// <summary>Partners that react at once were mixed in the open: closed before the gas has stopped, it is shut in after all.</summary>
    public static Finding? ClosedWhileGassing(StepState state, Policy policy)
    {
        if (state.Closing is not { } closing || closing.StepIndex != state.Index || closing.OpenTogetherS >= policy.GassedOutS
            || GasEvolution.GivenOffOpen(state) is not { } gas)
        {
            return null;
        }

        var pressure = gas.Mol * GasConstant * state.TemperatureK / state.Vessel.VolumeM3;
        if (pressure <= policy.UnratedNothingPa)
        {
            return null;
        }

        // closed with no time at all to give it off, where what the liquid alone keeps back is more than the vessel stands: no question, a danger
        var held = GoverningRating.For(state.Vessel, state.VesselIndex).PaGauge is { } rated and > 0 ? rated : policy.UnratedCautionPa;
        return new Finding
        {
            Code = "gas.closed-while-gassing",
            Hazard = Hazard.Gas,
            Severity = closing.OpenTogetherS <= 0 && pressure * KeptBack > held ? Severity.Danger : Severity.Warning,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = $"Step {state.Step.Id} closes “{state.Vessel.Id}” over {gas.Words} mixed in the open, and the plan does not let it stand open for {Wording.Text(policy.GassedOutS / 60)} min: has the gas stopped{(pressure is { } all ? $" (all of it would make at least {Wording.Figures(all / 1e5)} bar)" : "")}?",
            Evidence = pressure is null ? [] :
            [
                new Evidence
                {
                    Name = "pressure of the gas, if all of it is shut in",
                    Value = pressure.Value / 1e5,
                    Unit = "bar",
                    Model = "ideal gas in the empty vessel",
                    Sources = References.Full([ShareSource]),
                    Quality = Quality.Assumed,
                },
            ],
        };
    }

    /// <summary>The opening of a vessel that was closed over partners still gassing, what had not come out before is let out here.</summary>
    public static Finding? OpenedAfterGassing(StepState state, ScreeningContext context)
    {
        if (state.ClosedBefore is not { Closing: { } closing } before || closing.OpenTogetherS >= context.Policy.GassedOutS || GasEvolution.GivenOffOpen(before) is not { Mol: { } mol } gas)
        {
            return null;
        }

        var pressure = mol * GasConstant * state.TemperatureK / state.Vessel.VolumeM3;
        if (!(pressure > context.Policy.UnratedNothingPa))
        {
            return null;
        }

        var high = pressure > context.Policy.UnratedCautionPa;
        return new Finding
        {
            Code = "gas.opened-after-gassing",
            Hazard = Hazard.Gas,
            Severity = (state.Step.Action == StepAction.Vent, high) switch
            {
                (true, true) => Severity.Caution,
                (true, false) => Severity.Notice,
                (false, true) => Severity.Warning,
                (false, false) => Severity.Caution,
            },
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = [.. gas.Materials],
            Statement = $"Step {state.Step.Id} opens “{state.Vessel.Id}”, which was closed over {gas.Words}: with what had not come out before closing, up to about {Wording.BarGauge(pressure.Value)} stands in it; let it down through a valve or needle, into the hood.",
            Evidence = [Confinement.Findings.Number("pressure of the gas, if all of it was shut in", pressure.Value / 1e5, "bar", context.Policy.UnratedNothingPa / 1e5, "ideal gas in the empty vessel", Quality.Assumed, ShareSource)],
        };
    }
}
