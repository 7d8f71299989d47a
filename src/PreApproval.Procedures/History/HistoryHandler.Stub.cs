using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.History;

public sealed partial class HistoryHandler
{
    public partial Task<Result<Page<EventView>, Refusal>> ListAsync(Actor actor, HistoryFilter filter, string? cursor, int most, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<Result<LogStatus, Refusal>> CheckAsync(Actor actor, CancellationToken cancellationToken) => throw new NotSupportedException();
}
