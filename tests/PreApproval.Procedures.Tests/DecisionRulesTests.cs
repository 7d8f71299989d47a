using CsCheck;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Tests;

/// <summary>Who may sign: role × state × action × relation, and what a signature needs.</summary>
public sealed class DecisionRulesTests
{
    private static readonly DateTimeOffset Now = new(2031, 3, 4, 9, 0, 0, TimeSpan.Zero);
    private static readonly Guid Author = Guid.CreateVersion7();
    private static readonly Guid Editor = Guid.CreateVersion7();
    private static readonly Guid Signer = Guid.CreateVersion7();
    private static readonly Guid Somebody = Guid.CreateVersion7();
    private static readonly Guid ProcedureId = Guid.CreateVersion7();
    private static readonly Guid GroupId = Guid.CreateVersion7();

    public enum Relation
    {
        Author,
        Editor,
        Assignee,
        NotAssigned,

        /// <summary>Has a slot, and signed another slot of the same revision.</summary>
        SignedAnother,
    }

    /// <summary>
    /// All cells. Allowed are only these: the assignee who is reviewer or lead and no administrator, while the revision is in review. Every other
    /// cell names its refusal, in this order: not of the group, author or editor, administrator, no deciding role, state, not assigned or signer of another slot.
    /// </summary>
    [Fact]
    public void Check_EveryRoleStateActionAndRelation_IsAsTheRulesSay()
    {
        int cells = 0;
        int allowed = 0;
        foreach (GroupRole[] roles in RoleSets())
        {
            foreach (ProcedureState state in Enum.GetValues<ProcedureState>())
            {
                foreach (DecisionKind kind in Enum.GetValues<DecisionKind>())
                {
                    foreach (Relation relation in Enum.GetValues<Relation>())
                    {
                        RefusalKind? expected =
                            roles.Length == 0 ? RefusalKind.NotFound
                            : relation is Relation.Author or Relation.Editor ? RefusalKind.Forbidden
                            : roles.Contains(GroupRole.Administrator) ? RefusalKind.Forbidden
                            : !roles.Contains(GroupRole.Reviewer) && !roles.Contains(GroupRole.Lead) ? RefusalKind.Forbidden
                            : state != ProcedureState.InReview ? RefusalKind.Conflict
                            : relation is Relation.NotAssigned or Relation.SignedAnother ? RefusalKind.Forbidden
                            : null;
                        Result<SlotRecord, Refusal> result = DecisionRules.Check(Facts(roles, state, relation), Request(kind));
                        RefusalKind? actual = result.IsOk ? null : result.Error.Kind;
                        Assert.True(expected == actual, $"{string.Join('+', roles)} {state} {kind} {relation}: expected {expected}, got {actual}");
                        cells++;
                        allowed += result.IsOk ? 1 : 0;
                    }
                }
            }
        }

        // 32 sets of roles × 10 states × 3 decisions × 5 relations; allowed: 3 of 4 choices of reviewer and lead × member or not × auditor or not × 3 decisions.
        Assert.Equal(32 * 10 * 3 * 5, cells);
        Assert.Equal(3 * 2 * 2 * 3, allowed);
    }

    [Fact]
    public void Check_Deactivated_IsRefused() =>
        Refused(RefusalKind.Forbidden, Facts() with { Signer = Standing([GroupRole.Reviewer]) with { Active = false } });

    [Fact]
    public void Check_CompetenceTakenAway_IsRefused() =>
        Refused(RefusalKind.Forbidden, Facts() with { Signer = Standing([GroupRole.Reviewer]) with { Competences = [] } });

    [Fact]
    public void Check_FallbackSlotWithoutRequiredCompetence_NeedsNone()
    {
        DecisionCase facts = Facts() with { Signer = Standing([GroupRole.Lead]) with { Competences = [] }, Slots = [Slot() with { RequiredCompetences = [] }] };
        Assert.True(DecisionRules.Check(facts, Request(DecisionKind.Approve)).IsOk);
    }

    [Theory]
    [InlineData(0, true)]
    [InlineData(86_399, true)]
    [InlineData(86_400, false)]
    public void Check_RoleGivenToOneself_CountsAfter24Hours(int secondsAgo, bool refused)
    {
        Standing signer = Standing([GroupRole.Reviewer]) with { Roles = [new Grant<GroupRole>(GroupRole.Reviewer, Signer, Now.AddSeconds(-secondsAgo))] };
        Assert.Equal(!refused, DecisionRules.Check(Facts() with { Signer = signer }, Request(DecisionKind.Approve)).IsOk);
    }

    [Fact]
    public void Check_CompetenceGivenToOneselfToday_IsRefused()
    {
        Standing signer = Standing([GroupRole.Reviewer]) with { Competences = [new Grant<Hazard>(Hazard.Pressure, Signer, Now.AddHours(-1))] };
        Refused(RefusalKind.Forbidden, Facts() with { Signer = signer });
    }

