using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Safeguards;

/// <summary>
/// Open vessels that stay heated with nobody there: what overheats, loses its cooling water or boils dry does so unseen. Closed ones are
/// judged with their pressure. Rules: docs/methods/safeguards.md.
/// </summary>
public sealed class UnattendedHeatingScreen : IScreen
{
    /// <summary>Code of the finding.</summary>
    internal const string Code = "temperature.unattended";

    /// <summary>Somebody who is away for no longer than this still counts as there, in s. Common practice, no source.</summary>
    private const double AwayFromS = 3600;

    /// <summary>So close below its boiling point a liquid needs its condenser, in K. Common practice, no source.</summary>
    private const double NearBoilingK = 5;

    /// <summary>
    /// What the surface of an electrical heater reaches at full power at the least, in K (300 °C): a hotplate goes to 300 to 550 °C, and a block or bath stands on one. Common
    /// practice, no source. It is the single fault of a controller that sticks or of a probe out of the bath, and only a cut-out of its own stops it.
    /// </summary>
    private const double FullPowerK = 573.15;

    private const string CutOut = "independent cut-out";
    private const string WaterMonitor = "condenser water monitor";

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        if (context.Plan.Attendance is Attendance.Attended)
        {
            yield break;
        }

        foreach (var state in context.Walk.States)
        {
            if (state is { Heated: true, Sealed: false } && state.Contents.Count > 0 && LastsLong(state.Step) && Judge(state, context) is { } finding)
            {
                yield return finding;
            }
        }
    }

    private static bool LastsLong(Step step) => (step.DurationS ?? step.OverS) is { } seconds
        ? seconds > AwayFromS
        : step.Action is StepAction.Heat or StepAction.Reflux or StepAction.Distil or StepAction.Hold or StepAction.Stir;

    private static Finding? Judge(StepState state, ScreeningContext context)
    {
        Content[] burning = [.. state.Contents.Where(content => ContentsFlashPoint.Flashes(content) && content.Substance.Known!.FlashPointK!.Governing.Value <= state.WorstTemperatureK)];
        Content[] toxic = [.. state.Contents.Where(static content => content is { Spent: false, Substance.Known: { Involatile: false, HazardStatements.Value: { } statements } } && statements.Any(static statement => statement.Code is "H330" or "H331"))];
        var without = new Finding { Code = Code, Hazard = Hazard.Temperature, Severity = Severity.Caution, Steps = [state.Step.Id], Vessel = state.Vessel.Id, Statement = "" };
        // with nobody there a controller that sticks is not stopped: what ignites at full power counts, unless a cut-out of its own does that
        double? stuck = IsMissing(CutOut) && IsElectrical(state.HeatSource) ? FullPowerK : null;
        Content[] lit = stuck is null ? [] : [.. state.Contents.Where(content => content.Substance.Known is { Involatile: false } && ContentsFlashPoint.Flashes(content) && content.Substance.Known.AutoignitionK?.Governing.Value <= stuck)];
        var grave = burning.Length + toxic.Length + lit.Length > 0;
        var finding = without with
        {
            Severity = grave ? Severity.Warning : Severity.Caution,
            Materials = Findings.Ids(grave ? burning.Concat(toxic).Concat(lit) : state.Contents),
            ClearedBy = [new Clearing("attendance", "/attendance", null, null, "attended")],
        };
        string[] missing =
        [
            .. IsMissing(CutOut) ? ["no independent cut-out of the heating is stated"] : Array.Empty<string>(),
            .. grave && Boils(state) && IsMissing(WaterMonitor) ? ["nothing watches the cooling water of the condenser"] : Array.Empty<string>(),
            .. state.Step.Action is StepAction.Distil ? ["it can boil dry"] : Array.Empty<string>(),
        ];
        if (missing.Length == 0)
        {
            return null;
        }

        var what = burning.Length > 0 ? $", above the flash point of {Names(burning)}," : toxic.Length > 0 ? $" with {Names(toxic)}, toxic to breathe," : "";
        return finding with
        {
            Statement = $"In step {state.Step.Id} “{state.Vessel.Id}” is heated{what} with nobody there{(context.Plan.Attendance is Attendance.Overnight ? " overnight" : "")}: {Wording.List(missing)}{(lit.Length > 0 ? $"; a controller that sticks takes the heater to {Wording.Celsius(FullPowerK)} or more, where {Names(lit)} {(lit.Length == 1 ? "lights" : "light")} without a spark" : "")}.",
            Evidence =
            [
                .. burning.Length == 0 ? Array.Empty<Evidence>() : [Findings.Number("worst temperature", Wording.InCelsius(state.WorstTemperatureK), "°C", Wording.InCelsius(burning.Min(static content => content.Substance.Known!.FlashPointK!.Governing.Value)), "flash point; unattended heating needs a cut-out of its own (common practice)", Quality.Assumed, "common-practice")],
                .. lit.Length == 0 ? Array.Empty<Evidence>() : [Findings.Number("heater at full power", Wording.InCelsius(FullPowerK), "°C", Wording.InCelsius(lit.Min(static content => content.Substance.Known!.AutoignitionK!.Governing.Value)), "least surface of an electrical heater whose controller sticks, against the lowest autoignition temperature", Quality.Assumed, "common-practice")],
            ],
        };

        bool IsMissing(string control) => ControlNeeds.Status(control, without, context) is not ControlStatus.Present;
    }

    private static bool IsElectrical(HeatSource? source) => source switch
    {
        // not stated, it counts as a block
        HeatSource.MetalBlock or HeatSource.OilBath or HeatSource.SandBath or HeatSource.Hotplate or HeatSource.Mantle or HeatSource.Oven or HeatSource.HeatGun or null => true,
        HeatSource.Microwave or HeatSource.WaterBath or HeatSource.Steam or HeatSource.IceBath or HeatSource.CryogenicBath => false,
    };

    private static bool Boils(StepState state) => state.Step.Action is StepAction.Reflux or StepAction.Distil
        || state.Contents.Any(content => content.Substance.Known is { PhaseAt298K: Phase.Liquid, Involatile: false, BoilingPointK.Value: var boils } && state.TemperatureK > boils - NearBoilingK);

    private static string Names(Content[] contents) => Wording.List(contents.Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal));
}
