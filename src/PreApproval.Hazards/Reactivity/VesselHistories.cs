using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>The history of every vessel while the states are gone through in order; a transfer takes it along.</summary>
/// <param name="catalysts">Materials that the plan declares as catalysts: nothing uses them up.</param>
internal sealed class VesselHistories(HashSet<string> catalysts)
{
    private readonly Dictionary<string, VesselHistory> byVessel = new(StringComparer.Ordinal);
    private StepState? last;

    /// <summary>The history of the vessel of this state, which must be asked for in the order of the walk.</summary>
    public VesselHistory At(StepState state)
    {
        if (!byVessel.TryGetValue(state.Vessel.Id, out var history))
        {
            byVessel[state.Vessel.Id] = history = new VesselHistory(catalysts);
        }

        // a transfer gives two states of one step, source first
        if (last is { } source && source.Index == state.Index && !string.Equals(source.Vessel.Id, state.Vessel.Id, StringComparison.Ordinal))
        {
            history.Inherit(byVessel[source.Vessel.Id]);
        }

        history.Begin(state);
        last = state;
        return history;
    }
}

/// <summary>What has met and what has reacted in one vessel.</summary>
/// <param name="catalysts">Materials that the plan declares as catalysts.</param>
internal sealed class VesselHistory(HashSet<string> catalysts)
{
    /// <summary>Up to here an activated sulfoxide keeps, in K (−50 °C).</summary>
    private const double ActivationUpToK = 223.15;

    /// <summary>Up to here a dosed addition counts as cold, in K (10 °C). Common practice, no source.</summary>
    private const double CoolUpToK = 283.15;

    /// <summary>No warmer than a room, in K (25 °C).</summary>
    private const double RoomK = 298.15;

    private const string Sulfoxides = "sulfoxides";

    private HashSet<string>? dosedCold;

    /// <summary>Families that react as fast as they are mixed, even in the cold; borohydrides and saline hydrides do not.</summary>
    private static readonly string[] Fast = ["organolithium compounds", "organomagnesium halides", "metal alkyls", "aluminium hydrides", CatalysedChloride];

    /// <summary>The formamide that it meets is a catalyst and is not used up.</summary>
    private const string CatalysedChloride = "oxalyl chloride";

    /// <summary>Their adduct with a phosphine forms as fast as they are mixed; what little is over is what the weighing leaves.</summary>
    private const string AzoOxidants = "azo oxidants";

    /// <summary>Share of the partner up to which an excess is that of weighing. Common practice, no source.</summary>
    private const double WeighingShare = 0.05;

    /// <summary>A partner is gone when it could have taken up two equivalents, as an ester does: with less the reagent may be the one that is gone.</summary>
    private const double MostPerPartner = 2;

    private readonly Dictionary<string, Seen> seen = new(StringComparer.Ordinal);
    private readonly HashSet<string> reacted = new(StringComparer.Ordinal);
    private readonly HashSet<string> activated = new(StringComparer.Ordinal);

    // products, by the material they were made from in one reaction
    private readonly HashSet<(string Product, string MaterialId)> madeFrom = [];

    public void Inherit(VesselHistory source)
    {
        foreach (var (key, before) in source.seen)
        {
            seen[key] = seen.TryGetValue(key, out var own) && own.Severity < before.Severity ? own : before;
        }

        reacted.UnionWith(source.reacted);
        activated.UnionWith(source.activated);
        madeFrom.UnionWith(source.madeFrom);
    }

    /// <summary>A fresh addition of what had reacted is there again.</summary>
    public void Begin(StepState state)
    {
        for (var index = 0; index < state.Step.Materials.Count; index++)
        {
            reacted.Remove(state.Step.Materials[index].MaterialId);
        }

        for (var index = 0; index < state.Additions.Count; index++)
        {
            var addition = state.Additions[index];
            if (addition.OverS >= ControlNeeds.DosedFromS && addition.TemperatureK <= CoolUpToK && !state.Sealed)
            {
                (dosedCold ??= new(StringComparer.Ordinal)).Add(addition.MaterialId);
            }
            else
            {
                dosedCold?.Remove(addition.MaterialId);
            }
        }
    }

