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

    /// <summary>Stated time in s in which a liquid is still full of the gas: two minutes. Common practice, no source.</summary>
    private const double StillRisingS = 120;

    /// <summary>The coldest bath a vessel is cooled in before it is opened, in K (dry ice, −78 °C).</summary>
    private const double ColdBathK = 195.15;

    private const string ShareSource = "common-practice";

    /// <summary>What a step opens or vents while it is still under pressure; null where it is not, or nothing was closed.</summary>
    /// <param name="state">The step.</param>
    /// <param name="context">What is screened.</param>
    /// <param name="withClearings">False for the trial of a change.</param>
    public static Finding? Opened(StepState state, ScreeningContext context, bool withClearings)
    {
        // evacuated when it was shut or not: what the gas and the vapour have come to since is what counts
        if (state.ClosedBefore is not { Closing: not null } before)
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
        var (charge, governing) = HeldGas.PressureAt(whole, state.TemperatureK);
        var pressure = governing.PascalAbs - AtmospherePa;
        if (pressure is null || pressure <= context.Policy.UnratedNothingPa)
        {
            return null;
        }

        if (condensed > 0)
        {
            notCounted.Add("gas that condenses as long as the heat of its making does not drive it off");
        }

        string[] leftOut = [.. notCounted, .. SolutionEquilibrium.Doubts(charge), .. HeldGas.Between(whole, charge), .. charge.MissingFrom(governing.Model, state.TemperatureK).Select(static key => $"{key}, whose vapour pressure is not known")];
        var about = leftOut.Length == 0 ? "about" : "at least";
        var opened = charge.GoverningAt(state.TemperatureK);
        var byValve = state.Step.Action == StepAction.Vent;
        var high = pressure > context.Policy.UnratedCautionPa;
        // a number that something is left out of offers nothing
        var coldEnough = withClearings && leftOut.Length == 0 ? QuietWhenCooled(whole, state, context.Policy) : null;
        var finding = new Finding
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
                : $"Step {state.Step.Id} opens “{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)} with {about} {Wording.BarGauge(pressure.Value)} still in it; {(withClearings && leftOut.Length == 0 && coldEnough is null ? "vent it first: cooling alone does not take it away" : "vent or cool it first")}.",
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
        return coldEnough is { } celsius && CoolingClears(finding, state, celsius, context) is { } offer ? finding with { ClearedBy = [offer] } : finding;
    }

    /// <summary>Highest temperature in °C, a whole number, at which what is shut in presses no longer; null: none that a cold bath reaches.</summary>
    private static double? QuietWhenCooled(SealedCharge whole, StepState state, Policy policy)
    {
        double low = ColdBathK, high = state.TemperatureK;
        if (high <= low || !Quiet(low))
        {
            return null;
        }

        while (high - low > 0.1)
        {
            var middle = 0.5 * (low + high);
            (low, high) = Quiet(middle) ? (middle, high) : (low, middle);
        }

        return Math.Floor(Wording.InCelsius(low));

        bool Quiet(double temperatureK) => HeldGas.PressureAt(whole, temperatureK).Pressure is { LiquidFull: false, PascalAbs: { } pressure } && pressure - AtmospherePa <= policy.UnratedNothingPa;
    }

    private static Clearing? CoolingClears(Finding finding, StepState state, double celsius, ScreeningContext context)
    {
        var offer = new Clearing("temperature at opening", Confinement.Findings.Step(state.Index, "temperature"), celsius, "°C", null);
        var plan = Clearings.Apply(context.Plan, offer);
        var trial = new ScreeningContext(plan, context.Policy, Walk.Follow(plan, context.Policy));
        foreach (var other in PressureScreen.Find(trial, withClearings: false, finding))
        {
            if (string.Equals(other.Code, finding.Code, StringComparison.Ordinal) && other.Steps.Contains(state.Step.Id, StringComparer.Ordinal))
            {
                return null;
            }
        }

        return offer;
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

        // closed with hardly any time to give it off, where what the liquid alone keeps back is more than the vessel stands: no question, a danger
        var held = GoverningRating.For(state).PaGauge is { } rated and > 0 ? rated : policy.UnratedCautionPa;
        return new Finding
        {
            Code = "gas.closed-while-gassing",
            Hazard = Hazard.Gas,
            Severity = closing.OpenTogetherS <= StillRisingS && pressure * KeptBack > held ? Severity.Danger : Severity.Warning,
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

        // in a vessel of unknown volume it may be any
        var pressure = mol * GasConstant * state.TemperatureK / state.Vessel.VolumeM3;
        if (!(mol > 0) || pressure <= context.Policy.UnratedNothingPa)
        {
            return null;
        }

        var high = !(pressure <= context.Policy.UnratedCautionPa);
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
            Statement = $"Step {state.Step.Id} opens “{state.Vessel.Id}”, which was closed over {gas.Words}: with what had not come out before closing, {(pressure is { } all ? $"up to about {Wording.BarGauge(all)} stands in it" : "it is under a pressure that cannot be computed without its volume")}; let it down through a valve or needle, into the hood.",
            Evidence = pressure is null ? [] : [Confinement.Findings.Number("pressure of the gas, if all of it was shut in", pressure.Value / 1e5, "bar", context.Policy.UnratedNothingPa / 1e5, "ideal gas in the empty vessel", Quality.Assumed, ShareSource)],
        };
    }
}
