using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Drafting;

public sealed partial class DraftHandler
{
    public partial Task<Result<DraftView, Refusal>> CreateAsync(Actor actor, ReadOnlyMemory<byte> document, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<Result<DraftView, Refusal>> SaveAsync(Actor actor, Guid procedureId, int expectedVersion, ReadOnlyMemory<byte> document, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<Result<DraftView, Refusal>> ReadAsync(Actor actor, Guid procedureId, CancellationToken cancellationToken) => throw new NotSupportedException();
}
