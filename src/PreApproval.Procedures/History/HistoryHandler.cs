using System.Globalization;
using PreApproval.Audit;
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
public sealed class HistoryHandler(IAuditStore store)
{
    private const int LargestPage = 500;

    /// <summary>Newest first.</summary>
    public async Task<Result<Page<EventView>, Refusal>> ListAsync(Actor actor, HistoryFilter filter, string? cursor, int most, CancellationToken cancellationToken)
    {
        if (ScopeOf(actor) is not { } scope)
        {
            return Refusal.NotFound;
        }

        long? before = null;
        if (cursor is not null)
        {
            if (!long.TryParse(cursor, NumberStyles.None, CultureInfo.InvariantCulture, out long parsed))
            {
                return new Refusal(RefusalKind.Invalid, "The cursor is not one of ours.", [new Fault("/cursor", "Use the value of 'next' of the page before.")]);
            }

            before = parsed;
        }

        int size = Math.Clamp(most, 1, LargestPage);
        IReadOnlyList<AuditEventRecord> events = await store.ListAsync(actor.GroupId, scope, actor.UserId, filter, before, size + 1, cancellationToken);
        EventView[] items = [.. events.Take(size).Select(Show)];
        return new Page<EventView>(items, events.Count > size ? items[^1].Sequence.ToString(CultureInfo.InvariantCulture) : null);
    }

    /// <summary>Recomputes the tree over the stored events.</summary>
    public async Task<Result<LogStatus, Refusal>> CheckAsync(Actor actor, CancellationToken cancellationToken)
    {
        if (ScopeOf(actor) is not HistoryScope.All)
        {
            return actor.Roles.Count == 0 ? Refusal.NotFound : Refusal.Because(RefusalKind.Forbidden, "The lead, reviewers and auditors check the history.");
        }

        // The head first: events that come while reading are beyond it and left out.
        CompactRange head = await store.HeadAsync(actor.GroupId, cancellationToken);
        CompactRange recomputed = CompactRange.Empty;
        bool sound = true;
        await foreach (AuditEventRecord stored in store.ReadAllAsync(actor.GroupId, cancellationToken))
        {
            if (recomputed.Size == head.Size)
            {
                break;
            }

            byte[] hash = MerkleTree.LeafHash(stored.Leaf);
            sound &= stored.Sequence == recomputed.Size && hash.AsSpan().SequenceEqual(stored.LeafHash) && AuditTrail.Agrees(stored);
            recomputed = recomputed.Append(hash);
        }

        byte[] root = head.Root();
        sound &= recomputed.Size == head.Size && recomputed.Root().AsSpan().SequenceEqual(root);
        return new LogStatus(head.Size, Convert.ToHexStringLower(root), sound);
    }

    private static HistoryScope? ScopeOf(Actor actor)
    {
        if (actor.Is(GroupRole.Lead) || actor.Is(GroupRole.Reviewer) || actor.Is(GroupRole.Auditor))
        {
            return HistoryScope.All;
        }

        if (actor.Is(GroupRole.Member))
        {
            return HistoryScope.OwnProcedures;
        }

        return actor.Is(GroupRole.Administrator) ? HistoryScope.Administration : null;
    }

    private static EventView Show(AuditEventRecord stored) => new()
    {
        Sequence = stored.Sequence,
        At = stored.At,
        ActorId = stored.ActorId,
        ActorName = stored.ActorName,
        ActorRole = stored.ActorRole,
        Action = stored.Action,
        ProcedureId = stored.ProcedureId,
        ProcedureTitle = stored.ProcedureTitle,
        Revision = stored.Revision,
        Reason = stored.Reason,
        Summary = stored.Summary,
        LeafHash = Convert.ToHexStringLower(stored.LeafHash),
        Leaf = stored.Leaf,
    };
}
