using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Decisions;

public sealed partial class DecisionHandler
{
    public partial Task<Result<RevisionView, Refusal>> DecideAsync(Actor actor, Guid procedureId, DecisionRequest request, CancellationToken cancellationToken) => throw new NotSupportedException();
}
