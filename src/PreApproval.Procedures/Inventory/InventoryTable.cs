using System.Globalization;
using System.Text;
using PreApproval.Audit;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>The vessels of a group as a table: written to a file, and read from one as a whole or not at all.</summary>
public sealed class InventoryTable(IUnitOfWork work, IInventoryStore store, IGroupStore groups, AuditTrail trail, TimeProvider clock)
{
    /// <summary>Most bytes of a file: 1 MB.</summary>
    public const int LargestBytes = 1_000_000;

    private const int MostFaults = 200;

    private const string Origin = "imported from a file";

    /// <summary>The vessels in use, by label, as CSV (RFC 4180) in UTF-8.</summary>
    public async Task<Result<string, Refusal>> ExportAsync(Actor actor, CancellationToken cancellationToken) => Access.MayRead(actor)
        ? VesselTable.Write([.. (await store.ListAsync(actor.GroupId, InventoryKind.Vessel, retired: false, cancellationToken)).Select(static row => (InventoryVessel)InventoryRows.Content(row))])
        : Access.RefuseReading(actor);

    /// <summary>
    /// Adds the vessels whose label is new and changes those whose label is there; all of them or none. A preview changes nothing. Where
    /// <paramref name="plan"/> is given and the import would do something else than that preview said: <see cref="RefusalKind.Stale"/>.
    /// </summary>
    public async Task<Result<VesselImport, Refusal>> ImportAsync(Actor actor, ReadOnlyMemory<byte> file, bool preview, string? plan, CancellationToken cancellationToken)
    {
        if (!InventoryHandler.MayWrite(actor))
        {
            return InventoryHandler.RefuseWriting(actor);
        }

        if (file.Length > LargestBytes)
        {
            return Refusal.Because(RefusalKind.TooLarge, "The file is larger than 1 MB.");
        }

        Result<VesselTable, DocumentRefusal> table = VesselTable.Read(file);
        if (!table.IsOk)
        {
            return Refuse(table.Error);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await InventoryHandler.StandingAsync(groups, actor, cancellationToken) is not { } standing)
        {
            return InventoryHandler.RoleChanged;
        }

        if (!preview)
        {
            await store.LockAllAsync(actor.GroupId, cancellationToken);
        }

        IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)> listed = await store.ListAsync(actor.GroupId, InventoryKind.Vessel, retired: false, cancellationToken);
        Result<IReadOnlyList<Planned>, Refusal> planned = Plan(table.Value, listed.ToDictionary(static row => row.Head.NameKey, StringComparer.Ordinal), standing, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime));
        if (!planned.IsOk)
        {
            return planned.Error;
        }

        if (listed.Count + planned.Value.Count(static line => line.Effect == ImportEffect.Added) > InventoryHandler.Most)
        {
            return Refusal.Because(RefusalKind.Conflict, $"With these the inventory would have more than {InventoryHandler.Most} vessels, which is the most.");
        }

        string digest = Digest(planned.Value);
        if (plan is not null && !string.Equals(plan, digest, StringComparison.Ordinal))
        {
            return Refusal.Because(RefusalKind.Stale, "The inventory, or the file, has changed since the preview: the import would now do something else. Look at it again.");
        }

        if (preview)
        {
            return View(planned.Value, done: false, digest, null);
        }

        Result<IReadOnlyDictionary<int, Guid>, Refusal> kept = await KeepAsync(actor, planned.Value, cancellationToken);
        if (!kept.IsOk)
        {
            return kept.Error;
        }

        await scope.CommitAsync(cancellationToken);
        return View(planned.Value, done: true, digest, kept.Value);
    }

    private static Result<IReadOnlyList<Planned>, Refusal> Plan(VesselTable table, Dictionary<string, (InventoryItemRecord Head, InventoryVersionRecord Latest)> listed, Standing standing, DateOnly today)
    {
        List<Fault> faults = [];
        List<Planned> planned = [];
        Dictionary<string, int> lines = new(StringComparer.Ordinal);
        foreach (CsvRecord line in table.Lines)
        {
            string key = NameSpelling.Of(table.LabelOf(line));
            if (key.Length > 0 && !lines.TryAdd(key, line.Line))
            {
                faults.Add(table.FaultOfLabel(line, string.Create(CultureInfo.InvariantCulture, $"is on line {lines[key]} already; give each vessel one line")));
                continue;
            }

            (InventoryItemRecord Head, InventoryVersionRecord Latest)? stored = listed.TryGetValue(key, out var row) ? row : null;
            var before = stored is { } known ? (InventoryVessel)InventoryRows.Content(known) : null;
            Result<InventoryVessel, DocumentRefusal> read = table.Read(line, before);
            if (!read.IsOk)
            {
                faults.AddRange(read.Error.Faults);
                continue;
            }

            if (before is not null && InventoryRows.WhyNotBack(standing, before, read.Value, "") is { } back)
            {
                faults.Add(VesselTable.FaultAt(line.Line, "out of service", back.Message));
                continue;
            }

            if (read.Value.Vessel.InspectedOn != before?.Vessel.InspectedOn && InventoryUse.InspectionFault(read.Value.Vessel, today) is { } ahead)
            {
                faults.Add(VesselTable.FaultAt(line.Line, "inspected on", ahead.Message));
                continue;
            }

            byte[] content = InventoryDocument.Canonical(read.Value);
            ImportEffect effect = stored is null ? ImportEffect.Added : stored.Value.Latest.Content.AsSpan().SequenceEqual(content) ? ImportEffect.Unchanged : ImportEffect.Changed;
            planned.Add(new Planned(line.Line, stored, read.Value, content, effect, effect switch
            {
                ImportEffect.Added => InventoryDifference.Values(read.Value),
                ImportEffect.Changed => InventoryDifference.Words(before!, read.Value),
                ImportEffect.Unchanged => "",
            }));
        }

        return faults.Count > 0
            ? new Refusal(RefusalKind.Invalid, $"The file has faults; nothing was imported. {faults.Count} in all.", [.. faults.Take(MostFaults)])
            : Result<IReadOnlyList<Planned>, Refusal>.Ok(planned);
    }

    /// <summary>Identifiers of what was added and changed, by line.</summary>
    private async Task<Result<IReadOnlyDictionary<int, Guid>, Refusal>> KeepAsync(Actor actor, IReadOnlyList<Planned> planned, CancellationToken cancellationToken)
    {
        DateTimeOffset now = clock.GetUtcNow();
        List<AuditEntry> events = [];
        List<(InventoryItemRecord Item, InventoryVersionRecord First)> added = [];
        Dictionary<int, Guid> ids = [];
        foreach (Planned line in planned.Where(static line => line.Effect != ImportEffect.Unchanged))
        {
            Guid id = line.Stored?.Head.Id ?? Guid.CreateVersion7(now);
            InventoryItemRecord head = InventoryRows.Head(id, actor.GroupId, line.Vessel, line.Version, now);
            InventoryVersionRecord version = InventoryRows.Version(head, line.Stored is null ? VersionChange.Added : VersionChange.Changed, actor, now, Origin, line.Content);
            if (line.Stored is { } stored && (await store.LockAsync(actor.GroupId, InventoryKind.Vessel, id, cancellationToken))?.Version != stored.Head.Version)
            {
                return Meanwhile(stored.Head.Name);
            }

            if (line.Stored is null)
            {
                added.Add((head, version));
            }
            else if (!await store.ChangeAsync(head, version, cancellationToken))
            {
                return Meanwhile(head.Name);
            }

            string named = InventoryRows.Named(line.Vessel, "");
            events.Add(InventoryRows.Event(head, version, line.Stored is null
                ? $"{actor.Name} added {named} to the inventory, from a file."
                : $"{actor.Name} changed {named} of the inventory from a file, now version {head.Version.ToString(CultureInfo.InvariantCulture)}: {line.Words}.") with
            { Before = line.Stored?.Latest.ContentDigest });
            ids.Add(line.Line, id);
        }

        if (added.Count > 0 && !await store.AddAsync(added, cancellationToken))
        {
            return Refusal.Because(RefusalKind.Stale, "One of the new vessels was added by somebody else a moment ago; nothing was imported. Look at it again.");
        }

        if (events.Count > 0)
        {
            await trail.AppendAsync(actor, events, cancellationToken);
        }

        return Result<IReadOnlyDictionary<int, Guid>, Refusal>.Ok(ids);
    }

    private static Refusal Meanwhile(string label) => Refusal.Because(RefusalKind.Stale, $"'{TypedText.Title(label)}' was changed by somebody else a moment ago; nothing was imported. Look at it again.");

    private static VesselImport View(IReadOnlyList<Planned> planned, bool done, string digest, IReadOnlyDictionary<int, Guid>? ids) => new(
        done, digest,
        [.. planned.Select(line => new ImportedVessel(line.Line, line.Vessel.Label, line.Effect, line.Words, line.Stored?.Head.Id ?? (ids is not null && ids.TryGetValue(line.Line, out Guid id) ? id : null), line.Version))]);

    private static string Digest(IReadOnlyList<Planned> planned)
    {
        var text = new StringBuilder();
        foreach (Planned line in planned)
        {
            text.Append(CultureInfo.InvariantCulture, $"{line.Stored?.Head.Id} {line.Version} {line.Effect} {CanonicalJson.Digest(line.Content)}\n");
        }

        return CanonicalJson.Digest(Encoding.UTF8.GetBytes(text.ToString()));
    }

    private static Refusal Refuse(DocumentRefusal refusal) => DocumentScreener.Refuse(refusal) with
    {
        Message = refusal.Kind == DocumentRefusalKind.NotJson ? "The file is not a table that can be read; nothing was imported." : "The file has faults; nothing was imported.",
    };

    /// <summary>What a line does.</summary>
    private sealed record Planned(int Line, (InventoryItemRecord Head, InventoryVersionRecord Latest)? Stored, InventoryVessel Vessel, byte[] Content, ImportEffect Effect, string Words)
    {
        public int Version => (Stored?.Head.Version ?? 0) + (Effect == ImportEffect.Unchanged ? 0 : 1);
    }
}
