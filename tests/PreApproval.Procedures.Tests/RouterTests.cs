using CsCheck;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Tests;

public sealed class RouterTests
{
    private static readonly Standing Mia = Person("Mia", [GroupRole.Member]);
    private static readonly Standing Rosa = Person("Rosa", [GroupRole.Reviewer], Hazard.Pressure);
    private static readonly Standing Rolf = Person("Rolf", [GroupRole.Reviewer], Hazard.Pressure, Hazard.Fire);
    private static readonly Standing Lena = Person("Lena", [GroupRole.Lead]);
    private static readonly Standing Lars = Person("Lars", [GroupRole.Lead]);
    private static readonly Standing Adam = Person("Adam", [GroupRole.Administrator, GroupRole.Reviewer], Hazard.Pressure, Hazard.Fire);
    private static readonly RoutingRule[] Rules = [new(1, Hazard.Pressure, Rosa.AccountId, Rolf.AccountId), new(2, Hazard.Fire, Rolf.AccountId, null)];

    [Fact]
    public void Route_OneHazard_GoesToTheNamedPerson()
    {
        PlannedSlot slot = Assert.Single(Route([Hazard.Pressure], Mia));
        Assert.Equal(("review", Rosa.AccountId), (slot.Slot, slot.Assignee.AccountId));
        Assert.Equal([Hazard.Pressure], slot.RequiredCompetences);
        Assert.Contains("reviewer for pressure", slot.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Route_SeveralHazards_MakeOneSlotPerPerson()
    {
        IReadOnlyList<PlannedSlot> slots = Route([Hazard.Fire, Hazard.Pressure, Hazard.Fire], Mia);
        Assert.Equal([("review-1", Rosa.AccountId), ("review-2", Rolf.AccountId)], slots.Select(slot => (slot.Slot, slot.Assignee.AccountId)));
    }

    [Fact]
    public void Route_TwoHazardsOfOnePerson_MakeOneSlot()
    {
        PlannedSlot slot = Assert.Single(Route([Hazard.Fire, Hazard.Pressure], Rosa));
        Assert.Equal(Rolf.AccountId, slot.Assignee.AccountId);
        Assert.Equal([Hazard.Pressure, Hazard.Fire], slot.Hazards);
    }

    [Fact]
    public void Route_NamedPersonIsTheAuthor_GoesToTheDeputyAndSaysSo()
    {
        PlannedSlot slot = Assert.Single(Route([Hazard.Pressure], Rosa));
        Assert.Equal(Rolf.AccountId, slot.Assignee.AccountId);
        Assert.Contains("deputy for pressure: Rosa wrote or edited", slot.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Route_NamedPersonDeactivated_GoesToTheDeputy()
    {
        PlannedSlot slot = Assert.Single(Route([Hazard.Pressure], Mia, [Mia, Rosa with { Active = false }, Rolf, Lena]));
        Assert.Equal(Rolf.AccountId, slot.Assignee.AccountId);
    }

    [Fact]
    public void Route_NobodyCompetent_GoesToTheLeadAndSaysSo()
    {
        PlannedSlot slot = Assert.Single(Route([Hazard.Energetic], Mia));
        Assert.Equal(Lena.AccountId, slot.Assignee.AccountId);
        Assert.Empty(slot.RequiredCompetences);
        Assert.Contains("nobody who may decide on this procedure is competent in energetic", slot.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Route_NobodyCompetent_NeedsALeadWhenDeciding() => Assert.Equal(GroupRole.Lead, Assert.Single(Route([Hazard.Energetic], Mia)).RequiredRole);

    [Fact]
    public void Route_LeadIsTheAuthorAndNobodyCompetent_IsRefusedAndSaysWhomToAppoint()
    {
        Refusal refusal = Refused([Hazard.Energetic], Lena);
        Assert.Contains("competent in energetic", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Lena wrote or edited this procedure", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("appoint", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Route_NobodyCompetentAndNoLead_IsRefused() =>
        Assert.Contains("the group has no lead", Refused([Hazard.Energetic], Mia, [Mia, Rosa, Rolf]).Message, StringComparison.Ordinal);

    [Fact]
    public void Route_OneHazardOfTwoWithoutCompetentPersonOrLead_IsRefused() => Refused([Hazard.Pressure, Hazard.Energetic], Lena);

    [Fact]
    public void Route_WhoAskedForChanges_GetsTheNextRevisionToo()
    {
        IReadOnlyList<PlannedSlot>? slots = Router.Route(Findings([Hazard.Fire]), false, Rules, [Mia, Rosa, Rolf, Lena], new HashSet<Guid> { Mia.AccountId }, GroupPolicy.Default, [Rosa.AccountId]).Value;
        Assert.Equal([("review", Rolf.AccountId), ("follow-up-1", Rosa.AccountId)], slots?.Select(slot => (slot.Slot, slot.Assignee.AccountId)));
        Assert.Contains("asked for changes", slots![1].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Route_WhoAskedForChangesReviewsAnyway_GetsOneSlot()
    {
        IReadOnlyList<PlannedSlot>? slots = Router.Route(Findings([Hazard.Pressure]), false, Rules, [Mia, Rosa, Rolf, Lena], new HashSet<Guid> { Mia.AccountId }, GroupPolicy.Default, [Rosa.AccountId]).Value;
        Assert.Equal(Rosa.AccountId, Assert.Single(slots!).Assignee.AccountId);
    }

    [Fact]
    public void RouteBack_WhoAskedMayNotDecideAnyMore_GoesToTheLeadAndSaysSo()
    {
        IReadOnlyList<PlannedSlot>? slots = Router.RouteBack([Mia, Rosa with { Active = false }, Rolf, Lena], new HashSet<Guid> { Mia.AccountId }, [Rosa.AccountId]).Value;
        PlannedSlot slot = Assert.Single(slots!);
        Assert.Equal((Lena.AccountId, GroupRole.Lead), (slot.Assignee.AccountId, slot.RequiredRole));
        Assert.Contains("Rosa may not decide", slot.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void RouteBack_NobodyWhoMayDecide_IsRefusedAndSaysWhomToAppoint()
    {
        Refusal? refusal = Router.RouteBack([Mia, Rosa with { Active = false }, Rolf, Lena], new HashSet<Guid> { Mia.AccountId, Lena.AccountId }, [Rosa.AccountId]).Error;
        Assert.Equal(RefusalKind.Conflict, refusal?.Kind);
        Assert.Contains("appoint another lead", refusal!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Route_Administrator_IsNeverChosen()
    {
        PlannedSlot slot = Assert.Single(Route([Hazard.Fire], Mia, [Mia, Adam, Lena]));
        Assert.Equal(Lena.AccountId, slot.Assignee.AccountId);
    }

    [Fact]
    public void Route_OnlyTheAuthorMayDecide_IsRefused()
    {
        Result<IReadOnlyList<PlannedSlot>, Refusal> result = Router.Route(Findings([Hazard.Fire]), false, Rules, [Mia, Lena, Adam], new HashSet<Guid> { Lena.AccountId }, GroupPolicy.Default);
        Assert.Equal(RefusalKind.Conflict, result.Error?.Kind);
    }

    [Fact]
    public void Route_Danger_IsCountersignedByALeadAsPolicySays()
    {
        IReadOnlyList<PlannedSlot> slots = Route([Hazard.Pressure], Mia, danger: true);
        Assert.Equal([("review", Rosa.AccountId, GroupRole.Reviewer), ("countersign", Lena.AccountId, GroupRole.Lead)], slots.Select(slot => (slot.Slot, slot.Assignee.AccountId, slot.RequiredRole)));
        Assert.Single(Route([Hazard.Pressure], Mia, danger: true, policy: GroupPolicy.Default with { CountersignDangers = false }));
    }

    [Fact]
    public void Route_DangerOfTheLead_IsCountersignedByTheOtherLead()
    {
        IReadOnlyList<PlannedSlot> slots = Route([Hazard.Pressure], Lena, [Mia, Rosa, Rolf, Lena, Lars], danger: true);
        Assert.Equal(Lars.AccountId, slots[1].Assignee.AccountId);
    }

    [Fact]
    public void Route_DangerOfTheOnlyLead_IsCountersignedByASecondPersonAndSaysSo()
    {
        IReadOnlyList<PlannedSlot> slots = Route([Hazard.Pressure], Lena, danger: true);
        Assert.Equal((Rosa.AccountId, Rolf.AccountId), (slots[0].Assignee.AccountId, slots[1].Assignee.AccountId));
        Assert.Contains("second person", slots[1].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Route_DangerAndOnlyOneOtherPerson_IsRefusedAndSaysWhomToAppoint()
    {
        Refusal refusal = Refused([Hazard.Pressure], Lena, [Mia, Rosa, Lena], danger: true);
        Assert.Contains("countersignature", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Rosa", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("another lead, or a second reviewer who is competent in pressure", refusal.Message, StringComparison.Ordinal);
        Assert.Single(Route([Hazard.Pressure], Lena, [Mia, Rosa, Lena], danger: true, policy: GroupPolicy.Default with { CountersignDangers = false }));
    }

    [Fact]
    public void Route_DangerThatTheLeadReviewsAsFallback_IsNotCountersignedByAnIncompetentReviewer() =>
        Refused([Hazard.Energetic], Mia, [Mia, Rosa, Lena], danger: true);

    [Fact]
    public void Route_SecondPersonWhoIsNoLead_MustBeCompetentWhenDeciding()
    {
        PlannedSlot countersign = Route([Hazard.Pressure], Lena, danger: true)[1];
        Assert.Equal([Hazard.Pressure], countersign.RequiredCompetences);
        Refused([Hazard.Pressure], Lena, [Mia, Rosa, Rolf with { Competences = [] }, Lena], danger: true);
    }

    [Fact]
    public void no_person_gets_two_slots_and_reviewers_are_competent()
    {
        Standing[] all = [Mia, Rosa, Rolf, Lena, Lars, Adam];
        Gen.Select(Gen.Enum<Hazard>().Array[1, 4], Gen.Int[0, 63], Gen.Int[0, 5], Gen.Bool).Sample((hazards, present, author, danger) =>
        {
            Standing[] people = [.. all.Where((_, i) => (present >> i & 1) == 1)];
            Result<IReadOnlyList<PlannedSlot>, Refusal> result = Router.Route(
                Findings(hazards, danger), danger, Rules, people, new HashSet<Guid> { all[author].AccountId }, GroupPolicy.Default);
            return !result.IsOk || (result.Value.Select(slot => slot.Assignee.AccountId).Distinct().Count() == result.Value.Count
                && result.Value.All(slot => slot.Assignee.AccountId != all[author].AccountId)
                && result.Value.All(slot => slot.Assignee.Is(GroupRole.Lead) || slot.Hazards.All(slot.Assignee.IsCompetentIn))
                && danger == result.Value.Any(slot => slot.Kind == SlotKind.Countersign));
        });
    }

    private static Refusal Refused(Hazard[] hazards, Standing author, Standing[]? people = null, bool danger = false)
    {
        Result<IReadOnlyList<PlannedSlot>, Refusal> result = Router.Route(
            Findings(hazards, danger), danger, Rules, people ?? [Mia, Rosa, Rolf, Lena, Adam], new HashSet<Guid> { author.AccountId }, GroupPolicy.Default);
        Assert.False(result.IsOk);
        Assert.Equal(RefusalKind.Conflict, result.Error.Kind);
        return result.Error;
    }

    private static IReadOnlyList<PlannedSlot> Route(Hazard[] hazards, Standing author, Standing[]? people = null, bool danger = false, GroupPolicy? policy = null)
    {
        Result<IReadOnlyList<PlannedSlot>, Refusal> result = Router.Route(
            Findings(hazards, danger), danger, Rules, people ?? [Mia, Rosa, Rolf, Lena, Adam], new HashSet<Guid> { author.AccountId }, policy ?? GroupPolicy.Default);
        Assert.True(result.IsOk, result.Error?.Message);
        return result.Value;
    }

    private static FindingRecord[] Findings(Hazard[] hazards, bool danger = false) =>
    [
        .. hazards.Select((hazard, ordinal) => new FindingRecord
        {
            ProcedureId = Guid.Empty,
            Revision = 1,
            Ordinal = ordinal,
            GroupId = Guid.Empty,
            FindingId = $"{hazard}",
            Hazard = hazard,
            Severity = danger ? Severity.Danger : Severity.Warning,
            LeavesCheckUndone = false,
        }),
    ];

    private static Standing Person(string name, GroupRole[] roles, params Hazard[] competences) => new()
    {
        AccountId = Guid.CreateVersion7(),
        UserName = name,
        Name = name,
        Active = true,
        Roles = [.. roles.Select(role => new Grant<GroupRole>(role, Guid.Empty, DateTimeOffset.UnixEpoch))],
        Competences = [.. competences.Select(hazard => new Grant<Hazard>(hazard, Guid.Empty, DateTimeOffset.UnixEpoch))],
    };
}
