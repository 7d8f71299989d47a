using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>
/// The group's vessels, places, and extinguishing agents on hand. Whoever writes procedures adds and changes entries: who holds the vessel
/// reads its mark. Reviewers and leads take entries out and put a vessel back into service. Each change is a version that is never changed,
/// with its event in the same transaction.
/// </summary>
public sealed partial class InventoryHandler(IUnitOfWork work, IInventoryStore store, IProcedureReader reader, IGroupStore groups, AuditTrail trail, TimeProvider clock)
{
    /// <summary>Most entries of a kind that are in use.</summary>
    public const int Most = 2_000;

    /// <summary>May add and change.</summary>
    public static bool MayWrite(Actor actor) => Access.MayWrite(actor);

    /// <summary>May take out of the inventory, and put a vessel back into service.</summary>
    public static bool MayRetire(Actor actor)
    {
        ArgumentNullException.ThrowIfNull(actor);
        return Access.ReviewsOrLeads(actor.Is);
    }

    /// <summary>Adds an entry; refused where its name is taken, or an agent's place is not there.</summary>
    public async Task<Result<InventoryView, Refusal>> AddAsync(Actor actor, InventoryKind kind, ReadOnlyMemory<byte> entry, CancellationToken cancellationToken)
    {
        if (!MayWrite(actor))
        {
            return RefuseWriting(actor);
        }

        Result<InventoryContent, DocumentRefusal> read = InventoryDocument.Read(kind, entry);
        if (!read.IsOk || IsAhead(read.Value))
        {
            return Refuse(await AllWrongAsync(actor, kind, id: null, entry, read, cancellationToken), kind);
        }

        DateTimeOffset now = clock.GetUtcNow();
        InventoryItemRecord head = InventoryRows.Head(Guid.CreateVersion7(now), actor.GroupId, read.Value, version: 1, now);
        InventoryVersionRecord first = InventoryRows.Version(head, VersionChange.Added, actor, now, reason: null, InventoryDocument.Canonical(read.Value));
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await StandingAsync(actor, cancellationToken) is null)
        {
            return RoleChanged;
        }

        await store.LockAllAsync(actor.GroupId, cancellationToken);
        if (await store.CountAsync(actor.GroupId, kind, placeId: null, cancellationToken) >= Most)
        {
            return Refusal.Because(RefusalKind.Conflict, $"The inventory has {Most} entries of this kind, which is the most. Take some out first.");
        }

        if (await ClashAsync(head, cancellationToken) is { } clash)
        {
            return clash;
        }

        Result<string, Refusal> place = await HoldPlaceAsync(actor.GroupId, read.Value, cancellationToken);
        if (!place.IsOk)
        {
            return place.Error;
        }

        if (!await store.AddAsync([(head, first)], cancellationToken))
        {
            return InventoryRows.Taken(kind);
        }

        await trail.AppendAsync(actor, [InventoryRows.Event(head, first, $"{actor.Name} added {InventoryRows.Named(read.Value, place.Value)} to the inventory.")], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return View(head, first, actor.Name);
    }

