using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Submission;

/// <summary>Submits drafts and withdraws submissions.</summary>
public sealed partial class SubmissionHandler
{
    /// <summary>
    /// Validates the draft fully, screens it, makes the next revision, routes it, and clears it or puts it in review: one
    /// transaction with its events and notices. <paramref name="expectedVersion"/> is the draft's version.
    /// </summary>
    public partial Task<Result<RevisionView, Refusal>> SubmitAsync(Actor actor, Guid procedureId, int expectedVersion, CancellationToken cancellationToken);

    /// <summary>The author takes back a revision that is in review or cleared.</summary>
    public partial Task<Result<RevisionView, Refusal>> WithdrawAsync(Actor actor, Guid procedureId, int revision, string reason, CancellationToken cancellationToken);
}
