using PreApproval.Audit;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Submission;

/// <summary>Rows, events and notices of a submission.</summary>
internal static class SubmissionRows
{
    /// <param name="procedure">The procedure.</param>
    /// <param name="document">What is submitted.</param>
    /// <param name="number">Number of the revision.</param>
    /// <param name="screened">Its screening.</param>
    /// <param name="sentBackBefore">True after a revision to which changes were asked for: it goes to who asked, whatever the screening says.</param>
    /// <param name="now">When.</param>
    public static RevisionRecord Revision(ProcedureRecord procedure, CompletedDocument document, int number, ScreenedDocument screened, bool sentBackBefore, DateTimeOffset now)
    {
        WorkflowAction action = screened.Report.Verdict switch
        {
            Verdict.Clear => sentBackBefore ? WorkflowAction.Route : WorkflowAction.Clear,
            Verdict.Review => WorkflowAction.Route,
        };
        byte[] screening = screened.Json.ToArray();
        return new RevisionRecord
        {
            ProcedureId = procedure.Id,
            Number = number,
            GroupId = procedure.GroupId,
            AuthorId = procedure.AuthorId,
            Title = TypedText.Title(document.Document.Title),
            State = Transitions.Next(ProcedureState.Draft, action) ?? throw new InvalidOperationException("A draft can always be cleared or routed."),
            Version = 1,
            SubmittedAt = now,
            Document = document.Bytes.ToArray(),
            DocumentDigest = screened.DocumentDigest,
            Screening = screening,
            ScreeningDigest = CanonicalJson.Digest(screening),
            Verdict = screened.Report.Verdict,
            Worst = screened.Report.Findings.Count == 0 ? null : screened.Report.Findings.Min(finding => finding.Severity),
            FindingCount = screened.Report.Findings.Count,
            EngineVersion = Screener.EngineVersion,
            DataDigest = screened.DataDigest,
            PolicyDigest = screened.PolicyDigest,
        };
    }

    public static FindingRecord Record(RevisionRecord revision, Finding finding, int ordinal) => new()
    {
        ProcedureId = revision.ProcedureId,
        Revision = revision.Number,
        Ordinal = ordinal,
        GroupId = revision.GroupId,
        FindingId = finding.Id,
        Hazard = finding.Hazard,
        Severity = finding.Severity,
        LeavesCheckUndone = finding.LeavesCheckUndone,
    };

    public static SlotRecord Record(RevisionRecord revision, PlannedSlot planned, GroupPolicy policy, DateTimeOffset now) => new()
    {
        ProcedureId = revision.ProcedureId,
        Revision = revision.Number,
        Slot = planned.Slot,
        GroupId = revision.GroupId,
        Kind = planned.Kind,
        AssigneeId = planned.Assignee.AccountId,
        Hazards = planned.Hazards,
        RequiredCompetences = planned.RequiredCompetences,
        RequiredRole = planned.RequiredRole,
        Reason = planned.Reason,
        Open = planned.Kind == SlotKind.Review,
        Since = now,
        Due = now.AddDays(policy.ReviewDays),
    };

    public static List<AuditEntry> Events(ProcedureRecord procedure, RevisionRecord revision, IReadOnlyList<PlannedSlot> slots)
    {
        string ruleSet = $"{revision.EngineVersion} {revision.DataDigest} {revision.PolicyDigest}";
        List<AuditEntry> entries =
        [
            AuditEntry.About(procedure, revision.Number, "procedure.submitted", $"Revision {revision.Number} of '{revision.Title}' was submitted; the screening has {revision.FindingCount} findings.") with
            {
                After = WireName.Of(revision.State), PayloadDigest = revision.DocumentDigest, RuleSet = ruleSet,
            },
        ];
        if (revision.State == ProcedureState.Cleared)
        {
            entries.Add(AuditEntry.About(procedure, revision.Number, "procedure.cleared", $"No finding in revision {revision.Number} of '{revision.Title}' needs a reviewer: it is cleared.") with
            {
                After = WireName.Of(revision.State),
                PayloadDigest = revision.ScreeningDigest,
                RuleSet = ruleSet,
            });
        }

        entries.AddRange(slots.Select(slot => AuditEntry.About(procedure, revision.Number, "review.routed", $"Revision {revision.Number} of '{revision.Title}' went to {slot.Assignee.Name} ({slot.Slot}). {slot.Reason}") with
        {
            After = slot.Assignee.AccountId.ToString("D"),
            PayloadDigest = revision.ScreeningDigest,
            Reason = slot.Reason,
            RuleSet = ruleSet,
        }));
        return entries;
    }

    public static NoticeRecord[] Messages(ProcedureRecord procedure, RevisionRecord revision, SlotRecord[] slots, DateTimeOffset now) =>
        revision.State == ProcedureState.Cleared
            ? [NoticeTexts.Make(procedure.GroupId, procedure.AuthorId, "procedure.cleared", procedure.Id, revision.Number, now, $"Revision {revision.Number} of '{revision.Title}' is cleared: no finding needs a reviewer.")]
            : [.. slots.Where(slot => slot.Open).Select(slot => NoticeTexts.Make(procedure.GroupId, slot.AssigneeId, "review.assigned", procedure.Id, revision.Number, now, $"'{revision.Title}', revision {revision.Number}, waits for your review. {slot.Reason}"))];
}
