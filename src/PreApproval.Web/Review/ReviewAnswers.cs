using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Review;

/// <summary>Body of <c>POST …/decisions</c>.</summary>
/// <param name="Revision">Number of the revision.</param>
/// <param name="Decision">What is decided.</param>
/// <param name="Reason">Words to the author; required to request changes or decline.</param>
/// <param name="Answers">An answer to each danger and warning; required to approve.</param>
/// <param name="Password">Your password, again: a decision is signed.</param>
/// <param name="Slot">The slot you mean; without it, your open one.</param>
public sealed record DecisionBody(int Revision, DecisionKind Decision, string? Reason, IReadOnlyList<AnswerBody>? Answers, string Password, string? Slot = null);

/// <summary>Answer to one finding.</summary>
/// <param name="Finding">Its <c>id</c> in the screening.</param>
/// <param name="Answer">Kind of answer.</param>
/// <param name="Text">Reason or condition.</param>
public sealed record AnswerBody(string Finding, AnswerKind Answer, string? Text);

/// <summary>One immutable revision; its document and screening have addresses of their own.</summary>
public sealed record RevisionAnswer(
    Guid Procedure, int Revision, ProcedureState State, string Title, Guid AuthorId, string AuthorName, DateTimeOffset SubmittedAt,
    string DocumentDigest, string ScreeningDigest, Verdict Verdict, IReadOnlyList<SlotAnswer> Slots)
{
    public static RevisionAnswer From(RevisionView r)
    {
        ArgumentNullException.ThrowIfNull(r);
        return new RevisionAnswer(r.ProcedureId, r.Number, r.State, r.Title, r.AuthorId, r.AuthorName, r.SubmittedAt,
            r.DocumentDigest, r.ScreeningDigest, r.Verdict, [.. r.Slots.Select(SlotAnswer.From)]);
    }
}

/// <summary>One place in the review that one named person fills.</summary>
public sealed record SlotAnswer(
    string Slot, Guid AssigneeId, string AssigneeName, IReadOnlyList<Hazard> Hazards, string Reason, DateTimeOffset Since, DateTimeOffset Due, bool Open, SignedDecision? Decision)
{
    public static SlotAnswer From(SlotView s)
    {
        ArgumentNullException.ThrowIfNull(s);
        return new SlotAnswer(s.Slot, s.AssigneeId, s.AssigneeName, s.Hazards, s.Reason, s.Since, s.Due, s.Open, s.Decision is null ? null : SignedDecision.From(s.Decision));
    }
}

/// <summary>A signed decision.</summary>
/// <param name="Meaning">Meaning of the signature in words.</param>
/// <param name="BoundDigest">SHA-256 over revision, screening, engine, data and policy.</param>
public sealed record SignedDecision(
    DecisionKind Decision, string Reason, IReadOnlyList<AnswerBody> Answers, Guid SignerId, string SignerName, string SignerRole, string Meaning, DateTimeOffset SignedAt, string BoundDigest)
{
    public static SignedDecision From(DecisionView d)
    {
        ArgumentNullException.ThrowIfNull(d);
        return new SignedDecision(d.Decision, d.Reason, [.. d.Answers.Select(a => new AnswerBody(a.FindingId, a.Answer, a.Text))],
            d.SignerId, d.SignerName, d.SignerRole, d.Meaning, d.SignedAt, d.BoundDigest);
    }
}
