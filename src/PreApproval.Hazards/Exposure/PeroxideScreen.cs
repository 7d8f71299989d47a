using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Exposure;

/// <summary>
/// Peroxide-forming solvents: class, age since opening and last test (Data/peroxide-formers.tsv, after Kelly 1996).
/// Distilling or concentrating one is its own finding.
/// </summary>
public sealed class PeroxideScreen : IScreen
{
    /// <summary>Peroxides in ppm from which the liquid must not be concentrated.</summary>
    private const double TreatFromPpm = 25;

    /// <summary>Peroxides in ppm from which the liquid is disposed of.</summary>
    private const double DisposeFromPpm = 100;

    private static readonly string[] DestroysPeroxides = ["organolithium compounds", "organomagnesium halides", "metal alkyls", "aluminium hydrides", "saline hydrides", "boranes"];

    private static readonly FrozenDictionary<string, PeroxideFormer> Formers = PeroxideFormer.All;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var material in context.Plan.Materials)
        {
            var parts = AmountConversion.Parts(material.Composition);
            for (var index = 0; index < parts.Count; index++)
            {
                var substance = parts[index].Substance;
                if (Formers.ContainsKey(substance.Known?.Identity.Cas ?? substance.Key) && Of(material, substance, context) is { } finding)
                {
                    yield return finding;
                    break;
                }
            }
        }
    }

    private static Finding? Of(Material material, PlanSubstance substance, ScreeningContext context)
    {
        var former = Formers[substance.Known?.Identity.Cas ?? substance.Key];
        var (severe, months) = (former.Class == PeroxideClass.Severe, former.MonthsOpened);
        string[] concentrating =
        [
            .. context.Walk.States.Where(state => state.Step.Action is StepAction.Distil or StepAction.Concentrate
                    && state.Contents.Any(content => string.Equals(content.MaterialId, material.Id, StringComparison.Ordinal) && IsMuch(content, former)))
                .Select(static state => state.Step.Id)
                .Distinct(StringComparer.Ordinal),
        ];
        var distils = context.Walk.States.Any(state => state.Step.Action == StepAction.Distil && concentrating.Contains(state.Step.Id, StringComparer.Ordinal));
        // a test says something only about the time it was made in
        var tested = material.PeroxideTest is { } last && !(context.Plan.PlannedOn is { } day && last.On.AddMonths(months) < day) ? material.PeroxideTest : null;
        var overdue = material.OpenedOn is { } opened && context.Plan.PlannedOn is { } today && opened.AddMonths(months) < today;
        if (tested is { Ppm: >= TreatFromPpm } found)
        {
            var dispose = found.Ppm >= DisposeFromPpm;
            // the residue of what is known to hold peroxide is what explodes: no less grave than that of an old bottle nobody tested
            return Finding("peroxide.above-limit", dispose && concentrating.Length > 0 ? Severity.Danger : dispose || concentrating.Length > 0 ? Severity.Warning : Severity.Caution,
                $"{substance.Name} “{material.Id}” was tested at {Wording.Figures(found.Ppm)} ppm peroxide{(concentrating.Length > 0 ? $" and is {(distils ? "distilled" : "concentrated")} in {Wording.Steps(concentrating)}" : "")}: {(dispose ? "dispose of it" : "treat it first and do not concentrate it")}.", ppm: found.Ppm);
        }

        if (context.Plan.PlannedOn is null && material.OpenedOn is not null)
        {
            return Finding("data.planned-date", concentrating.Length > 0 || severe ? Severity.Warning : Severity.Caution,
                $"{substance.Name} “{material.Id}” forms peroxides and its date of opening is stated, but not the day of the procedure: its age cannot be judged.") with
            {
                Hazard = Hazard.Data,
                LeavesCheckUndone = true,
            };
        }

        // warm it goes off by itself where peroxide has gathered, without being driven off: reflux, or a bath above room temperature
        string[] warmed = overdue && tested is null && !KeepsPeroxidesOut(material, context) ? Warmed(material, former, context) : [];
        var testedNow = tested is { } test && context.Plan.PlannedOn is { } planned && planned.DayNumber - test.On.DayNumber is >= 0 and <= 1;
        if (overdue && tested is null)
        {
            // the residue of an untested old bottle is what explodes: driven off to the end, or of a kind that needs no concentrating
            return Finding("peroxide.overdue", distils || (severe && concentrating.Length > 0) ? Severity.Danger : concentrating.Length > 0 || severe || warmed.Length > 0 ? Severity.Warning : Severity.Caution,
                $"{substance.Name} “{material.Id}” was opened more than {months.ToString(CultureInfo.InvariantCulture)} months ago and no peroxide test {(material.PeroxideTest is null ? "is stated" : "of that time is stated")}{(concentrating.Length > 0 ? $", yet it is {(distils ? "distilled" : "concentrated")} in {Wording.Steps(concentrating)}" : warmed.Length > 0 ? $", yet it is heated in {Wording.Steps(warmed)}: test it first" : "")}.", byAge: true) with
            {
                Steps = concentrating.Length > 0 ? concentrating : warmed,
            };
        }

        if (concentrating.Length > 0 && !testedNow && !KeepsPeroxidesOut(material, context))
        {
            return Finding("peroxide.concentrated", distils ? Severity.Warning : Severity.Caution,
                $"{substance.Name} “{material.Id}” forms peroxides and is {(distils ? "distilled" : "concentrated")} in {Wording.Steps(concentrating)} without a test of the last day; test it first and never go to dryness.");
        }

        return material.OpenedOn is null && tested is null && !InReductant(material)
            ? Finding("peroxide.undated", severe ? Severity.Caution : Severity.Notice, $"{substance.Name} “{material.Id}” forms peroxides{(former.Class == PeroxideClass.Polymerising ? ", which can start its polymerisation" : "")}; the date of opening is not stated.", byAge: material.PeroxideTest is not null)
            : null;

        // the keeping time is evidence only where it decides: of a bottle too old, or of a test set aside as too old
        Finding Finding(string code, Severity severity, string statement, double? ppm = null, bool byAge = false) => new()
        {
            Code = code,
            Hazard = Hazard.Peroxide,
            Severity = severity,
            Steps = concentrating,
            Materials = [material.Id],
            Statement = Wording.Capital(statement),
            Evidence =
                ppm is { } value ? [new Evidence { Name = "peroxide test", Value = value, Unit = "ppm", Limit = TreatFromPpm, Model = "test as stated", Sources = References.Full(["peroxide-limits"]), Quality = Quality.Measured }]
                : byAge ? [new Evidence { Name = "keeping time after opening", Worse = WorseWhen.Lower, Value = months, Unit = "months", Model = "rule for the class of peroxide former", Sources = References.Full(["kelly-1996"]), Quality = Quality.Assumed }]
                : [],
        };
    }

    /// <summary>Steps that reflux it or heat it above 30 °C.</summary>
    private static string[] Warmed(Material material, PeroxideFormer former, ScreeningContext context) =>
    [
        .. context.Walk.States.Where(state => state.Heated && state.TemperatureK > Walk.WarmK
                && state.Contents.Any(content => !content.Spent && string.Equals(content.MaterialId, material.Id, StringComparison.Ordinal) && IsMuch(content, former)))
            .Select(static state => state.Step.Id)
            .Distinct(StringComparer.Ordinal),
    ];

    /// <summary>A slow former counts only from a volume; an unknown volume counts.</summary>
    private static bool IsMuch(Content content, PeroxideFormer former) =>
        former.LeastConcentratedM3 <= 0 || Fire.OpenFlammables.VolumeM3(content) is var volume && (volume <= 0 || volume >= former.LeastConcentratedM3);

    /// <summary>The bottle holds an organometallic compound or a hydride, which leaves no peroxide in it.</summary>
    private static bool InReductant(Material material) =>
        AmountConversion.Parts(material.Composition).Any(static part => FamilyTable.Default.Of(part.Substance, part.MassFraction).Any(static family => DestroysPeroxides.Contains(family, StringComparer.Ordinal)));

    /// <summary>The same, or the liquid shares a vessel with one before it is concentrated.</summary>
    private static bool KeepsPeroxidesOut(Material material, ScreeningContext context) =>
        InReductant(material)
        || context.Walk.States.Any(state => state.Contents.Any(content => string.Equals(content.MaterialId, material.Id, StringComparison.Ordinal))
            && state.Contents.Any(static content => !content.Spent && FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(static family => DestroysPeroxides.Contains(family, StringComparer.Ordinal)))
            && state.Step.Action is not (StepAction.Distil or StepAction.Concentrate));
}
