using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.History;

/// <summary>What to look for; null members match everything.</summary>
public sealed record HistoryFilter
{
    public Guid? ProcedureId { get; init; }

    public Guid? ActorId { get; init; }

    /// <summary>Exact action or its beginning up to a dot, for instance <c>decision</c>.</summary>
    public string? Action { get; init; }

    /// <summary>Words in the title, the summary or the name of a person.</summary>
    public string? Text { get; init; }

    public DateTimeOffset? From { get; init; }

    public DateTimeOffset? Until { get; init; }
}

/// <summary>The state of the group's log.</summary>
/// <param name="Size">Number of events.</param>
/// <param name="RootHash">Root in hexadecimal.</param>
/// <param name="Consistent">True when the stored events give the stored root.</param>
public sealed record LogStatus(long Size, string RootHash, bool Consistent);

/// <summary>Reads the history. The lead, reviewers and auditors read all of it; a member the events of their own procedures.</summary>
public sealed partial class HistoryHandler
{
    /// <summary>Newest first.</summary>
    public partial Task<Result<Page<EventView>, Refusal>> ListAsync(Actor actor, HistoryFilter filter, string? cursor, int most, CancellationToken cancellationToken);

    /// <summary>Recomputes the tree over the stored events.</summary>
    public partial Task<Result<LogStatus, Refusal>> CheckAsync(Actor actor, CancellationToken cancellationToken);
}
