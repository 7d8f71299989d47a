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
/// <param name="Consistent">True when the stored events give the stored root and the stored revisions, decisions and versions are those that the events tell of.</param>
public sealed record LogStatus(long Size, string RootHash, bool Consistent)
{
    /// <summary>What is wrong, by sequence, at most 20; empty when nothing is.</summary>
    public IReadOnlyList<LogFault> Faults { get; init; } = [];

    /// <summary>The first event with which something is wrong, or null.</summary>
    public long? FirstBadSequence => Faults is [var first, ..] ? first.Sequence : null;
}

/// <summary>Something in the log, or in the rows that it tells of, that was changed outside the application.</summary>
/// <param name="Sequence">The event concerned; null when it can't be said.</param>
/// <param name="Sentence">One plain sentence.</param>
public sealed record LogFault(long? Sequence, string Sentence);

/// <summary>Reads the history. The lead, reviewers and auditors read all of it; a member the events of their own procedures.</summary>
public sealed class HistoryHandler(IAuditStore store, IUnitOfWork work, DocumentScreener screener)
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

    /// <summary>
    /// Recomputes the tree over the stored events and compares revisions, slots, decisions and the versions of thresholds, own substances and inventory with them, all in one snapshot. Damage is
    /// reported, whatever it is.
    /// </summary>
    public async Task<Result<LogStatus, Refusal>> CheckAsync(Actor actor, CancellationToken cancellationToken)
    {
        if (ScopeOf(actor) is not HistoryScope.All)
        {
            return actor.Roles.Count == 0 ? Refusal.NotFound : Refusal.Because(RefusalKind.Forbidden, "The lead, reviewers and auditors check the history.");
        }

        await using IUnitScope snapshot = await work.BeginSnapshotAsync(cancellationToken);
        Guid group = actor.GroupId;
        if (await store.ReadHeadAsync(group, cancellationToken) is not { } head)
        {
            return new LogStatus(0, Convert.ToHexStringLower(CompactRange.Empty.Root()), Consistent: false) { Faults = [new LogFault(null, "The head of the log is missing.")] };
        }

        var check = new LogCheck(head, DigestOf);
        await FeedAsync(check, "An event", store.ReadAllAsync(group, cancellationToken), check.Event, cancellationToken);
        await FeedAsync(check, "A revision", store.RevisionsAsync(group, cancellationToken), check.Revision, cancellationToken);
        await FeedAsync(check, "A slot", store.SlotsAsync(group, cancellationToken), check.Slot, cancellationToken);
        await FeedAsync(check, "A decision", store.DecisionsAsync(group, cancellationToken), check.Decision, cancellationToken);
        await FeedAsync(check, "A version", store.VersionsAsync(group, cancellationToken), check.Version, cancellationToken);
        return check.Finish();
    }

    private static async Task FeedAsync<T>(LogCheck check, string what, IAsyncEnumerable<T> rows, Action<T> feed, CancellationToken cancellationToken)
    {
        try
        {
            await foreach (T row in rows.WithCancellation(cancellationToken))
            {
                feed(row);
            }
        }
        catch (Exception e) when (e is InvalidCastException or FormatException or ArgumentException or OverflowException or InvalidOperationException)
        {
            // Values that no write of ours stores: a missing one, a time outside the calendar.
            check.Unreadable(what, e);
        }
    }

    private string? DigestOf(byte[] document)
    {
        Result<ProcedureDocument, DocumentRefusal> read = screener.Read(document);
        return read.IsOk ? screener.DigestOf(read.Value) : null;
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
