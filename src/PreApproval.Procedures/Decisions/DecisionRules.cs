using System.Globalization;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Decisions;

/// <summary>Everything a decision depends on, read in the transaction that makes it.</summary>
public sealed record DecisionCase
{
    public required Guid AuthorId { get; init; }

    /// <summary>Author and everybody who ever edited the procedure.</summary>
    public required IReadOnlySet<Guid> Writers { get; init; }

    public required ProcedureState State { get; init; }

    public required IReadOnlyList<SlotRecord> Slots { get; init; }

    /// <summary>Names of the slots that were decided.</summary>
    public required IReadOnlySet<string> Decided { get; init; }

    /// <summary>Who signed a slot of this revision.</summary>
    public required IReadOnlySet<Guid> SignedBy { get; init; }

    public required IReadOnlyList<FindingRecord> Findings { get; init; }

    /// <summary>The person who signs; null: does not belong to the group.</summary>
    public required Standing? Signer { get; init; }

    public required DateTimeOffset Now { get; init; }
}

/// <summary>Who may sign what, and what a signature needs. Pure.</summary>
public static class DecisionRules
{
    /// <summary>A role somebody gave themselves counts for deciding only after this time.</summary>
    public static readonly TimeSpan SelfGrantWait = TimeSpan.FromHours(24);

    /// <summary>The slot that is decided, or why it may not be.</summary>
    public static Result<SlotRecord, Refusal> Check(DecisionCase facts, DecisionRequest request)
    {
        if (facts.Signer is not { } signer)
        {
            return Refusal.NotFound;
        }

        if (WhyNever(facts, signer) is { } never)
        {
            return Refusal.Because(RefusalKind.Forbidden, never);
        }

        if (Transitions.Next(facts.State, ActionOf(request.Decision)) is null)
        {
            return Refusal.Because(RefusalKind.Conflict, $"This revision is {WireName.Of(facts.State)}: there is nothing to decide any more.");
        }

        SlotRecord[] mine = [.. facts.Slots.Where(slot => slot.AssigneeId == signer.AccountId)];
        if (mine.Length == 0)
        {
            return Refusal.Because(RefusalKind.Forbidden, "This revision was not routed to you.");
        }

        if (Array.TrueForAll(mine, slot => facts.Decided.Contains(slot.Slot)))
        {
            return Refusal.Because(RefusalKind.Conflict, "You have decided this already.");
        }

        if (Array.Find(mine, slot => slot.Open && !facts.Decided.Contains(slot.Slot)) is not { } open)
        {
            return Refusal.Because(RefusalKind.Conflict, "Your countersignature waits for the review.");
        }

        if (facts.SignedBy.Contains(signer.AccountId))
        {
            return Refusal.Because(RefusalKind.Forbidden, "You signed another slot of this revision: somebody else signs this one.");
        }

        if (request.Slot is { } meant && !string.Equals(meant, open.Slot, StringComparison.Ordinal))
        {
            return Refusal.Because(RefusalKind.Conflict, $"What waits for you here is '{open.Slot}', not '{meant}': read the revision again, then decide.");
        }

        if (WhyNotThisSlot(signer, open, facts.Now) is { } unable)
        {
            return Refusal.Because(RefusalKind.Forbidden, unable);
        }

        if (!request.PasswordConfirmed)
        {
            return Refusal.Because(RefusalKind.SignInAgain, "Signing needs your password, and it was missing or wrong.");
        }

        List<Fault> faults = Faults(facts.Findings, open, request);
        return faults.Count > 0
            ? new Refusal(RefusalKind.Invalid, "The decision can't be signed yet.", faults)
            : open;
    }

    private static string? WhyNever(DecisionCase facts, Standing signer)
    {
        if (!signer.Active)
        {
            return "Your account is deactivated.";
        }

        if (facts.AuthorId == signer.AccountId)
        {
            return "You wrote this procedure: somebody else decides on it.";
        }

        if (facts.Writers.Contains(signer.AccountId))
        {
            return "You edited this procedure: somebody else decides on it.";
        }

        if (signer.Is(GroupRole.Administrator))
        {
            return "Administrators manage accounts and never decide.";
        }

        return Access.ReviewsOrLeads(signer.Is) ? null : "Only reviewers and group leads decide.";
    }

