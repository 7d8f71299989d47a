using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Routing;

/// <summary>A slot before it has a place in time.</summary>
/// <param name="Slot">Name, unique in the revision.</param>
/// <param name="Kind">Review or countersignature.</param>
/// <param name="Assignee">The named person.</param>
/// <param name="Hazards">What it was routed for.</param>
/// <param name="RequiredCompetences">Hazards in which the person must be competent when deciding.</param>
/// <param name="RequiredRole">Role needed when deciding.</param>
/// <param name="Reason">Why this person.</param>
public sealed record PlannedSlot(
    string Slot,
    SlotKind Kind,
    Standing Assignee,
    IReadOnlyList<Hazard> Hazards,
    IReadOnlyList<Hazard> RequiredCompetences,
    GroupRole RequiredRole,
    string Reason);

/// <summary>
/// Finds the persons who decide. By hazard, in the order of the rules: the named person, then the deputy, then the next rule; where
/// none of them may decide, any competent reviewer; where nobody is competent, a lead. Where no lead may decide either, or no second
/// person may countersign, the submission is refused and says whom to appoint. Nobody gets two slots of a revision, and whoever wrote or edited
/// the procedure is never chosen.
/// </summary>
public static class Router
{
    /// <param name="flagged">Findings that need a person.</param>
    /// <param name="hasDanger">True when any finding is a danger.</param>
    /// <param name="rules">Rules of the group.</param>
    /// <param name="people">Everybody in the group.</param>
    /// <param name="writers">Author and editors.</param>
    /// <param name="policy">Policy of the group.</param>
    /// <param name="askers">Who asked for the changes to the revision before this one: they see what became of them.</param>
    public static Result<IReadOnlyList<PlannedSlot>, Refusal> Route(
        IReadOnlyList<FindingRecord> flagged,
        bool hasDanger,
        IReadOnlyList<RoutingRule> rules,
        IReadOnlyList<Standing> people,
        IReadOnlySet<Guid> writers,
        GroupPolicy policy,
        IReadOnlyList<Guid>? askers = null)
    {
        Standing[] candidates = [.. people.Where(person => person.MayDecide && !writers.Contains(person.AccountId))];
        if (candidates.Length == 0)
        {
            return Refusal.Because(
                RefusalKind.Conflict,
                "Nobody in this group may decide on this procedure: every reviewer and lead wrote or edited it, or is an administrator. Ask for another reviewer to be appointed.");
        }

        Hazard?[] hazards = [.. flagged.Select(finding => finding.Hazard).Distinct().Order()];
        var choices = new List<Choice>();
        foreach (Hazard? hazard in hazards.DefaultIfEmpty(null))
        {
            if ((hazard is { } named ? Choose(named, rules, people, candidates, writers) : Fallback(null, candidates)) is not { } choice)
            {
                return NobodyFor(hazard, people, writers);
            }

            choices.Add(choice);
        }

        IGrouping<Guid, Choice>[] persons = [.. choices.GroupBy(choice => choice.Person.AccountId)];
        var slots = new List<PlannedSlot>();
        foreach (IGrouping<Guid, Choice> person in persons)
        {
            slots.Add(new PlannedSlot(
                persons.Length == 1 ? "review" : $"review-{slots.Count + 1}",
                SlotKind.Review,
                person.First().Person,
                [.. person.Where(choice => choice.Hazard is not null).Select(choice => choice.Hazard!.Value)],
                [.. person.Where(choice => choice is { Hazard: not null, Competent: true }).Select(choice => choice.Hazard!.Value)],
                person.All(choice => choice.Competent) ? GroupRole.Reviewer : GroupRole.Lead,
                string.Join(" ", person.Select(choice => choice.Reason).Distinct(StringComparer.Ordinal))));
        }

        if (hasDanger && policy.CountersignDangers)
        {
            Hazard[] dangers = [.. flagged.Where(finding => finding.Severity == Severity.Danger).Select(finding => finding.Hazard).Distinct().Order()];
            if (Countersignature(candidates, [.. slots.Select(slot => slot.Assignee.AccountId)], dangers) is not { } countersignature)
            {
                return NobodyToCountersign(slots, dangers);
            }

            slots.Add(countersignature);
        }

        slots.AddRange(BackTo(candidates.Where(person => slots.TrueForAll(slot => slot.Assignee.AccountId != person.AccountId)), askers ?? []));
        return Result<IReadOnlyList<PlannedSlot>, Refusal>.Ok(slots);
    }

