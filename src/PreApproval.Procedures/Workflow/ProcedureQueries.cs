using PreApproval.Documents;

namespace PreApproval.Procedures.Workflow;

/// <summary>Reads procedures and revisions. A foreign group's object is <see cref="Refusal.NotFound"/>.</summary>
public sealed partial class ProcedureQueries
{
    /// <summary>The group's procedures, newest first; drafts of others are left out.</summary>
    public partial Task<Result<Page<ProcedureSummary>, Refusal>> ListAsync(Actor actor, ProcedureState? state, string? cursor, int most, CancellationToken cancellationToken);

    /// <summary>Revisions with an open slot of the actor, due first.</summary>
    public partial Task<Result<IReadOnlyList<ProcedureSummary>, Refusal>> ReviewQueueAsync(Actor actor, CancellationToken cancellationToken);

    public partial Task<Result<ProcedureView, Refusal>> ReadAsync(Actor actor, Guid procedureId, CancellationToken cancellationToken);

    public partial Task<Result<RevisionView, Refusal>> ReadRevisionAsync(Actor actor, Guid procedureId, int number, CancellationToken cancellationToken);
}
