using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>Closed vessels beside their pressure: fill, seal, inspection, evidence of the rating, heating unwatched. Grounds: docs/methods/ratings.md.</summary>
public sealed class VesselCareScreen : IScreen
{
    private const double Tolerance = 1e-3;

    private static readonly string[] Practice = ["common-practice"];

    private static readonly string[] CutOutWords = ["cut-out", "cutout", "over-temperature", "temperature limiter"];

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var group in Grouping.Of(context.Walk.States, static state => state.Sealed, static (one, other) => one.VesselIndex == other.VesselIndex && one.Closing!.StepIndex == other.Closing!.StepIndex))
        {
            var closed = group;
            var pressed = closed.Chosen(state => context.Closed(state) is not { } one || one.LiquidFull || one.WorstPaGauge > context.Policy.UnratedCautionPa);
            Finding?[] all =
            [
                Fill(closed.Chosen(state => state.Heated && context.Closed(state) is not { LiquidFull: true }), context.Policy),
                Seal(closed),
                Inspection(pressed, context),
                Evidence(pressed, context),
                Unwatched(pressed.Chosen(static state => state is { Heated: true, IndependentCutOut: false }), context),
            ];
            foreach (var finding in all.OfType<Finding>())
            {
                yield return finding;
            }
        }
    }

    private static Finding? Fill(StepState[] heated, Policy policy)
    {
        if (heated.Length == 0 || !Array.Exists(heated, static state => state.Contents.Count > 0))
        {
            return null;
        }

        if (heated.Max(static state => FillLimits.FillOf(state)) is not (> 0 and { } fill))
        {
            return new Finding
            {
                Code = "data.fill",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Steps = StepIds.Of(heated),
                Vessel = heated[0].Vessel.Id,
                Statement = $"How full “{heated[0].Vessel.Id}” is when it is heated closed cannot be worked out: a volume, amount or density is missing.",
            };
        }

        var state = heated.MaxBy(static one => one.WorstTemperatureK)!;
        var limit = FillLimits.Limit(state, policy);
        var material = VesselKinds.MaterialOf(state.Vessel.Kind);
        if (fill > limit.Fill + Tolerance)
        {
            return Of("pressure.fill", Hazard.Pressure, fill > policy.FillCeiling + Tolerance ? Severity.Warning : Severity.Caution, heated,
                $"“{state.Vessel.Id}” is {Percent(fill)} full and heated closed; at most {Percent(limit.Fill)} is {limit.Why}.", fill, "fraction", limit.Fill, "volume at 25 °C over the vessel's volume", "fill of the closed vessel");
        }

        return fill < policy.FillLow && material is not VesselMaterial.Plastic
            ? Of("pressure.fill-low", Hazard.Pressure, Severity.Notice, heated,
                $"“{state.Vessel.Id}” is only {Percent(fill)} full: most of the liquid may be vapour and the dry wall hotter than the contents.", fill, "fraction", policy.FillLow, "volume at 25 °C over the vessel's volume", "fill of the closed vessel")
            : null;
    }

    private static Finding? Seal(StepState[] closed)
    {
        var state = closed.MaxBy(static one => one.WorstTemperatureK)!;
        var weakest = (Words: "", Limit: ((string Name, double TemperatureK)?)null);
        for (var part = 0; part < state.Vessel.Parts.Count; part++)
        {
            if (state.Vessel.Parts[part].MaximumTemperatureK is null)
            {
                weakest = Weaker(weakest, state.Vessel.Parts[part].Name);
            }
        }

        if (state.Vessel is { Closure: { } closure, MaximumTemperatureK: null })
        {
            weakest = Weaker(weakest, closure);
        }

        // the limit of the vessel says it already where it is passed and no higher
        return weakest.Limit is { } limit && state.WorstTemperatureK > limit.TemperatureK && !(TemperatureLimit.Of(state.Vessel, state.VesselIndex)?.TemperatureK <= limit.TemperatureK)
            ? Of("temperature.seal", Hazard.Temperature, Severity.Caution, [.. closed.Where(one => one.WorstTemperatureK > limit.TemperatureK)],
                $"“{weakest.Words}” of “{state.Vessel.Id}” is of {limit.Name}, commonly good to {Wording.Celsius(limit.TemperatureK)}; it may reach {Wording.Celsius(state.WorstTemperatureK)}.",
                Wording.InCelsius(state.WorstTemperatureK), "°C", Wording.InCelsius(limit.TemperatureK), "usual service temperature of the seal", "worst credible temperature at the seal")
            : null;
    }

    private static (string Words, (string Name, double TemperatureK)? Limit) Weaker((string Words, (string Name, double TemperatureK)? Limit) one, string words) =>
        RatingByTemperature.SealLimit(words) is { } limit && !(one.Limit?.TemperatureK <= limit.TemperatureK) ? (words, limit) : one;

    private static Finding? Inspection(StepState[] pressed, ScreeningContext context)
    {
        if (pressed.Length == 0 || pressed[0].Vessel is not { InspectedOn: { } inspected } vessel || context.Plan.PlannedOn is not { } planned)
        {
            return null;
        }

        var due = inspected.AddMonths((int)context.Policy.InspectionMonths);
        return planned > due
            ? Of("safeguard.inspection-expired", Hazard.Safeguard, Severity.Caution, pressed,
                FormattableString.Invariant($"“{vessel.Id}” was inspected on {inspected:yyyy-MM-dd}; the inspection ran out on {due:yyyy-MM-dd}, before the planned {planned:yyyy-MM-dd}."),
                planned.DayNumber - inspected.DayNumber, "days", due.DayNumber - inspected.DayNumber, "days from inspection to the planned date", "time since the inspection")
            : null;
    }

    private static Finding? Evidence(StepState[] pressed, ScreeningContext context)
    {
        if (pressed.Length == 0)
        {
            return null;
        }

        var vessel = pressed[0].Vessel;
        var undated = vessel.InspectedOn is null || context.Plan.PlannedOn is null;
        var words = new List<string>();
        var wall = GoverningRating.For(pressed[0]).Wall;
        if (string.IsNullOrWhiteSpace(vessel.RatingEvidence))
        {
            words.Add(wall is null ? "what shows its rating (the mark on it or its certificate)" : "who measured its wall, and with what");
        }

        if (undated)
        {
            words.Add(vessel.InspectedOn is null ? "when it was last inspected" : "the planned day to judge its inspection by");
        }

        return words.Count == 0 ? null
            : Of("data.vessel-evidence", Hazard.Data, Severity.Notice, pressed,
                $"“{vessel.Id}” is to hold pressure, but the procedure does not say {Wording.List(words)}.", ((wall is null ? vessel.RatingPaGauge : GoverningRating.For(pressed[0]).PaGauge) ?? 0) / 1e5, "bar(g)", null, wall is null ? "rating as stated; not stated counts as 0" : "rating of the glass wall", "rating as stated");
    }

    private static Finding? Unwatched(StepState[] heated, ScreeningContext context)
    {
        if (heated.Length == 0 || context.Plan.Attendance is Attendance.Attended || Names(context.Plan, CutOutWords))
        {
            return null;
        }

        var state = heated.MaxBy(state => context.Closed(state)?.WorstPaGauge ?? double.MaxValue)!;
        var relief = context.Plan.Safeguards.Any(static safeguard => ReliefDevice.IsNamed(safeguard.Control)) || ReliefDevice.On(state.Vessel);
        var night = context.Plan.Attendance is Attendance.Overnight ? "overnight" : "unattended";
        return Of("safeguard.unwatched-heating", Hazard.Safeguard, Severity.Warning, heated,
            $"“{state.Vessel.Id}” is heated closed {night} without an independent cut-out{(relief ? "" : " or a relief device")}: a controller that sticks goes on heating with nobody there.",
            Wording.InCelsius(state.WorstTemperatureK), "°C", null, "worst credible temperature with an overshoot only; a controller stuck on has no bound", "worst credible temperature");
    }

    private static bool Names(Plan plan, string[] words) => plan.Safeguards.Any(safeguard => Has(safeguard.Control, words));

    private static bool Has(string text, string[] words) => Array.Exists(words, word => text.Contains(word, StringComparison.OrdinalIgnoreCase));

    private static string Percent(double share) => $"{Wording.Text(Math.Round(100 * share))} %";

    private static Finding Of(string code, Hazard hazard, Severity severity, StepState[] states, string statement, double value, string unit, double? limit, string model, string quantity) => new()
    {
        Code = code,
        Hazard = hazard,
        Severity = severity,
        Steps = StepIds.Of(states),
        Vessel = states[0].Vessel.Id,
        Statement = statement,
        Evidence = [new Evidence { Name = quantity, Worse = code switch { "pressure.fill-low" => WorseWhen.Lower, "data.vessel-evidence" => WorseWhen.Neither, _ => WorseWhen.Higher }, Value = value, Unit = unit, Limit = limit, Model = model, Sources = References.Full(Practice), Quality = Quality.Assumed }],
    };
}