    /// <summary>
    /// A revision with nothing flagged, after one that was sent back: whoever asked for the changes sees whether they were made or only the words
    /// changed; where none of them may decide any more, a lead does.
    /// </summary>
    public static Result<IReadOnlyList<PlannedSlot>, Refusal> RouteBack(IReadOnlyList<Standing> people, IReadOnlySet<Guid> writers, IReadOnlyList<Guid> askers)
    {
        Standing[] candidates = [.. people.Where(person => person.MayDecide && !writers.Contains(person.AccountId))];
        if (BackTo(candidates, askers).ToArray() is { Length: > 0 } slots)
        {
            return slots;
        }

        string gone = string.Join(" and ", people.Where(person => askers.Contains(person.AccountId)).Select(person => person.Name)) is { Length: > 0 } names ? names : "who asked for changes";
        return Array.Find(candidates, person => person.Is(GroupRole.Lead)) is { } lead
            ? new PlannedSlot[] { new("follow-up-1", SlotKind.Review, lead, [], [], GroupRole.Lead, $"{lead.Name} decides as group lead: changes were asked for before, and {gone} may not decide on this procedure any more.") }
            : Refusal.Because(
                RefusalKind.Conflict,
                $"Changes were asked for to the revision before, and nobody may see whether they were made: {gone} may not decide on this procedure any more, and neither may a lead. Ask an administrator to appoint another lead.");
    }

    private static IEnumerable<PlannedSlot> BackTo(IEnumerable<Standing> candidates, IReadOnlyList<Guid> askers) => candidates
        .Where(person => askers.Contains(person.AccountId))
        .Select((person, index) => new PlannedSlot(
            $"follow-up-{index + 1}", SlotKind.Review, person, [], [], person.Is(GroupRole.Reviewer) ? GroupRole.Reviewer : GroupRole.Lead,
            $"{person.Name} asked for changes to the revision before this one."));

    private static Choice? Choose(Hazard hazard, IReadOnlyList<RoutingRule> rules, IReadOnlyList<Standing> people, Standing[] candidates, IReadOnlySet<Guid> writers)
    {
        string? passedOver = null;
        foreach (RoutingRule rule in rules.Where(rule => rule.Hazard == hazard).OrderBy(rule => rule.Order))
        {
            if (candidates.FirstOrDefault(person => person.AccountId == rule.ReviewerId && person.IsCompetentIn(hazard)) is { } named)
            {
                return new Choice(hazard, named, true, passedOver is null
                    ? $"{named.Name} is the group's reviewer for {WireName.Of(hazard)}."
                    : $"{named.Name} is next in the group's rules for {WireName.Of(hazard)}: {passedOver}.");
            }

            passedOver ??= WhyNot(rule.ReviewerId, hazard, people, writers);
            if (rule.DeputyId is { } deputyId && candidates.FirstOrDefault(person => person.AccountId == deputyId && person.IsCompetentIn(hazard)) is { } deputy)
            {
                return new Choice(hazard, deputy, true, $"{deputy.Name} is the deputy for {WireName.Of(hazard)}: {passedOver}.");
            }
        }

        string because = passedOver ?? $"no rule names a person for {WireName.Of(hazard)}";
        return candidates.FirstOrDefault(person => person.Is(GroupRole.Reviewer) && person.IsCompetentIn(hazard)) is { } competent
            ? new Choice(hazard, competent, true, $"{competent.Name} is competent in {WireName.Of(hazard)}: {because}.")
            : Fallback(hazard, candidates);
    }

