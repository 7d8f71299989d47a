using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Submission;

public sealed partial class SubmissionHandler
{
    public partial Task<Result<RevisionView, Refusal>> SubmitAsync(Actor actor, Guid procedureId, int expectedVersion, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<Result<RevisionView, Refusal>> WithdrawAsync(Actor actor, Guid procedureId, int revision, string reason, CancellationToken cancellationToken) => throw new NotSupportedException();
}
