namespace PreApproval.Procedures.Workflow;

/// <summary>Puts together what is shown of a revision.</summary>
public sealed class RevisionViews(IProcedureStore procedures, IProcedureReader reader)
{
    public async Task<RevisionView> BuildAsync(RevisionRecord revision, CancellationToken cancellationToken)
    {
        IReadOnlyList<SlotRecord> slots = await procedures.SlotsAsync(revision.GroupId, revision.ProcedureId, revision.Number, cancellationToken);
        IReadOnlyList<DecisionRecord> decisions = await procedures.DecisionsAsync(revision.GroupId, revision.ProcedureId, revision.Number, cancellationToken);
        IReadOnlyDictionary<Guid, string> names = await reader.NamesAsync([revision.AuthorId, .. slots.Select(slot => slot.AssigneeId)], cancellationToken);
        return new RevisionView
        {
            ProcedureId = revision.ProcedureId,
            Number = revision.Number,
            State = revision.State,
            Title = revision.Title,
            AuthorId = revision.AuthorId,
            AuthorName = names[revision.AuthorId],
            SubmittedAt = revision.SubmittedAt,
            Document = revision.Document,
            DocumentDigest = revision.DocumentDigest,
            Screening = revision.Screening,
            ScreeningDigest = revision.ScreeningDigest,
            PolicyDigest = revision.PolicyDigest,
            Verdict = revision.Verdict,
            Slots = [.. slots.Select(slot => Show(slot, revision.State, names, decisions.FirstOrDefault(decision => string.Equals(decision.Slot, slot.Slot, StringComparison.Ordinal))))],
            Version = revision.Version,
        };
    }

    public static SlotView Show(SlotRecord slot, ProcedureState state, IReadOnlyDictionary<Guid, string> names, DecisionRecord? decision) => new()
    {
        Slot = slot.Slot,
        AssigneeId = slot.AssigneeId,
        AssigneeName = names[slot.AssigneeId],
        Hazards = slot.Hazards,
        Reason = slot.Reason,
        Since = slot.Since,
        Due = slot.Due,
        Open = slot.Open && decision is null && state == ProcedureState.InReview,
        Decision = decision is null ? null : Show(decision),
    };

    private static DecisionView Show(DecisionRecord decision) => new()
    {
        Slot = decision.Slot,
        Decision = decision.Decision,
        Reason = decision.Reason,
        Answers = decision.Answers,
        SignerName = decision.SignerName,
        SignerId = decision.SignerId,
        SignerRole = decision.SignerRole,
        Meaning = decision.Meaning,
        SignedAt = decision.SignedAt,
        BoundDigest = decision.BoundDigest,
    };
}
