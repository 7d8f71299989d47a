using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Safeguards;

/// <summary>
/// Vessels that stay cold with nobody there: a bath of ice or dry ice is used up and a cryostat fails unseen, and then the contents are at room temperature. Judged by what they do
/// there. Rules: docs/methods/safeguards.md.
/// </summary>
public sealed class LostCoolingScreen : IScreen
{
    /// <summary>Held cold means so far below the room, in K: 10 °C and lower at a room of 20 °C. Common practice, no source.</summary>
    private const double BelowRoomK = 10;

    /// <summary>Somebody who is away for no longer than this still counts as there, in s. Common practice, no source.</summary>
    private const double AwayFromS = 3600;

    /// <summary>Colder than ice and salt keep it, in K (−20 °C): without a cryostat or fresh dry ice no bath lasts a night. Common practice, no source.</summary>
    private const double CryogenicK = 253.15;

    /// <summary>Warmest night of a room, in K (25 °C).</summary>
    private const double WarmRoomK = 298.15;

    /// <summary>Adiabatic rise from which a reaction that lost its cooling is more than a matter of a few degrees, in K (Stoessel, Thermal Safety of Chemical Processes).</summary>
    private const double MediumRiseK = 50;

    private const string Watch = "cooling alarm";

    /// <summary>Families that are kept cold because they decompose by themselves at room temperature or not far above it.</summary>
    private static readonly string[] Unstable = ["diazonium salts", "organic peroxides", "explosives"];

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        if (context.Plan.Attendance is Attendance.Attended)
        {
            yield break;
        }

        foreach (var group in context.Walk.ByVessel)
        {
            StepState[] cold = [.. group.Where(static state => state.Contents.Any(static content => !content.Spent) && state.TemperatureK <= Walk.RoomTemperatureK - BelowRoomK && LastsLong(state.Step))];
            if (cold.Length > 0 && Judge(cold, context) is { } finding)
            {
                yield return finding;
            }
        }
    }

    private static bool LastsLong(Step step) => (step.DurationS ?? step.OverS) is { } seconds
        ? seconds > AwayFromS
        : step.Action is StepAction.Hold or StepAction.Stir or StepAction.Store;

    private static Finding? Judge(StepState[] cold, ScreeningContext context)
    {
        var coldest = cold.MinBy(static state => state.TemperatureK)!;
        Content[] boiling = Of(cold, static (content, state) => content.Substance.Known is { Involatile: false, BoilingPointK.Value: <= WarmRoomK and var boils } && state.TemperatureK <= boils);
        Content[] unstable = Of(cold, static (content, _) => FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(Unstable.Contains));
        Content[] pyrophoric = Of(cold, static (content, _) => content.Substance.Known is { HazardStatements.Value: { } statements } && statements.Any(static statement => statement.Code is "H250"));
        var hot = cold.Where(static state => state.ReactionHeat is { AdiabaticRiseK: >= MediumRiseK }).MaxBy(static state => state.ReactionHeat!.AdiabaticRiseK);
        string[] consequences =
        [
            .. boiling.Length > 0 ? [$"{Names(boiling)} boils, {(cold.Any(static state => state.Sealed) ? "and nothing lets it out of the closed vessel" : "and leaves as gas")}"] : Array.Empty<string>(),
            .. unstable.Length > 0 ? [$"{Names(unstable)} decomposes by itself"] : Array.Empty<string>(),
            .. hot is { ReactionHeat.AdiabaticRiseK: { } rise } ? [$"what has not reacted goes on by itself, up to {Wording.Text(Math.Round(rise))} K"] : Array.Empty<string>(),
            .. pyrophoric.Length > 0 ? [$"{Names(pyrophoric)}, which ignites in air, goes on reacting behind a bath that nobody renews"] : Array.Empty<string>(),
        ];
        var grave = consequences.Length > 0;
        var finding = new Finding
        {
            Code = "temperature.lost-cooling",
            Hazard = Hazard.Temperature,
            Severity = grave ? Severity.Warning : coldest.TemperatureK <= CryogenicK ? Severity.Caution : Severity.Notice,
            Steps = StepIds.Of(cold),
            Vessel = coldest.Vessel.Id,
            Materials = Findings.Ids(grave ? boiling.Concat(unstable).Concat(pyrophoric) : coldest.Contents),
            Statement = $"“{coldest.Vessel.Id}” is kept at {Wording.Celsius(coldest.TemperatureK)} with nobody there{(context.Plan.Attendance is Attendance.Overnight ? " overnight" : "")}: a bath is used up and a cooler fails unseen, and the contents come to the room{(grave ? ", where " + Wording.List(consequences) : "; say what is to become of them there")}.",
            Evidence = [Findings.Number("temperature when the cooling is lost", Wording.InCelsius(WarmRoomK), "°C", Wording.InCelsius(coldest.TemperatureK), "the room; the set temperature is the limit", Quality.Assumed, "common-practice")],
            ClearedBy = [new Clearing("attendance", "/attendance", null, null, "attended")],
        };
        return ControlNeeds.Status(Watch, finding, context) is ControlStatus.Present ? null : finding;
    }

    private static Content[] Of(StepState[] cold, Func<Content, StepState, bool> concerns) =>
    [
        .. cold.SelectMany(state => state.Contents.Where(content => content is { Spent: false, Mol: null or > 0 } && concerns(content, state)))
            .DistinctBy(static content => content.Substance.Key, StringComparer.Ordinal),
    ];

    private static string Names(Content[] contents) => Wording.List(contents.Select(static content => content.Substance.Name).Order(StringComparer.Ordinal));
}
