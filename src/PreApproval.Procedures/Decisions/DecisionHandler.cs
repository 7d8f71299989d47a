using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Decisions;

/// <summary>What a reviewer decides and signs.</summary>
/// <param name="Revision">Number of the revision.</param>
/// <param name="Decision">Kind.</param>
/// <param name="Reason">Words to the author; required to request changes or decline.</param>
/// <param name="Answers">An answer to each danger and warning; required to approve.</param>
/// <param name="PasswordConfirmed">True when the password was checked for this very signature.</param>
public sealed record DecisionRequest(int Revision, DecisionKind Decision, string Reason, IReadOnlyList<FindingAnswer> Answers, bool PasswordConfirmed);

/// <summary>Signs decisions. The slot is the open one assigned to the actor; of two who decide one slot the later gets <see cref="RefusalKind.Conflict"/>.</summary>
public sealed partial class DecisionHandler
{
    public partial Task<Result<RevisionView, Refusal>> DecideAsync(Actor actor, Guid procedureId, DecisionRequest request, CancellationToken cancellationToken);
}
