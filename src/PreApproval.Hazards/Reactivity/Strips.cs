using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// What newly meets what: for each step and vessel, each waste container and each extinguishing agent at hand. Hazards are the
/// findings of the report; what they do not tell is sorted into none known and not assessed.
/// </summary>
internal static class Strips
{
    private static readonly HashSet<string>.AlternateLookup<ReadOnlySpan<char>> Rows =
        EncounterTable.All.Select(static row => row.Key).ToHashSet(StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly PairPartner Air = new(EncounterTable.Air, [EncounterTable.Air]);

    private static readonly PairPartner Water = new("water", ["water"]);

    private static readonly PairPartner CarbonDioxide = new("carbon dioxide", ["carbon dioxide"]);

    public static IReadOnlyList<Strip> Of(ScreeningContext context, List<PlacedFinding> findings)
    {
        var told = findings.FindAll(static entry => entry.Finding.Code is "incompatibility.water-bath" || Rows.Contains(Row(entry.Finding))).ToArray();
        var strips = new List<Strip>(context.Walk.States.Count);
        var pairs = new StripPairs();
        strips.AddRange(InVessels(context, told, pairs));
        strips.AddRange(InWaste(context, told, pairs));
        strips.AddRange(UnderAgents(context, pairs));
        return strips;
    }

    private static IEnumerable<Strip> InVessels(ScreeningContext context, PlacedFinding[] told, StripPairs pairs)
    {
        var met = new MetPairs();
        var partners = new List<PairPartner>();
        var known = new List<PairPartner>();
        var last = new Dictionary<string, StepState>(StringComparer.Ordinal);
        foreach (var state in context.Walk.States)
        {
            var here = Here(told, state);
            pairs.Clear();
            // what already stands together does not meet anew
            if (!last.TryGetValue(state.Vessel.Id, out var before) || !ReferenceEquals(before.Contents, state.Contents) || !ReferenceEquals(before.Headspace, state.Headspace))
            {
                Gather(partners, state, known);
                AddNew(pairs, state, partners, met, here);
            }

            last[state.Vessel.Id] = state;
            if (here.Length > 0 || !pairs.IsEmpty)
            {
                yield return new Strip { Place = StripPlace.Vessel, Step = state.Step.Id, Where = state.Vessel.Id, Findings = Ids(here), NoneKnown = pairs.NoneKnown(), NotAssessed = pairs.NotAssessed() };
            }
        }
    }

    private static void AddNew(StripPairs pairs, StepState state, List<PairPartner> partners, MetPairs met, PlacedFinding[] here)
    {
        for (var i = 0; i < partners.Count; i++)
        {
            for (var j = i + 1; j < partners.Count; j++)
            {
                if (met.Add(state.VesselIndex, partners[i].Name, partners[j].Name) && RowsBetween(state.Meetings, partners[i].Name, partners[j].Name, here) is { IsTold: false } rows)
                {
                    pairs.Add(partners[i], partners[j], rows.Speaks, state.Contents);
                }
            }
        }
    }

    /// <summary>Of the findings, those of a step in its vessel.</summary>
    private static PlacedFinding[] Here(PlacedFinding[] told, StepState state)
    {
        List<PlacedFinding>? here = null;
        foreach (var entry in told)
        {
            if (string.Equals(entry.Finding.Vessel, state.Vessel.Id, StringComparison.Ordinal) && entry.Finding.Steps.Contains(state.Step.Id, StringComparer.Ordinal))
            {
                (here ??= []).Add(entry);
            }
        }

        return here is null ? [] : [.. here];
    }

    private static IEnumerable<Strip> InWaste(ScreeningContext context, PlacedFinding[] told, StripPairs pairs)
    {
        foreach (var (container, contents) in ReactivityScreen.WasteContainers(context))
        {
            pairs.Clear();
            var meetings = Meeting.Among(contents);
            var here = Array.FindAll(told, entry => entry.Finding.Vessel is null && meetings.Any(meeting => Tells(entry.Finding, meeting) && ReactivityScreen.Ids(meeting.Everyone).SequenceEqual(entry.Finding.Materials, StringComparer.Ordinal)));
            var partners = new List<PairPartner>();
            foreach (var content in contents)
            {
                Join(partners, content, content.MassFraction);
            }

            for (var i = 0; i < partners.Count; i++)
            {
                for (var j = i + 1; j < partners.Count; j++)
                {
                    if (!meetings.Any(meeting => Meets(meeting, partners[i].Name, partners[j].Name)))
                    {
                        pairs.Add(partners[i], partners[j], false, contents);
                    }
                }
            }

            var strip = new Strip { Place = StripPlace.Waste, Where = container, Findings = Ids(here), NoneKnown = pairs.NoneKnown(), NotAssessed = pairs.NotAssessed() };
            if (!strip.IsEmpty)
            {
                yield return strip;
            }
        }
    }

    private static IEnumerable<Strip> UnderAgents(ScreeningContext context, StripPairs pairs)
    {
        var listed = context.Plan.FireResponse?.Agents ?? [];
        var partners = listed.Count == 0 ? [] : Everything(context.Walk);
        foreach (var agent in listed)
        {
            pairs.Clear();
            var hazards = new List<StripHazard>();
            var acting = Acting(agent);
            var named = acting is null ? null : acting with { Name = ExtinguishingAgents.Name(agent) };
            foreach (var partner in partners)
            {
                if (ExtinguishingAgents.WorstBan(agent, partner.Families) is { } worst)
                {
                    hazards.Add(new StripHazard(worst.Severity, $"{Wording.Capital(partner.Name)} under {ExtinguishingAgents.Name(agent)}: {worst.Why}.", References.Full(worst.Sources)));
                }
                else if (acting is not null && PairAssessment.Judge(partner, acting, static row => row is { C: null, AboveK: null }) is var answer)
                {
                    if (answer.Encounters.Count > 0)
                    {
                        var row = answer.Encounters[0];
                        hazards.Add(new StripHazard(row.Severity, $"{Wording.Capital(partner.Name)} under {ExtinguishingAgents.Name(agent)}: {row.Reason}.", References.Full(row.Sources)));
                    }
                    else if (!(IsCovered(partner.Families, acting.Families) && partner.Families.Count == acting.Families.Count))
                    {
                        pairs.Add(partner, named!, false, []);
                    }
                }
            }

            var strip = new Strip { Place = StripPlace.Agent, Where = ExtinguishingAgents.Name(agent), Hazards = [.. hazards.OrderBy(static hazard => hazard.Severity)], NoneKnown = pairs.NoneKnown(), NotAssessed = pairs.NotAssessed() };
            if (!strip.IsEmpty)
            {
                yield return strip;
            }
        }
    }

    /// <summary>What of an agent can react; null for powders, sand and blankets, of which the table of bans says all that is known.</summary>
    private static PairPartner? Acting(Agent agent) => agent switch
    {
        Agent.Water or Agent.Foam or Agent.WetChemical => Water,
        Agent.CarbonDioxide => CarbonDioxide,
        Agent.DryPowder or Agent.ClassDPowder or Agent.DrySand or Agent.FireBlanket => null,
    };

    /// <summary>Fills the list with what is in the vessel at a step and the gas over it. The same partner at another step is the same object, taken from those known.</summary>
    private static void Gather(List<PairPartner> partners, StepState state, List<PairPartner> known)
    {
        partners.Clear();
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index] is { Spent: false, Mol: null or > 0 } content)
            {
                Join(partners, content, Meeting.Strength(content, state), known);
            }
        }

        var over = state.Headspace switch
        {
            Headspace.Air => Air,
            Headspace.Gas { Substance: var gas } => new PairPartner(gas.Name, FamilyTable.Default.Of(gas)),
            _ => null,
        };
        if (over is not null && partners.Count > 0 && !partners.Exists(partner => string.Equals(partner.Name, over.Name, StringComparison.Ordinal)))
        {
            partners.Add(over);
        }
    }

    /// <summary>What the vessels ever hold.</summary>
    private static List<PairPartner> Everything(WalkResult walk)
    {
        var partners = new List<PairPartner>();
        foreach (var state in walk.States)
        {
            for (var index = 0; index < state.Contents.Count; index++)
            {
                if (!state.Contents[index].Spent)
                {
                    Join(partners, state.Contents[index], state.Contents[index].MassFraction);
                }
            }
        }

        return partners;
    }

    /// <summary>One substance at two strengths counts with the families of both.</summary>
    private static void Join(List<PairPartner> partners, Content content, double? fraction, List<PairPartner>? among = null)
    {
        var (name, families) = (content.Substance.Name, FamilyTable.Default.Of(content.Substance, fraction));
        for (var index = 0; index < partners.Count; index++)
        {
            if (string.Equals(partners[index].Name, name, StringComparison.Ordinal))
            {
                var known = partners[index].Families;
                partners[index] = IsCovered(families, known) ? partners[index] : new PairPartner(name, [.. known.Union(families, StringComparer.Ordinal)]);
                return;
            }
        }

        partners.Add(Shared(name, families, among));
    }

    private static PairPartner Shared(string name, IReadOnlyList<string> families, List<PairPartner>? among)
    {
        for (var index = 0; index < among?.Count; index++)
        {
            if (string.Equals(among[index].Name, name, StringComparison.Ordinal) && ReferenceEquals(among[index].Families, families))
            {
                return among[index];
            }
        }

        var partner = new PairPartner(name, families);
        among?.Add(partner);
        return partner;
    }

    private static bool IsCovered(IReadOnlyList<string> families, IReadOnlyList<string> by)
    {
        for (var index = 0; index < families.Count; index++)
        {
            if (!by.Contains(families[index], StringComparer.Ordinal))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether a row speaks of the two, and whether a finding here tells it.</summary>
    private static (bool Speaks, bool IsTold) RowsBetween(IReadOnlyList<Meeting> meetings, string one, string other, PlacedFinding[] here)
    {
        var speaks = false;
        for (var index = 0; index < meetings.Count; index++)
        {
            var meeting = meetings[index];
            if (Meets(meeting, one, other))
            {
                speaks = true;
                foreach (var (finding, _) in here)
                {
                    if (Tells(finding, meeting))
                    {
                        return (true, true);
                    }
                }
            }
        }

        return (speaks, false);
    }

    private static bool Meets(Meeting meeting, string one, string other) =>
        (Has(meeting.A, meeting.Encounter.A, one) && Has(meeting.B, meeting.Encounter.B, other)) || (Has(meeting.A, meeting.Encounter.A, other) && Has(meeting.B, meeting.Encounter.B, one));

    private static bool Has(IReadOnlyList<Content> side, string family, string name) =>
        side.Count == 0 ? string.Equals(family, name, StringComparison.Ordinal) : IsAmong(side, name);

    private static bool IsAmong(IReadOnlyList<Content> side, string name)
    {
        for (var index = 0; index < side.Count; index++)
        {
            if (string.Equals(side[index].Substance.Name, name, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>True for a finding whose code names the row.</summary>
    private static bool Tells(Finding finding, Meeting meeting) => Row(finding).SequenceEqual(meeting.Encounter.Key);

    private static ReadOnlySpan<char> Row(Finding finding) => finding.Code.AsSpan(finding.Code.IndexOf('.', StringComparison.Ordinal) + 1);

    private static string[] Ids(PlacedFinding[] findings) => Array.ConvertAll(findings, static entry => entry.Finding.Id);
}
