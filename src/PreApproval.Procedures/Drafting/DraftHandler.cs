using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Drafting;

/// <summary>Creates, reads and saves drafts. Only the author edits a draft.</summary>
public sealed partial class DraftHandler
{
    /// <summary>A new procedure with its draft; the bytes may be incomplete but not malformed. An event is written.</summary>
    public partial Task<Result<DraftView, Refusal>> CreateAsync(Actor actor, ReadOnlyMemory<byte> document, CancellationToken cancellationToken);

    /// <summary>Replaces the draft when its version is still <paramref name="expectedVersion"/>; otherwise <see cref="RefusalKind.Stale"/>. After a submission it begins the next revision's draft.</summary>
    public partial Task<Result<DraftView, Refusal>> SaveAsync(Actor actor, Guid procedureId, int expectedVersion, ReadOnlyMemory<byte> document, CancellationToken cancellationToken);

    /// <summary>The draft, for those who may read it.</summary>
    public partial Task<Result<DraftView, Refusal>> ReadAsync(Actor actor, Guid procedureId, CancellationToken cancellationToken);
}