    [Fact]
    public void Check_FallbackSlotOfOneWhoIsNoLongerLead_IsRefused()
    {
        SlotRecord fallback = Slot() with { Hazards = [Hazard.Energetic], RequiredCompetences = [], RequiredRole = GroupRole.Reviewer };
        Refused(RefusalKind.Forbidden, Facts() with { Slots = [fallback] });
        Assert.True(DecisionRules.Check(Facts([GroupRole.Lead]) with { Slots = [fallback] }, Request(DecisionKind.Approve)).IsOk);
    }

    [Theory]
    [InlineData(null, true)]
    [InlineData("review", true)]
    [InlineData("countersign", false)]
    [InlineData("", false)]
    [InlineData("Review", false)]
    public void Check_SlotNamed_MustBeTheOpenOne(string? slot, bool accepted)
    {
        DecisionRequest request = Request(DecisionKind.Approve) with { Slot = slot };
        if (accepted)
        {
            Assert.True(DecisionRules.Check(Facts(), request).IsOk);
        }
        else
        {
            Refused(RefusalKind.Conflict, Facts(), request);
        }
    }

    [Fact]
    public void Check_CountersignatureBeforeTheReview_Waits() =>
        Refused(RefusalKind.Conflict, Facts() with { Slots = [Slot() with { AssigneeId = Somebody }, Countersign() with { Open = false }], Signer = Standing([GroupRole.Lead]) });

    [Fact]
    public void Check_CountersignatureByOneWhoIsNoLongerLead_IsRefused() =>
        Refused(RefusalKind.Forbidden, Facts() with { Slots = [Countersign()], Signer = Standing([GroupRole.Reviewer]) });

    [Fact]
    public void Check_DecidedSlot_IsAConflict() =>
        Refused(RefusalKind.Conflict, Facts() with { Decided = new HashSet<string>(StringComparer.Ordinal) { "review" } });

    [Fact]
    public void Check_WithoutPassword_AsksAgain() =>
        Refused(RefusalKind.SignInAgain, Facts(), Request(DecisionKind.Approve) with { PasswordConfirmed = false });

    [Fact]
    public void Check_RefusedPerson_IsNotAskedForThePassword() =>
        Refused(RefusalKind.Forbidden, Facts(relation: Relation.Author), Request(DecisionKind.Approve) with { PasswordConfirmed = false });

    [Fact]
    public void Check_Approve_NeedsAnAnswerToEachDangerAndWarning()
    {
        DecisionCase facts = Facts() with { Findings = [Finding("a", Severity.Danger), Finding("b", Severity.Warning), Finding("c", Severity.Caution), Finding("d", Severity.Warning, Hazard.Fire)] };
        Result<SlotRecord, Refusal> result = DecisionRules.Check(facts, Request(DecisionKind.Approve) with { Answers = [new FindingAnswer("a", AnswerKind.Accept, "Shielded.")] });
        Fault fault = Assert.Single(result.Error!.Faults);
        Assert.Contains("finding b", fault.Message, StringComparison.Ordinal);
        Assert.True(DecisionRules.Check(facts, Request(DecisionKind.Approve) with
        {
            Answers = [new FindingAnswer("a", AnswerKind.Accept, "Shielded."), new FindingAnswer("b", AnswerKind.Condition, "At most 60 °C.")],
        }).IsOk);
    }

    [Fact]
    public void Check_ApproveWithSomethingSentBack_IsRefused()
    {
        DecisionRequest request = Request(DecisionKind.Approve) with { Answers = [new FindingAnswer("a", AnswerKind.SendBack, "Too hot.")] };
        DecisionCase facts = Facts() with { Findings = [Finding("a", Severity.Danger)] };
        Refused(RefusalKind.Invalid, facts, request);
        Assert.True(DecisionRules.Check(facts, request with { Decision = DecisionKind.RequestChanges, Reason = "Too hot." }).IsOk);
    }

    [Theory]
    [InlineData(DecisionKind.RequestChanges)]
    [InlineData(DecisionKind.Decline)]
    public void Check_WithoutReason_IsRefused(DecisionKind kind) =>
        Assert.Equal("/reason", Assert.Single(Refused(RefusalKind.Invalid, Facts(), Request(kind) with { Reason = " \n" }).Faults).Path);

    [Theory]
    [InlineData("unknown", "Fine.", "/answers/0/finding")]
    [InlineData("a", " ", "/answers/0/text")]
    [InlineData("a", "nul \0", "/answers/0/text")]
    [InlineData("a", "half a pair \ud800", "/answers/0/text")]
    public void Check_UnusableAnswer_NamesItsPlace(string finding, string text, string path)
    {
        DecisionCase facts = Facts() with { Findings = [Finding("a", Severity.Caution)] };
        DecisionRequest request = Request(DecisionKind.Approve) with { Answers = [new FindingAnswer(finding, AnswerKind.Accept, text)] };
        Assert.Equal(path, Assert.Single(Refused(RefusalKind.Invalid, facts, request).Faults).Path);
    }

