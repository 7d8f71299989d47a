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
    private static readonly HashSet<string> Rows = [.. EncounterTable.All.Select(static row => row.Key)];

    public static IReadOnlyList<Strip> Of(ScreeningContext context, IReadOnlyList<Finding> findings)
    {
        var told = findings.Where(static finding => finding.Code is "incompatibility.water-bath" || Rows.Contains(Key(finding))).ToArray();
        return [.. InVessels(context, told), .. InWaste(context, told), .. UnderAgents(context)];
    }

    private static IEnumerable<Strip> InVessels(ScreeningContext context, Finding[] told)
    {
        var met = new Dictionary<string, HashSet<(string, string)>>(StringComparer.Ordinal);
        foreach (var state in context.Walk.States)
        {
            if (!met.TryGetValue(state.Vessel.Id, out var seen))
            {
                met[state.Vessel.Id] = seen = [];
            }

            var here = told.Where(finding => string.Equals(finding.Vessel, state.Vessel.Id, StringComparison.Ordinal) && finding.Steps.Contains(state.Step.Id, StringComparer.Ordinal)).ToArray();
            var pairs = new StripPairs();
            var partners = Partners(state);
            IReadOnlyList<Meeting>? meetings = null;
            for (var i = 0; i < partners.Count; i++)
            {
                for (var j = i + 1; j < partners.Count; j++)
                {
                    if (!seen.Add(Ordered(partners[i].Name, partners[j].Name)))
                    {
                        continue;
                    }

                    meetings ??= Meeting.At(state);
                    var rows = meetings.Where(meeting => Meets(meeting, partners[i].Name, partners[j].Name)).ToArray();
                    if (!Array.Exists(rows, meeting => Array.Exists(here, finding => string.Equals(Key(finding), meeting.Encounter.Key, StringComparison.Ordinal))))
                    {
                        pairs.Add(partners[i], partners[j], rows.Length > 0, state.Contents);
                    }
                }
            }

            var strip = new Strip { Place = StripPlace.Vessel, Step = state.Step.Id, Where = state.Vessel.Id, Findings = Ids(here), NoneKnown = pairs.NoneKnown, NotAssessed = pairs.NotAssessed };
            if (!strip.IsEmpty)
            {
                yield return strip;
            }
        }
    }

    private static IEnumerable<Strip> InWaste(ScreeningContext context, Finding[] told)
    {
        foreach (var (container, contents) in ReactivityScreen.WasteContainers(context))
        {
            var meetings = Meeting.Among(contents);
            var here = told.Where(finding => finding.Vessel is null && meetings.Any(meeting => string.Equals(Key(finding), meeting.Encounter.Key, StringComparison.Ordinal) && ReactivityScreen.Ids(meeting.Everyone).SequenceEqual(finding.Materials, StringComparer.Ordinal))).ToArray();
            var pairs = new StripPairs();
            var partners = Distinct(contents.Select(static content => Partner(content, content.MassFraction)));
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

            var strip = new Strip { Place = StripPlace.Waste, Where = container, Findings = Ids(here), NoneKnown = pairs.NoneKnown, NotAssessed = pairs.NotAssessed };
            if (!strip.IsEmpty)
            {
                yield return strip;
            }
        }
    }

    private static IEnumerable<Strip> UnderAgents(ScreeningContext context)
    {
        var partners = Distinct(context.Walk.States.SelectMany(static state => state.Contents).Where(static content => !content.Spent).Select(static content => Partner(content, content.MassFraction)));
        foreach (var agent in context.Plan.FireResponse?.Agents ?? [])
        {
            var hazards = new List<StripHazard>();
            var pairs = new StripPairs();
            foreach (var partner in partners)
            {
                var worst = ExtinguishingAgents.Bans.Where(ban => ban.Agent == agent && partner.Families.Contains(ban.Family, StringComparer.Ordinal)).MinBy(static ban => ban.Severity);
                if (worst is not null)
                {
                    hazards.Add(new StripHazard(worst.Severity, $"{Wording.Capital(partner.Name)} under {ExtinguishingAgents.Name(agent)}: {worst.Why}.", References.Full(worst.Sources)));
                }
                else if (Acting(agent) is { } acting && PairAssessment.Judge(partner, acting, static row => row is { C: null, AboveK: null }) is var answer)
                {
                    if (answer.Encounters.Count > 0)
                    {
                        var row = answer.Encounters[0];
                        hazards.Add(new StripHazard(row.Severity, $"{Wording.Capital(partner.Name)} under {ExtinguishingAgents.Name(agent)}: {row.Reason}.", References.Full(row.Sources)));
                    }
                    else if (!partner.Families.SequenceEqual(acting.Families, StringComparer.Ordinal))
                    {
                        pairs.Add(partner, new PairPartner(ExtinguishingAgents.Name(agent), acting.Families), false, []);
                    }
                }
            }

            var strip = new Strip { Place = StripPlace.Agent, Where = ExtinguishingAgents.Name(agent), Hazards = [.. hazards.OrderBy(static hazard => hazard.Severity)], NoneKnown = pairs.NoneKnown, NotAssessed = pairs.NotAssessed };
            if (!strip.IsEmpty)
            {
                yield return strip;
            }
        }
    }

    /// <summary>What of an agent can react; null for powders, sand and blankets, of which the table of bans says all that is known.</summary>
    private static PairPartner? Acting(Agent agent) => agent switch
    {
        Agent.Water or Agent.Foam or Agent.WetChemical => new PairPartner("water", ["water"]),
        Agent.CarbonDioxide => new PairPartner("carbon dioxide", ["carbon dioxide"]),
        Agent.DryPowder or Agent.ClassDPowder or Agent.DrySand or Agent.FireBlanket => null,
    };

    private static List<PairPartner> Partners(StepState state)
    {
        var partners = Distinct(state.Contents.Where(static content => !content.Spent && content.Mol is null or > 0).Select(content => Partner(content, Meeting.Strength(content, state))));
        var over = state.Headspace switch
        {
            Headspace.Air => new PairPartner(EncounterTable.Air, [EncounterTable.Air]),
            Headspace.Gas { Substance: var gas } => new PairPartner(gas.Name, FamilyTable.Default.Of(gas)),
            _ => null,
        };
        if (over is not null && partners.Count > 0 && !partners.Exists(partner => string.Equals(partner.Name, over.Name, StringComparison.Ordinal)))
        {
            partners.Add(over);
        }

        return partners;
    }

    private static PairPartner Partner(Content content, double? fraction) => new(content.Substance.Name, FamilyTable.Default.Of(content.Substance, fraction));

    /// <summary>One substance at two strengths counts with the families of both.</summary>
    private static List<PairPartner> Distinct(IEnumerable<PairPartner> partners)
    {
        var distinct = new List<PairPartner>();
        foreach (var partner in partners)
        {
            var index = distinct.FindIndex(known => string.Equals(known.Name, partner.Name, StringComparison.Ordinal));
            if (index < 0)
            {
                distinct.Add(partner);
            }
            else if (partner.Families.Except(distinct[index].Families, StringComparer.Ordinal).Any())
            {
                distinct[index] = partner with { Families = [.. distinct[index].Families.Union(partner.Families, StringComparer.Ordinal)] };
            }
        }

        return distinct;
    }

    private static bool Meets(Meeting meeting, string one, string other) =>
        (Has(meeting.A, meeting.Encounter.A, one) && Has(meeting.B, meeting.Encounter.B, other)) || (Has(meeting.A, meeting.Encounter.A, other) && Has(meeting.B, meeting.Encounter.B, one));

    private static bool Has(IReadOnlyList<Content> side, string family, string name) =>
        side.Count == 0 ? string.Equals(family, name, StringComparison.Ordinal) : side.Any(content => string.Equals(content.Substance.Name, name, StringComparison.Ordinal));

    private static (string First, string Second) Ordered(string one, string other) => string.CompareOrdinal(one, other) <= 0 ? (one, other) : (other, one);

    private static string Key(Finding finding) => finding.Code[(finding.Code.IndexOf('.', StringComparison.Ordinal) + 1)..];

    private static string[] Ids(Finding[] findings) => Array.ConvertAll(findings, static finding => finding.Id);
}