    private static string? WhyNotThisSlot(Standing signer, SlotRecord slot, DateTimeOffset now)
    {
        GroupRole[] accepted = slot.RequiredRole == GroupRole.Lead ? [GroupRole.Lead] : [GroupRole.Reviewer, GroupRole.Lead];
        Grant<GroupRole>[] held = [.. signer.Roles.Where(grant => accepted.Contains(grant.Value))];
        if (held.Length == 0)
        {
            return $"This slot needs the role {WireName.Of(slot.RequiredRole)}, which you no longer have.";
        }

        if (Array.TrueForAll(held, grant => IsFreshSelfGrant(grant, signer, now)))
        {
            return "You gave yourself this role less than 24 hours ago: it can't be used to decide yet.";
        }

        if (slot.Kind == SlotKind.Review && !signer.Is(GroupRole.Lead) && slot.Hazards.Except(slot.RequiredCompetences).Where(hazard => !signer.IsCompetentIn(hazard)).ToArray() is [var foreign, ..])
        {
            return $"You are not competent in {WireName.Of(foreign)}, and only a group lead decides without that.";
        }

        foreach (Hazard hazard in slot.RequiredCompetences)
        {
            if (signer.Competences.FirstOrDefault(grant => grant.Value == hazard) is not { } competence)
            {
                return $"You are not competent in {WireName.Of(hazard)}, for which this was routed to you.";
            }

            if (IsFreshSelfGrant(competence, signer, now))
            {
                return $"You declared yourself competent in {WireName.Of(hazard)} less than 24 hours ago: it can't be used to decide yet.";
            }
        }

        return null;
    }

    private static bool IsFreshSelfGrant<T>(Grant<T> grant, Standing signer, DateTimeOffset now)
        where T : struct, Enum => grant.GrantedBy == signer.AccountId && now - grant.GrantedAt < SelfGrantWait;

    private static List<Fault> Faults(IReadOnlyList<FindingRecord> findings, SlotRecord slot, DecisionRequest request)
    {
        var faults = new List<Fault>();
        if (request.Decision != DecisionKind.Approve && string.IsNullOrWhiteSpace(request.Reason))
        {
            faults.Add(new Fault("/reason", "Say in words why, so that the author can act on it."));
        }

        if (TypedText.Fault(request.Reason) is { } reasonFault)
        {
            faults.Add(new Fault("/reason", reasonFault));
        }

        var known = findings.Select(finding => finding.FindingId).ToHashSet(StringComparer.Ordinal);
        var answered = new HashSet<string>(StringComparer.Ordinal);
        for (int i = 0; i < request.Answers.Count; i++)
        {
            FindingAnswer answer = request.Answers[i];
            string path = string.Create(CultureInfo.InvariantCulture, $"/answers/{i}");
            if (!known.Contains(answer.FindingId))
            {
                faults.Add(new Fault($"{path}/finding", "This revision has no such finding."));
            }
            else if (!answered.Add(answer.FindingId))
            {
                faults.Add(new Fault($"{path}/finding", "This finding is answered twice."));
            }

            if (string.IsNullOrWhiteSpace(answer.Text))
            {
                faults.Add(new Fault($"{path}/text", answer.Answer switch
                {
                    AnswerKind.Accept => "Say why this can be accepted.",
                    AnswerKind.Condition => "State the condition.",
                    AnswerKind.SendBack => "Say what must change.",
                }));
            }
            else if (TypedText.Fault(answer.Text) is { } textFault)
            {
                faults.Add(new Fault($"{path}/text", textFault));
            }

            if (request.Decision == DecisionKind.Approve && answer.Answer == AnswerKind.SendBack)
            {
                faults.Add(new Fault($"{path}/answer", "A finding that is sent back can't be approved: request changes instead."));
            }
        }

        if (request.Decision == DecisionKind.Approve)
        {
            faults.AddRange(MustBeAnswered(findings, slot)
                .Where(finding => !answered.Contains(finding.FindingId))
                .Select(finding => finding.FindingId)
                .Distinct(StringComparer.Ordinal)
                .Select(id => new Fault("/answers", $"Answer the finding {id} first: accept it with a reason or set a condition.")));
        }

        return faults;
    }

    /// <summary>The dangers and warnings of the hazards that a review slot was routed for; a countersignature repeats no answers.</summary>
    public static IEnumerable<FindingRecord> MustBeAnswered(IReadOnlyList<FindingRecord> findings, SlotRecord slot) => slot.Kind switch
    {
        SlotKind.Review => findings.Where(finding => finding.Severity is Severity.Danger or Severity.Warning && slot.Hazards.Contains(finding.Hazard)),
        SlotKind.Countersign => [],
    };

    internal static WorkflowAction ActionOf(DecisionKind decision) => decision switch
    {
        DecisionKind.Approve => WorkflowAction.ApproveSlot,
        DecisionKind.RequestChanges => WorkflowAction.RequestChanges,
        DecisionKind.Decline => WorkflowAction.Decline,
    };
}