    /// <summary>Replaces an entry where its version is still <paramref name="expectedVersion"/>; otherwise <see cref="RefusalKind.Stale"/>.</summary>
    public async Task<Result<InventoryView, Refusal>> ChangeAsync(Actor actor, InventoryKind kind, Guid id, int expectedVersion, ReadOnlyMemory<byte> entry, CancellationToken cancellationToken)
    {
        if (!MayWrite(actor))
        {
            return RefuseWriting(actor);
        }

        Result<InventoryContent, DocumentRefusal> read = InventoryDocument.Read(kind, entry);
        if (!read.IsOk || IsAhead(read.Value))
        {
            return Refuse(await AllWrongAsync(actor, kind, id, entry, read, cancellationToken), kind);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await StandingAsync(actor, cancellationToken) is not { } standing)
        {
            return RoleChanged;
        }

        Result<InventoryItemRecord, Refusal> held = await HoldAsync(actor.GroupId, kind, id, expectedVersion, cancellationToken);
        if (!held.IsOk)
        {
            return held.Error;
        }

        InventoryItemRecord stored = held.Value;
        InventoryVersionRecord latest = (await store.VersionsAsync(actor.GroupId, id, cancellationToken))[0];
        InventoryContent before = InventoryRows.Content((stored, latest));
        byte[] content = InventoryDocument.Canonical(read.Value);
        if (latest.Content.AsSpan().SequenceEqual(content))
        {
            return View(stored, latest, (await reader.NamesAsync([latest.AuthorId], cancellationToken))[latest.AuthorId]);
        }

        if (InventoryRows.WhyNotBack(standing, before, read.Value, "/outOfService") is { } outOfService)
        {
            return outOfService;
        }

        Result<string, Refusal> place = await HoldPlaceAsync(actor.GroupId, read.Value, cancellationToken);
        if (!place.IsOk)
        {
            return place.Error;
        }

        DateTimeOffset now = clock.GetUtcNow();
        InventoryItemRecord head = InventoryRows.Head(id, actor.GroupId, read.Value, stored.Version + 1, now);
        InventoryVersionRecord next = InventoryRows.Version(head, VersionChange.Changed, actor, now, reason: null, content);
        if (await ClashAsync(head, cancellationToken) is { } clash)
        {
            return clash;
        }

        string what = InventoryDifference.Words(before, read.Value, await PlaceNameAsync(actor.GroupId, before, cancellationToken), place.Value);
        if (!await store.ChangeAsync(head, next, cancellationToken))
        {
            return InventoryRows.Taken(kind);
        }

        await trail.AppendAsync(
            actor,
            [InventoryRows.Event(head, next, $"{actor.Name} changed {InventoryRows.Named(read.Value, place.Value)} of the inventory, now version {head.Version}: {what}.") with { Before = latest.ContentDigest }],
            cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return View(head, next, actor.Name);
    }

    /// <summary>Takes an entry out of the inventory for ever, with the reason. Procedures that were submitted keep their copy.</summary>
    public async Task<Result<InventoryView, Refusal>> RetireAsync(Actor actor, InventoryKind kind, Guid id, int expectedVersion, string reason, CancellationToken cancellationToken)
    {
        if (!MayRetire(actor))
        {
            return Access.MayRead(actor) ? Refusal.Because(RefusalKind.Forbidden, "A reviewer or the group lead takes things out of the inventory. A vessel that must not be used can be set out of service at once.") : Access.RefuseReading(actor);
        }

        if (string.IsNullOrWhiteSpace(reason) || TypedText.Fault(reason) is not null)
        {
            return new Refusal(RefusalKind.Invalid, "Say why it is taken out of the inventory.", [new Fault("/reason", TypedText.Fault(reason) ?? "Say why, in a few words.")]);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await StandingAsync(actor, cancellationToken) is not { } standing || !InventoryRows.MayRetire(standing))
        {
            return RoleChanged;
        }

        Result<InventoryItemRecord, Refusal> held = await HoldAsync(actor.GroupId, kind, id, expectedVersion, cancellationToken);
        if (!held.IsOk)
        {
            return held.Error;
        }

        InventoryItemRecord stored = held.Value;
        if (kind == InventoryKind.Place && await store.CountAsync(actor.GroupId, InventoryKind.Agent, id, cancellationToken) is > 0 and var agents)
        {
            return Refusal.Because(RefusalKind.Conflict, $"The inventory has extinguishing agents at this place ({agents}): take them out, or move them to another place, first.");
        }

        DateTimeOffset now = clock.GetUtcNow();
        InventoryVersionRecord before = (await store.VersionsAsync(actor.GroupId, id, cancellationToken))[0];
        InventoryContent content = InventoryRows.Content((stored, before));
        InventoryItemRecord head = stored with { Version = stored.Version + 1, RetiredAt = now, UpdatedAt = now };
        InventoryVersionRecord next = InventoryRows.Version(head, VersionChange.Retired, actor, now, reason.Trim(), before.Content);
        if (!await store.ChangeAsync(head, next, cancellationToken))
        {
            throw new InvalidOperationException("What goes out of the inventory takes no name.");
        }

        await trail.AppendAsync(
            actor,
            [InventoryRows.Event(head, next, $"{actor.Name} took {InventoryRows.Named(content, await PlaceNameAsync(actor.GroupId, content, cancellationToken))} out of the inventory.") with { Before = before.ContentDigest }],
            cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return View(head, next, actor.Name);
    }

    /// <summary>One entry of the actor's group, also a retired one.</summary>
    public async Task<Result<InventoryView, Refusal>> ReadAsync(Actor actor, InventoryKind kind, Guid id, CancellationToken cancellationToken)
    {
        Result<IReadOnlyList<InventoryView>, Refusal> versions = await VersionsAsync(actor, kind, id, cancellationToken);
        return versions.IsOk ? versions.Value[0] : versions.Error;
    }

    /// <summary>Every version of an entry, newest first.</summary>
    public async Task<Result<IReadOnlyList<InventoryView>, Refusal>> VersionsAsync(Actor actor, InventoryKind kind, Guid id, CancellationToken cancellationToken)
    {
        if (!Access.MayRead(actor))
        {
            return Access.RefuseReading(actor);
        }

        if (await store.FindAsync(actor.GroupId, kind, id, cancellationToken) is not { } head)
        {
            return Refusal.NotFound;
        }

        IReadOnlyList<InventoryVersionRecord> versions = await store.VersionsAsync(actor.GroupId, id, cancellationToken);
        return Result<IReadOnlyList<InventoryView>, Refusal>.Ok(await ViewsAsync([.. versions.Select(version => (head, version))], cancellationToken));
    }

    /// <summary>The entries of a kind by name; those taken out only where asked for.</summary>
    public async Task<Result<IReadOnlyList<InventoryView>, Refusal>> ListAsync(Actor actor, InventoryKind kind, bool retired, CancellationToken cancellationToken) =>
        Access.MayRead(actor)
            ? Result<IReadOnlyList<InventoryView>, Refusal>.Ok(await ViewsAsync(await store.ListAsync(actor.GroupId, kind, retired, cancellationToken), cancellationToken))
            : Access.RefuseReading(actor);

    internal static Refusal RoleChanged { get; } = Refusal.Because(RefusalKind.Forbidden, "Your role in this group was changed: you no longer write its inventory.");

    internal static Refusal RefuseWriting(Actor actor) => Access.MayRead(actor)
        ? Refusal.Because(RefusalKind.Forbidden, "Members, reviewers and group leads write the inventory.")
        : Access.RefuseReading(actor);

    /// <summary>What the person may do counts at this moment, whatever the request began with; null: nothing here.</summary>
    internal static async Task<Standing?> StandingAsync(IGroupStore groups, Actor actor, CancellationToken cancellationToken) =>
        await groups.LockStandingAsync(actor.GroupId, actor.UserId, cancellationToken) is { Active: true } standing && (standing.Is(GroupRole.Member) || InventoryRows.MayRetire(standing))
            ? standing
            : null;

    private Task<Standing?> StandingAsync(Actor actor, CancellationToken cancellationToken) => StandingAsync(groups, actor, cancellationToken);

    private static Refusal Refuse(DocumentRefusal refusal, InventoryKind kind) => DocumentScreener.Refuse(refusal) with
    {
        Message = refusal.Kind switch
        {
            DocumentRefusalKind.TooLarge => $"The {InventoryRows.Word(kind)} is larger than one can be.",
            DocumentRefusalKind.NotJson => $"The {InventoryRows.Word(kind)} is not well-formed JSON.",
            DocumentRefusalKind.UnknownMember => $"The {InventoryRows.Word(kind)} has members that the format does not know.",
            DocumentRefusalKind.Invalid => $"The {InventoryRows.Word(kind)} has faults.",
        },
    };

    /// <summary>The entry as it stands, which nobody else changes until the end of the transaction.</summary>
    private async Task<Result<InventoryItemRecord, Refusal>> HoldAsync(Guid groupId, InventoryKind kind, Guid id, int expectedVersion, CancellationToken cancellationToken)
    {
        await store.LockAllAsync(groupId, cancellationToken);
        if (await store.LockAsync(groupId, kind, id, cancellationToken) is not { } stored)
        {
            return Refusal.NotFound;
        }

        return WhyNot(stored, expectedVersion) is { } refusal ? refusal : stored;
    }

    private static Refusal? WhyNot(InventoryItemRecord stored, int expectedVersion)
    {
        if (stored.Version != expectedVersion)
        {
            return Refusal.Because(RefusalKind.Stale, $"This was changed in the meantime: it is at version {stored.Version}. Read it again.");
        }

        return stored.RetiredAt is null ? null : Refusal.Because(RefusalKind.Conflict, "This was taken out of the inventory and is not changed any more. Add it anew.");
    }

    private async Task<IReadOnlyList<InventoryView>> ViewsAsync(IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Version)> rows, CancellationToken cancellationToken)
    {
        IReadOnlyDictionary<Guid, string> names = await reader.NamesAsync([.. rows.Select(row => row.Version.AuthorId).Distinct()], cancellationToken);
        return [.. rows.Select(row => View(row.Head, row.Version, names[row.Version.AuthorId]))];
    }

    private static InventoryView View(InventoryItemRecord head, InventoryVersionRecord version, string author) => new()
    {
        Id = head.Id,
        GroupId = head.GroupId,
        Kind = head.Kind,
        Version = version.Version,
        Content = InventoryRows.Content((head, version)),
        RetiredAt = head.RetiredAt,
        Change = version.Change,
        ChangedAt = version.At,
        ChangedBy = author,
        Reason = version.Reason,
        ContentDigest = version.ContentDigest,
    };
}
