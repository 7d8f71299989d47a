using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// What shares a vessel, a waste container or a bath, against the table of encounters. A pair that is not in the table is
/// not assessed, which is not the same as compatible.
/// </summary>
public sealed class ReactivityScreen : IScreen
{
    /// <summary>Amount over a water bath from which a broken flask is one step worse, in mol. Common practice, no source.</summary>
    private const double MuchOverBathMol = 0.05;

    /// <summary>The same for a hydride in or under a liquid over ice, where it is quenched every day (4 g of lithium aluminium hydride). Common practice, no source.</summary>
    private const double MuchOverIceMol = 0.1;

    private static readonly string[] Energetic = ["explosion", "detonation", "self-heating", "runaway polymerisation"];

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => [.. InVessels(context), .. InWaste(context), .. OverBaths(context), .. EnergeticGaps.Find(context), .. AcetylenePressure.Find(context)];

    private static IEnumerable<Finding> InVessels(ScreeningContext context) =>
        context.Happenings.Where(static happening => happening.IsNews)
            .GroupBy(static happening => (happening.Meeting.Encounter.Key, happening.State.Vessel.Id))
            .Select(static group =>
            {
                var worst = group.MinBy(static happening => happening.Severity)!;
                return Describe(worst.Meeting, worst.Severity, worst.Because, [.. group.Select(static happening => happening.State.Step.Id).Distinct(StringComparer.Ordinal)], group.SelectMany(static happening => happening.Meeting.Everyone), worst.State);
            });

    private static Finding Describe(Meeting meeting, Severity severity, IReadOnlyList<string> because, IReadOnlyList<string> steps, IEnumerable<Content> everyone, StepState state)
    {
        var encounter = meeting.Encounter;
        var because2 = because.Count == 0 ? "" : $" ({string.Join("; ", because)})";
        var place = $"in “{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)}, step {state.Step.Id}";
        var hazard = HazardOf(encounter);
        return new Finding
        {
            Code = Prefix(hazard) + encounter.Key,
            Hazard = hazard,
            Severity = severity,
            Steps = steps,
            Vessel = state.Vessel.Id,
            Materials = Ids(everyone),
            Statement = $"{Names(meeting)} {place}: {encounter.Reason}. Expect {Wording.List(encounter.Consequences)}{GasWords(meeting)}.{because2}",
            Evidence = Evidence(meeting),
        };
    }

    /// <summary>What is only done to a substance is energetic when it can go off or run away, else it is gas.</summary>
    private static Hazard HazardOf(Encounter encounter) =>
        !EncounterTable.Treatments.Contains(encounter.B, StringComparer.Ordinal) ? Hazard.Incompatibility
        : encounter.Consequences.Any(static word => Energetic.Contains(word, StringComparer.Ordinal)) ? Hazard.Energetic
        : encounter.Consequences.Contains("fire", StringComparer.Ordinal) ? Hazard.Fire
        : Hazard.Gas;

    private static string Prefix(Hazard hazard) => hazard is Hazard.Energetic ? "energetic." : hazard is Hazard.Gas ? "gas." : hazard is Hazard.Fire ? "fire." : "incompatibility.";

    /// <summary>What ends up in each waste container and has not been used up before.</summary>
    internal static IReadOnlyList<(string Container, Content[] Contents)> WasteContainers(ScreeningContext context) => context.WasteContainers;

    internal static IEnumerable<(string Container, Content[] Contents)> ContainersOf(ScreeningContext context)
    {
        if (context.Plan.Waste.Count == 0)
        {
            yield break;
        }

        foreach (var container in context.Plan.Waste.GroupBy(static entry => entry.Container, StringComparer.OrdinalIgnoreCase))
        {
            yield return (container.Key,
            [
                .. container.SelectMany(static entry => entry.Materials)
                    .Distinct(StringComparer.Ordinal)
                    .Select(context.Plan.MaterialOf)
                    .OfType<Material>()
                    .SelectMany(material => AmountConversion.Parts(material.Composition).Select(part => new Content(part.Substance, material.Id, null, part.MassFraction)))
                    .Where(content => !UsedUp(content, context.Walk)),
            ]);
        }
    }

    private static IEnumerable<Finding> InWaste(ScreeningContext context)
    {
        foreach (var (container, contents) in WasteContainers(context))
        {
            foreach (var meeting in Meeting.Among(contents))
            {
                yield return new Finding
                {
                    Code = "incompatibility." + meeting.Encounter.Key,
                    Hazard = Hazard.Incompatibility,
                    Severity = meeting.Encounter.Severity,
                    Materials = Ids(meeting.Everyone),
                    Statement = $"{Names(meeting)} in the waste “{container}”: {meeting.Encounter.Reason}. Expect {Wording.List(meeting.Encounter.Consequences)}, perhaps hours later; keep them apart.",
                    Evidence = Evidence(meeting),
                };
            }
        }
    }

