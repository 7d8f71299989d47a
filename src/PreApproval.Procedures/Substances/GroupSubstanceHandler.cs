using PreApproval.Documents;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Substances;

/// <summary>
/// The group's own substances. Reviewers and leads write them, because a value decides what is flagged; everybody who reads procedures
/// reads them. Each change is a version that is never changed, with its event in the same transaction.
/// </summary>
public sealed class GroupSubstanceHandler(
    IUnitOfWork work, IGroupSubstanceStore store, IProcedureReader reader, IGroupStore groups, AuditTrail trail, TimeProvider clock)
{
    /// <summary>Most substances of a group that are in use.</summary>
    public const int Most = 2_000;

    /// <summary>May add, change and retire.</summary>
    public static bool MayWrite(Actor actor)
    {
        ArgumentNullException.ThrowIfNull(actor);
        return Access.ReviewsOrLeads(actor.Is);
    }

    /// <summary>Adds a substance; refused where its name, a synonym or its CAS number is taken.</summary>
    public async Task<Result<GroupSubstanceView, Refusal>> AddAsync(Actor actor, ReadOnlyMemory<byte> substance, CancellationToken cancellationToken)
    {
        if (!MayWrite(actor))
        {
            return RefuseWriting(actor);
        }

        Result<GroupSubstance, DocumentRefusal> read = GroupSubstanceDocument.Read(substance);
        if (!read.IsOk)
        {
            return Refuse(read.Error);
        }

        DateTimeOffset now = clock.GetUtcNow();
        GroupSubstanceRecord head = GroupSubstanceRows.Head(Guid.CreateVersion7(now), actor.GroupId, read.Value, version: 1, now);
        GroupSubstanceVersionRecord first = GroupSubstanceRows.Version(head, VersionChange.Added, actor, now, reason: null, GroupSubstanceDocument.Canonical(read.Value));
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await StandingFaultAsync(actor, cancellationToken) is { } forbidden)
        {
            return forbidden;
        }

        await store.LockAllAsync(actor.GroupId, cancellationToken);
        if (await TakenAsync(actor.GroupId, head.Id, read.Value, cancellationToken) is { } taken)
        {
            return taken;
        }

        if (!await store.AddAsync(head, first, cancellationToken))
        {
            return Taken("/name", "The name or the CAS number was taken a moment ago.");
        }

        await trail.AppendAsync(actor, [GroupSubstanceRows.Event(head, first, "substance.added", $"{actor.Name} added '{TypedText.Title(head.Name)}' to the group's own substances.")], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return View(head, first, actor.Name);
    }

    /// <summary>Replaces a substance where its version is still <paramref name="expectedVersion"/>; otherwise <see cref="RefusalKind.Stale"/>.</summary>
    public async Task<Result<GroupSubstanceView, Refusal>> ChangeAsync(Actor actor, Guid substanceId, int expectedVersion, ReadOnlyMemory<byte> substance, CancellationToken cancellationToken)
    {
        if (!MayWrite(actor))
        {
            return RefuseWriting(actor);
        }

        Result<GroupSubstance, DocumentRefusal> read = GroupSubstanceDocument.Read(substance);
        if (!read.IsOk)
        {
            return Refuse(read.Error);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        Result<GroupSubstanceRecord, Refusal> held = await HoldAsync(actor, substanceId, expectedVersion, cancellationToken);
        if (!held.IsOk)
        {
            return held.Error;
        }

        GroupSubstanceRecord stored = held.Value;
        if (await TakenAsync(actor.GroupId, substanceId, read.Value, cancellationToken) is { } taken)
        {
            return taken;
        }

        GroupSubstanceVersionRecord before = (await store.VersionsAsync(actor.GroupId, substanceId, cancellationToken))[0];
        byte[] content = GroupSubstanceDocument.Canonical(read.Value);
        if (before.Content.AsSpan().SequenceEqual(content))
        {
            return View(stored, before, (await reader.NamesAsync([before.AuthorId], cancellationToken))[before.AuthorId]);
        }

        DateTimeOffset now = clock.GetUtcNow();
        GroupSubstanceRecord head = GroupSubstanceRows.Head(substanceId, actor.GroupId, read.Value, stored.Version + 1, now);
        GroupSubstanceVersionRecord next = GroupSubstanceRows.Version(head, VersionChange.Changed, actor, now, reason: null, content);
        if (!await store.ChangeAsync(head, next, cancellationToken))
        {
            return Taken("/name", "The name or the CAS number was taken a moment ago.");
        }

        string what = SubstanceDifference.Words(GroupSubstanceRows.Content(before), read.Value);
        await trail.AppendAsync(
            actor,
            [GroupSubstanceRows.Event(head, next, "substance.changed", $"{actor.Name} changed '{TypedText.Title(head.Name)}' of the group's own substances, now version {head.Version}: {what}.") with { Before = before.ContentDigest }],
            cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return View(head, next, actor.Name);
    }

    /// <summary>Takes a substance out of use for ever, with the reason. Procedures that were submitted keep their copy.</summary>
    public async Task<Result<GroupSubstanceView, Refusal>> RetireAsync(Actor actor, Guid substanceId, int expectedVersion, string reason, CancellationToken cancellationToken)
    {
        if (!MayWrite(actor))
        {
            return RefuseWriting(actor);
        }

        if (string.IsNullOrWhiteSpace(reason) || TypedText.Fault(reason) is not null)
        {
            return new Refusal(RefusalKind.Invalid, "Say why it is taken out of use.", [new Fault("/reason", TypedText.Fault(reason) ?? "Say why, in a few words.")]);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        Result<GroupSubstanceRecord, Refusal> held = await HoldAsync(actor, substanceId, expectedVersion, cancellationToken);
        if (!held.IsOk)
        {
            return held.Error;
        }

        GroupSubstanceRecord stored = held.Value;
        DateTimeOffset now = clock.GetUtcNow();
        GroupSubstanceVersionRecord before = (await store.VersionsAsync(actor.GroupId, substanceId, cancellationToken))[0];
        GroupSubstanceRecord head = stored with { Version = stored.Version + 1, RetiredAt = now, UpdatedAt = now };
        GroupSubstanceVersionRecord next = GroupSubstanceRows.Version(head, VersionChange.Retired, actor, now, reason.Trim(), before.Content);
        if (!await store.ChangeAsync(head, next, cancellationToken))
        {
            throw new InvalidOperationException("A substance that goes out of use takes no name.");
        }

        await trail.AppendAsync(
            actor,
            [GroupSubstanceRows.Event(head, next, "substance.retired", $"{actor.Name} took '{TypedText.Title(head.Name)}' out of the group's own substances.") with { Before = before.ContentDigest, Reason = next.Reason }],
            cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return View(head, next, actor.Name);
    }

    /// <summary>One substance of the actor's group, also a retired one.</summary>
    public async Task<Result<GroupSubstanceView, Refusal>> ReadAsync(Actor actor, Guid substanceId, CancellationToken cancellationToken)
    {
        Result<IReadOnlyList<GroupSubstanceView>, Refusal> versions = await VersionsAsync(actor, substanceId, cancellationToken);
        return versions.IsOk ? versions.Value[0] : versions.Error;
    }

    /// <summary>Every version of a substance, newest first.</summary>
    public async Task<Result<IReadOnlyList<GroupSubstanceView>, Refusal>> VersionsAsync(Actor actor, Guid substanceId, CancellationToken cancellationToken)
    {
        if (!Access.MayRead(actor))
        {
            return Access.RefuseReading(actor);
        }

        if (await store.FindAsync(actor.GroupId, substanceId, cancellationToken) is not { } head)
        {
            return Refusal.NotFound;
        }

        IReadOnlyList<GroupSubstanceVersionRecord> versions = await store.VersionsAsync(actor.GroupId, substanceId, cancellationToken);
        return Result<IReadOnlyList<GroupSubstanceView>, Refusal>.Ok(await ViewsAsync([.. versions.Select(version => (head, version))], cancellationToken));
    }

    /// <summary>The group's own substances by name; those taken out of use only where asked for.</summary>
    public async Task<Result<IReadOnlyList<GroupSubstanceView>, Refusal>> ListAsync(Actor actor, bool retired, CancellationToken cancellationToken) =>
        Access.MayRead(actor)
            ? Result<IReadOnlyList<GroupSubstanceView>, Refusal>.Ok(await ViewsAsync(await store.ListAsync(actor.GroupId, retired, cancellationToken), cancellationToken))
            : Access.RefuseReading(actor);

    private static Refusal RefuseWriting(Actor actor) => Access.MayRead(actor)
        ? Refusal.Because(RefusalKind.Forbidden, "Reviewers and group leads write the group's own substances, because their values decide what is flagged. A value for one procedure can stand in the procedure itself, where its reviewer sees it.")
        : Access.RefuseReading(actor);

    private static Refusal Refuse(DocumentRefusal refusal) => DocumentScreener.Refuse(refusal) with
    {
        Message = refusal.Kind switch
        {
            DocumentRefusalKind.TooLarge => "The substance is larger than a substance can be.",
            DocumentRefusalKind.NotJson => "The substance is not well-formed JSON.",
            DocumentRefusalKind.UnknownMember => "The substance has members that the format does not know.",
            DocumentRefusalKind.Invalid => "The substance has faults.",
        },
    };

    /// <summary>The substance as it stands, which nobody else changes until the end of the transaction.</summary>
    private async Task<Result<GroupSubstanceRecord, Refusal>> HoldAsync(Actor actor, Guid substanceId, int expectedVersion, CancellationToken cancellationToken)
    {
        if (await StandingFaultAsync(actor, cancellationToken) is { } forbidden)
        {
            return forbidden;
        }

        await store.LockAllAsync(actor.GroupId, cancellationToken);
        if (await store.LockAsync(actor.GroupId, substanceId, cancellationToken) is not { } stored)
        {
            return Refusal.NotFound;
        }

        return WhyNot(stored, expectedVersion) is { } refusal ? refusal : stored;
    }

    private static Refusal? WhyNot(GroupSubstanceRecord stored, int expectedVersion)
    {
        if (stored.Version != expectedVersion)
        {
            return Refusal.Because(RefusalKind.Stale, $"The substance was changed in the meantime: it is at version {stored.Version}. Read it again.");
        }

        return stored.RetiredAt is null ? null : Refusal.Because(RefusalKind.Conflict, "The substance was taken out of use and is not changed any more. Add it anew.");
    }

    /// <summary>What the person may do counts at this moment, whatever the request began with.</summary>
    private async Task<Refusal?> StandingFaultAsync(Actor actor, CancellationToken cancellationToken) =>
        await groups.LockStandingAsync(actor.GroupId, actor.UserId, cancellationToken) is { Active: true } standing && Access.ReviewsOrLeads(standing.Is)
            ? null
            : Refusal.Because(RefusalKind.Forbidden, "Your role in this group was changed: you no longer write its substances.");

    private async Task<Refusal?> TakenAsync(Guid groupId, Guid substanceId, GroupSubstance substance, CancellationToken cancellationToken)
    {
        IReadOnlyList<(GroupSubstanceRecord Head, GroupSubstanceVersionRecord Latest)> listed = await store.ListAsync(groupId, retired: false, cancellationToken);
        GroupSubstance[] others = [.. listed.Where(other => other.Head.Id != substanceId).Select(other => GroupSubstanceRows.Content(other.Latest))];
        if (others.Length >= Most)
        {
            return Refusal.Because(RefusalKind.Conflict, $"The group has {Most} substances of its own, which is the most. Retire some first.");
        }

        if (substance.Cas is { } cas && Array.Find(others, other => string.Equals(other.Cas, cas, StringComparison.Ordinal)) is { } same)
        {
            return Taken("/cas", $"'{same.Name}' of the group's own substances has this CAS number.");
        }

        string[] names = [.. substance.Names];
        for (int i = 0; i < names.Length; i++)
        {
            if (Array.Find(others, other => other.Names.Any(name => NameSpelling.Same(name, names[i]))) is { } holder)
            {
                return Taken(i == 0 ? "/name" : FormattableString.Invariant($"/synonyms/{i - 1}"), $"'{holder.Name}' of the group's own substances goes by this name.");
            }
        }

        return null;
    }

    private static Refusal Taken(string path, string message) => new(RefusalKind.Conflict, "The group has a substance of this name or number.", [new Fault(path, message)]);

    private async Task<IReadOnlyList<GroupSubstanceView>> ViewsAsync(IReadOnlyList<(GroupSubstanceRecord Head, GroupSubstanceVersionRecord Version)> rows, CancellationToken cancellationToken)
    {
        IReadOnlyDictionary<Guid, string> names = await reader.NamesAsync([.. rows.Select(row => row.Version.AuthorId).Distinct()], cancellationToken);
        return [.. rows.Select(row => View(row.Head, row.Version, names[row.Version.AuthorId]))];
    }

    private static GroupSubstanceView View(GroupSubstanceRecord head, GroupSubstanceVersionRecord version, string author) => new()
    {
        Id = head.Id,
        GroupId = head.GroupId,
        Version = version.Version,
        Substance = GroupSubstanceRows.Content(version),
        RetiredAt = head.RetiredAt,
        Change = version.Change,
        ChangedAt = version.At,
        ChangedBy = author,
        Reason = version.Reason,
        ContentDigest = version.ContentDigest,
    };
}