    /// <summary>One partner was dosed cold and open in an earlier step, and in this one they only stand, are stirred or poured out, no warmer than the room.</summary>
    public bool WasDosedCold(Meeting meeting, StepState state) =>
        dosedCold is { Count: > 0 } && state is { Heated: false, Sealed: false, Step: { Action: StepAction.Stir or StepAction.Hold or StepAction.Cool or StepAction.Transfer, Materials.Count: 0 } } && state.TemperatureK <= RoomK
        && (IsAmong(meeting.A, dosedCold) || IsAmong(meeting.B, dosedCold) || IsAmong(meeting.C, dosedCold));

    private static bool IsAmong(IReadOnlyList<Content> contents, HashSet<string> materials)
    {
        for (var index = 0; index < contents.Count; index++)
        {
            if (contents[index].MaterialId is { } id && materials.Contains(id))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>False when one side has reacted away in an earlier, cold and dosed step.</summary>
    public bool StillHappens(Meeting meeting) =>
        !IsGone(meeting.A) && !IsGone(meeting.B) && !IsGone(meeting.C) && !MetInTheMaking(meeting);

    /// <summary>
    /// True the first time, and again only when matters have become worse: what was dosed into an open vessel does not become worse by standing there, no warmer, with
    /// nothing added, unless its row says that it may not stand.
    /// </summary>
    public bool IsNews(Meeting meeting, Severity severity, StepState state)
    {
        var key = meeting.Encounter.Key + "|" + string.Join('|', Keys(meeting));
        if (seen.TryGetValue(key, out var before) && (before.Severity <= severity || (Stands(state) && state.WorstTemperatureK <= before.WorstTemperatureK && meeting.Encounter.TimeUpToS is null)))
        {
            return false;
        }

        seen[key] = new Seen(severity, before is null ? state.WorstTemperatureK : Math.Max(before.WorstTemperatureK, state.WorstTemperatureK));
        return true;
    }

    private static List<string> Keys(Meeting meeting)
    {
        var keys = new List<string>(meeting.A.Count + meeting.B.Count + meeting.C.Count);
        foreach (var content in meeting.Everyone)
        {
            keys.Add(content.Substance.Key);
        }

        keys.Sort(StringComparer.Ordinal);
        return keys;
    }

    /// <summary>
    /// Takes down what has reacted in this step: the limiting partner of a fast reaction that was dosed in the cold into
    /// an open vessel. An activated sulfoxide has reacted only when the next reagent was dosed to it in the cold as well.
    /// </summary>
    public void Close(StepState state, IReadOnlyList<Meeting> meetings)
    {
        NoteProducts(state);
        if (state.Sealed || state.Step.OverS is not >= ControlNeeds.DosedFromS)
        {
            return;
        }

        var cold = state.TemperatureK <= ActivationUpToK;
        if (cold && activated.Count > 0)
        {
            reacted.UnionWith(activated);
            activated.Clear();
        }

        for (var index = 0; index < meetings.Count; index++)
        {
            var meeting = StillHappens(meetings[index]) ? UsedUp(meetings[index]) : null;
            if (meeting is not { A.Count: > 0, B.Count: > 0 } || !(TakesPart(meeting.A, state) || TakesPart(meeting.B, state)))
            {
                continue;
            }

            if (string.Equals(meeting.Encounter.B, Sulfoxides, StringComparison.Ordinal))
            {
                if (cold && IsLimiting(meeting))
                {
                    activated.UnionWith(Ids(meeting.A));
                }
            }
            else if (state.TemperatureK <= CoolUpToK && (Fast.Contains(meeting.Encounter.A, StringComparer.Ordinal) || IsAzoAdduct(meeting) || IsAcidOxidation(meeting, state)))
            {
                // of two in equal amounts the reagent is taken to be the one that is gone
                if (IsLimiting(meeting) || (IsAzoAdduct(meeting) && meeting.AEquivalents <= meeting.BEquivalents * (1 + WeighingShare)))
                {
                    reacted.UnionWith(Ids(meeting.A));
                }
                else if (meeting.Encounter.A is not CatalysedChloride && meeting.AEquivalents >= meeting.BEquivalents * (IsAcidOxidation(meeting, state) ? 1 : MostPerPartner))
                {
                    reacted.UnionWith(Ids(meeting.B));
                }
            }
        }
    }

    /// <summary>The meeting without its catalysts: nothing uses them up, and they use nothing up.</summary>
    private Meeting UsedUp(Meeting meeting) => catalysts.Count == 0 ? meeting : meeting with { A = WithoutCatalysts(meeting.A), B = WithoutCatalysts(meeting.B) };

    private IReadOnlyList<Content> WithoutCatalysts(IReadOnlyList<Content> side) => [.. side.Where(content => content.MaterialId is not { } id || !catalysts.Contains(id))];

    private static bool IsAzoAdduct(Meeting meeting) => meeting.Encounter is { A: AzoOxidants, B: "tertiary phosphines" };

    /// <summary>Chromium(VI) and permanganate in acid oxidise an alcohol as fast as they are mixed; without acid they take hours.</summary>
    private static bool IsAcidOxidation(Meeting meeting, StepState state) =>
        meeting.Encounter is { A: "permanganates and chromium(VI)", B: "alcohols" }
        && state.Contents.Any(static content => !content.Spent && FamilyTable.Default.Of(content.Substance).Any(static family => family is "mineral acids" or "concentrated sulfuric and superacids"));

    /// <summary>What a declared reaction makes from a reagent that reacts as fast as it is mixed has met the rest of it already: an alcohol made by a hydride is its alkoxide.</summary>
    private void NoteProducts(StepState state)
    {
        foreach (var reaction in state.Reactions)
        {
            foreach (var use in reaction.Consumes)
            {
                if (state.Contents.FirstOrDefault(content => string.Equals(content.MaterialId, use.MaterialId, StringComparison.Ordinal) && IsFast(content)) is not null)
                {
                    madeFrom.UnionWith(reaction.Produces.Select(made => (made.Substance.Key, use.MaterialId)));
                }
            }
        }
    }

    private static bool IsFast(Content content) => FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(static family => Fast.Contains(family, StringComparer.Ordinal));

    private bool MetInTheMaking(Meeting meeting) =>
        madeFrom.Count > 0 && meeting.A.Count > 0 && meeting.B.Count > 0 && meeting.C.Count == 0
        && meeting.A.All(one => one.MaterialId is { } id && meeting.B.All(other => madeFrom.Contains((other.Substance.Key, id))));

    private static bool Stands(StepState state) =>
        state is { Sealed: false, Step: { Action: StepAction.Stir or StepAction.Hold or StepAction.Cool or StepAction.Purge, Materials.Count: 0 } };

    private sealed record Seen(Severity Severity, double WorstTemperatureK);

    private static bool IsLimiting(Meeting meeting) => meeting.AEquivalents is { } a && meeting.BEquivalents is { } b && a <= b;

    private static bool TakesPart(IReadOnlyList<Content> side, StepState state) =>
        side.Any(content => state.Step.Materials.Any(use => string.Equals(use.MaterialId, content.MaterialId, StringComparison.Ordinal))
            || (state.MovedIn.Count > 0 && Brought(content, state)));

    private static bool Brought(Content content, StepState state) => state.MovedIn.Any(moved => string.Equals(moved.MaterialId, content.MaterialId, StringComparison.Ordinal));

    private static IEnumerable<string> Ids(IReadOnlyList<Content> side) => side.Select(static content => content.MaterialId).OfType<string>();

    private bool IsGone(IReadOnlyList<Content> side) => side.Count > 0 && side.All(content => content.MaterialId is { } id && reacted.Contains(id));
}