    private static Choice? Fallback(Hazard? hazard, Standing[] candidates)
    {
        string why = hazard is { } named
            ? $"nobody who may decide on this procedure is competent in {WireName.Of(named)}"
            : "the screening asks for a review without naming a hazard";
        return candidates.FirstOrDefault(person => person.Is(GroupRole.Lead)) is { } lead
            ? new Choice(hazard, lead, false, $"{lead.Name} decides as group lead: {why}.")
            : null;
    }

    private static Refusal NobodyFor(Hazard? hazard, IReadOnlyList<Standing> people, IReadOnlySet<Guid> writers)
    {
        Standing[] leads = [.. people.Where(person => person.Active && person.Is(GroupRole.Lead))];
        string noLead = leads.Length == 0
            ? "the group has no lead"
            : string.Join("; ", leads.Select(lead => writers.Contains(lead.AccountId) ? $"{lead.Name} wrote or edited this procedure" : $"{lead.Name} is an administrator"));
        return Refusal.Because(RefusalKind.Conflict, hazard is { } named
            ? $"Nobody may review this procedure for {WireName.Of(named)}: no reviewer who may decide on it is competent in {WireName.Of(named)}, and no lead may decide in their place ({noLead}). Ask the lead to appoint a reviewer who is competent in {WireName.Of(named)}, or an administrator to appoint another lead."
            : $"The screening asks for a review by a lead, and no lead may decide on this procedure ({noLead}). Ask an administrator to appoint another lead.");
    }

    private static PlannedSlot? Countersignature(Standing[] candidates, HashSet<Guid> reviewers, IReadOnlyList<Hazard> hazards)
    {
        const string Policy = "The group's policy asks for a countersignature of every danger.";
        if (candidates.FirstOrDefault(person => person.Is(GroupRole.Lead) && !reviewers.Contains(person.AccountId)) is { } lead)
        {
            return new PlannedSlot("countersign", SlotKind.Countersign, lead, hazards, [], GroupRole.Lead, $"{Policy} {lead.Name} countersigns as group lead.");
        }

        return candidates.FirstOrDefault(person => !reviewers.Contains(person.AccountId) && hazards.All(person.IsCompetentIn)) is { } second
            ? new PlannedSlot("countersign", SlotKind.Countersign, second, hazards, hazards, GroupRole.Reviewer,
                $"{Policy} No lead may give it (author, editor or already a reviewer here), so {second.Name} does as a second person, competent in them.")
            : null;
    }

    private static Refusal NobodyToCountersign(List<PlannedSlot> slots, Hazard[] dangers) => Refusal.Because(
        RefusalKind.Conflict,
        $"The group's policy asks for a countersignature of every danger, and nobody may give it beside {string.Join(" and ", slots.Select(slot => slot.Assignee.Name))}, who would review this procedure: "
        + $"nobody signs twice, and the author never. Appoint another lead, or a second reviewer who is competent in {string.Join(" and ", dangers.Select(hazard => WireName.Of(hazard)))}.");

    private static string WhyNot(Guid accountId, Hazard hazard, IReadOnlyList<Standing> people, IReadOnlySet<Guid> writers) =>
        people.FirstOrDefault(person => person.AccountId == accountId) switch
        {
            null => "the person named in the rules no longer belongs to the group",
            { } person when writers.Contains(accountId) => $"{person.Name} wrote or edited this procedure",
            { Active: false } person => $"{person.Name}'s account is deactivated",
            { MayDecide: false } person => $"{person.Name} is no reviewer or is an administrator",
            { } person => $"{person.Name} is not competent in {WireName.Of(hazard)}",
        };

    private sealed record Choice(Hazard? Hazard, Standing Person, bool Competent, string Reason);
}