    /// <summary>A reagent that a quench or a declared reaction has destroyed does not reach the waste.</summary>
    internal static bool UsedUp(Content content, WalkResult walk) =>
        FamilyTable.Default.IsDestroyedByQuench(content.Substance)
        && walk.UsedMaterials.Contains(content.MaterialId!)
        && !walk.ByVessel
            .Any(vessel => vessel.Last().ContentsAfter.Any(left => !left.Spent && left.Mol is null or > 0 && string.Equals(left.MaterialId, content.MaterialId, StringComparison.Ordinal)));

    private static IEnumerable<Finding> OverBaths(ScreeningContext context)
    {
        var groups = context.Walk.States
            .Where(static state => state.HeatSource is HeatSource.IceBath or HeatSource.WaterBath or HeatSource.Steam)
            .SelectMany(static state => state.Contents.Where(static content => !content.Spent)
                .SelectMany(content => FamilyTable.Default.Of(content.Substance, content.MassFraction)
                    .Select(family => (State: state, Content: content, Family: family, Severity: FamilyTable.Default.Bath(family)))))
            .Where(static entry => entry.Severity is not null)
            .GroupBy(static entry => entry.State.Vessel.Id, StringComparer.Ordinal);
        foreach (var group in groups)
        {
            var worst = group.MinBy(static entry => (entry.Severity, entry.Family));
            // an ice bath is put under a hydride to quench it; hot water under it while it works serves no purpose that oil would not
            var hot = group.Any(static entry => entry.State.HeatSource is not HeatSource.IceBath && entry.State.Heated);
            var onIce = group.All(static entry => entry.State.HeatSource is HeatSource.IceBath && entry.State.Contents.Any(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid }));
            var much = worst.Severity > Severity.Warning && (hot || worst.Content.Mol > (onIce ? MuchOverIceMol : MuchOverBathMol));
            yield return new Finding
            {
                Code = "incompatibility.water-bath",
                Hazard = Hazard.Incompatibility,
                Severity = much ? worst.Severity!.Value - 1 : worst.Severity!.Value,
                Steps = [.. group.Select(static entry => entry.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = group.Key,
                Materials = Ids(group.Select(static entry => entry.Content)),
                Statement = $"{Wording.Capital(worst.Content.Substance.Name)} in “{group.Key}” stands over water; if the glass breaks, the bath reaches it. {(onIce ? "Keep no more ice water under it than the quench needs, or cool in a metal block" : "Use a bath without water")}.",
            };
        }
    }

    private static string Names(Meeting meeting)
    {
        var encounter = meeting.Encounter;
        if (Treated(encounter.B) is { } treated)
        {
            return Wording.Capital(Side(meeting.A, encounter.A)) + ", " + treated + ",";
        }

        var partners = new List<string> { Side(meeting.A, encounter.A), Side(meeting.B, encounter.B) };
        if (encounter.C is { } third)
        {
            partners.Add(Side(meeting.C, third));
        }

        return Wording.Capital(Wording.List(partners));
    }

    private static string? Treated(string pseudo) => pseudo switch
    {
        EncounterTable.Heat => "heated",
        EncounterTable.Drying => "dried",
        EncounterTable.Grinding => "ground",
        EncounterTable.Concentrating => "concentrated or distilled",
        EncounterTable.GroundJoints => "in ground joints",
        _ => null,
    };

    private static string Side(IReadOnlyList<Content> members, string family) =>
        members.Count == 0 ? family : string.Join(" or ", members.Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));

    private static string GasWords(Meeting meeting) =>
        meeting is { Encounter.Gas: not null, GasMol: > 0 and var mol } ? $", up to {Wording.Figures(mol * Health.AirConcentration.MolarVolumeLPerMol)} L of gas" : "";

    internal static string[] Ids(IEnumerable<Content> contents) =>
        MaterialIds.Of(contents);

    private static Evidence[] Evidence(Meeting meeting)
    {
        var sources = References.Full(meeting.Encounter.Sources);
        return meeting is { Encounter.Gas: { } gas, GasMol: > 0 and var mol }
            ? [new Evidence { Name = $"{gas}, at most", Value = mol, Unit = "mol", Model = "stoichiometry of the limiting partner", Sources = sources, Quality = Quality.Estimated }]
            : [new Evidence { Name = "encounter in the table", Value = 1, Unit = "rule", Worse = WorseWhen.Neither, Model = "table of encounters", Sources = sources, Quality = Quality.Assumed }];
    }
}
