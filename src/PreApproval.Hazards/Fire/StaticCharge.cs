using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// Static when a flammable liquid that conducts less than 50 pS/m (Data/poor-conductors.tsv) is poured, moved or filtered. By volume: notice from 0.5 L, caution
/// from 5 L, warning from 20 L; one step up through a filter, which charges far more, or into a metal or plastic container. Rules: docs/methods/flash-margin.md.
/// </summary>
internal static class StaticCharge
{
    private static readonly Dictionary<string, IReadOnlyList<string>> Poor = EmbeddedTable.Rows("poor-conductors.tsv")
        .ToDictionary(static row => row["cas"], static row => EmbeddedTable.Entries(row["sources"]), StringComparer.Ordinal);

    private static readonly string[] Metal = ["metal", "steel", "aluminium", "aluminum", "iron", "tin can", "drum", "autoclave", "canister"];
    private static readonly string[] Plastic = ["plastic", "polyethylene", "polypropylene", "hdpe", "ptfe", "carboy", "jerrycan"];

    /// <summary>True for a liquid on file as conducting less than 50 pS/m.</summary>
    public static bool ConductsPoorly(Substance substance) => substance.Identity.Cas is { } cas && Poor.ContainsKey(cas);

    public static IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var state in context.Walk.States)
        {
            // a move gives two states; the one it starts from has the contents that flow
            if (string.Equals(state.Vessel.Id, context.Plan.Steps[state.Index].Vessel, StringComparison.Ordinal) && HoldsEnough(state) && Of(state, context) is { } finding)
            {
                yield return finding;
            }
        }
    }

    // most vessels hold none of it, and need no closer look
    private static bool HoldsEnough(StepState state)
    {
        double volume = 0;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index] is { Spent: false, Substance.Known: { PhaseAt298K: Phase.Liquid } known } content && ConductsPoorly(known))
            {
                volume += OpenFlammables.VolumeM3(content);
            }
        }

        return volume > 0.99 * FireThresholds.StaticNoticeM3;
    }

    private static Finding? Of(StepState state, ScreeningContext context)
    {
        var moves = state.Step.Action is StepAction.Transfer or StepAction.Filter;
        if (!moves && (state.Step.Action is not (StepAction.Charge or StepAction.Add or StepAction.Extract or StepAction.Wash or StepAction.Quench) || state.Step.Materials.Count == 0))
        {
            return null;
        }

        var materials = state.Step.Materials.Select(static use => use.MaterialId).ToHashSet(StringComparer.Ordinal);
        var liquids = state.Contents.Where(content => content is { Spent: false, Substance.Known.PhaseAt298K: Phase.Liquid } && (moves || (content.MaterialId is { } id && materials.Contains(id)))).ToArray();
        var all = liquids.Select(OpenFlammables.VolumeM3).Order().Sum();
        var poor = liquids.Where(static content => ConductsPoorly(content.Substance.Known!)).ToArray();
        var volume = poor.Select(OpenFlammables.VolumeM3).Order().Sum();
        if (volume < FireThresholds.StaticNoticeM3 || volume < FireThresholds.PoorlyConductingShare * all
            || !Array.Exists(poor, content => content.Substance.Known!.FlashPointK?.Governing.Value - context.Policy.FlashMarginK <= state.TemperatureK))
        {
            return null;
        }

        var target = context.Plan.Vessels.FirstOrDefault(vessel => string.Equals(vessel.Id, state.Step.ToVessel, StringComparison.Ordinal));
        var metal = Says(state.Vessel, Metal) || (target is not null && Says(target, Metal));
        var plastic = Says(state.Vessel, Plastic) || (target is not null && Says(target, Plastic));
        var filtered = state.Step.Action == StepAction.Filter;
        var step = (volume >= FireThresholds.StaticWarningM3 ? 2 : volume >= FireThresholds.StaticCautionM3 ? 1 : 0) + (filtered || metal || plastic ? 1 : 0);
        return new Finding
        {
            Code = "fire.static",
            Hazard = Hazard.Fire,
            Severity = step >= 2 ? Severity.Warning : step == 1 ? Severity.Caution : Severity.Notice,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = MaterialIds.Of(poor),
            Statement = $"{Wording.Capital(Wording.List(poor.Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)))} conducts electricity poorly and charges itself as about {Wording.Figures(volume * 1000)} L {(filtered ? "pass the filter" : "are poured")}: pour slowly (below 1 m/s), without free fall{(metal ? "; bond and earth the metal container" : "")}{(plastic ? "; a plastic container cannot be earthed" : "")}.",
            Evidence =
            [
                new Evidence
                {
                    Name = "volume of poorly conducting liquid moved",
                    Value = volume * 1000,
                    Unit = "L",
                    Limit = FireThresholds.StaticNoticeM3 * 1000,
                    Model = "conductivity below 50 pS/m by table; thresholds of volume are common practice",
                    Sources = References.Full(poor.SelectMany(static content => Poor[content.Substance.Known!.Identity.Cas!]).Order(StringComparer.Ordinal)),
                    Quality = Quality.Assumed,
                },
            ],
        };
    }

    private static bool Says(Vessel vessel, string[] words) => Array.Exists(words, word => vessel.Kind.Contains(word, StringComparison.OrdinalIgnoreCase));
}
