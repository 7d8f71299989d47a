using PreApproval.Documents;

namespace PreApproval.Procedures.Workflow;

public sealed partial class ProcedureQueries
{
    public partial Task<Result<Page<ProcedureSummary>, Refusal>> ListAsync(Actor actor, ProcedureState? state, string? cursor, int most, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<Result<IReadOnlyList<ProcedureSummary>, Refusal>> ReviewQueueAsync(Actor actor, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<Result<ProcedureView, Refusal>> ReadAsync(Actor actor, Guid procedureId, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<Result<RevisionView, Refusal>> ReadRevisionAsync(Actor actor, Guid procedureId, int number, CancellationToken cancellationToken) => throw new NotSupportedException();
}