    [Fact]
    public void Check_FindingAnsweredTwice_IsRefused()
    {
        FindingAnswer answer = new("a", AnswerKind.Accept, "Fine.");
        Refused(RefusalKind.Invalid, Facts() with { Findings = [Finding("a", Severity.Caution)] }, Request(DecisionKind.Approve) with { Answers = [answer, answer] });
    }

    [Fact]
    public void Check_TextOverTheLimit_IsRefused()
    {
        Assert.True(DecisionRules.Check(Facts(), Request(DecisionKind.Decline) with { Reason = new string('x', 4000) }).IsOk);
        Refused(RefusalKind.Invalid, Facts(), Request(DecisionKind.Decline) with { Reason = new string('x', 4001) });
    }

    [Fact]
    public void writers_never_decide()
    {
        Gen<GroupRole[]> roles = Gen.Enum<GroupRole>().Array[0, 5];
        Gen.Select(roles, Gen.Enum<ProcedureState>(), Gen.Enum<DecisionKind>(), Gen.Bool).Sample((held, state, kind, isAuthor) =>
            !DecisionRules.Check(Facts([.. held.Distinct()], state, isAuthor ? Relation.Author : Relation.Editor), Request(kind)).IsOk);
    }

    private static Refusal Refused(RefusalKind kind, DecisionCase facts, DecisionRequest? request = null)
    {
        Result<SlotRecord, Refusal> result = DecisionRules.Check(facts, request ?? Request(DecisionKind.Approve));
        Assert.False(result.IsOk);
        Assert.Equal(kind, result.Error.Kind);
        return result.Error;
    }

    private static IEnumerable<GroupRole[]> RoleSets()
    {
        GroupRole[] all = Enum.GetValues<GroupRole>();
        for (int bits = 0; bits < 1 << all.Length; bits++)
        {
            yield return [.. all.Where((_, i) => (bits >> i & 1) == 1)];
        }
    }

    private static DecisionCase Facts(GroupRole[]? roles = null, ProcedureState state = ProcedureState.InReview, Relation relation = Relation.Assignee) => new()
    {
        AuthorId = relation == Relation.Author ? Signer : Author,
        Writers = relation == Relation.Editor ? new HashSet<Guid> { Author, Signer } : new HashSet<Guid> { Author, Editor },
        State = state,
        Slots = relation == Relation.SignedAnother
            ? [Slot() with { Slot = "review-1" }, Slot() with { Slot = "review-2" }]
            : [Slot() with { AssigneeId = relation == Relation.NotAssigned ? Somebody : Signer }],
        Decided = relation == Relation.SignedAnother ? new HashSet<string>(StringComparer.Ordinal) { "review-1" } : new HashSet<string>(StringComparer.Ordinal),
        SignedBy = relation == Relation.SignedAnother ? new HashSet<Guid> { Signer } : new HashSet<Guid>(),
        Findings = [],
        Signer = roles is { Length: 0 } ? null : Standing(roles ?? [GroupRole.Reviewer]),
        Now = Now,
    };

    private static Standing Standing(GroupRole[] roles) => new()
    {
        AccountId = Signer,
        UserName = "signer",
        Name = "Sven Signer",
        Active = true,
        Roles = [.. roles.Select(role => new Grant<GroupRole>(role, Somebody, Now.AddMinutes(-1)))],
        Competences = [new Grant<Hazard>(Hazard.Pressure, Somebody, Now.AddMinutes(-1))],
    };

    private static SlotRecord Slot() => new()
    {
        ProcedureId = ProcedureId,
        Revision = 1,
        Slot = "review",
        GroupId = GroupId,
        Kind = SlotKind.Review,
        AssigneeId = Signer,
        Hazards = [Hazard.Pressure],
        RequiredCompetences = [Hazard.Pressure],
        RequiredRole = GroupRole.Reviewer,
        Reason = "Because.",
        Open = true,
        Since = Now,
        Due = Now.AddDays(3),
    };

    private static SlotRecord Countersign() => Slot() with { Slot = "countersign", Kind = SlotKind.Countersign, RequiredRole = GroupRole.Lead, RequiredCompetences = [] };

    private static FindingRecord Finding(string id, Severity severity, Hazard hazard = Hazard.Pressure) => new()
    {
        ProcedureId = ProcedureId,
        Revision = 1,
        Ordinal = 0,
        GroupId = GroupId,
        FindingId = id,
        Hazard = hazard,
        Severity = severity,
        LeavesCheckUndone = false,
    };

    private static DecisionRequest Request(DecisionKind kind) =>
        new(1, kind, kind == DecisionKind.Approve ? string.Empty : "Not like this.", [], PasswordConfirmed: true);
}
