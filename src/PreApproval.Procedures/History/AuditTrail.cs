using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Audit;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.History;

/// <summary>Appends events to a group's log inside the current transaction.</summary>
public sealed class AuditTrail(IAuditStore store)
{
    /// <summary>
    /// Gives each entry its place, its leaf and its hash. Call it as the last write of the transaction: from here to the
    /// commit the group's log is held.
    /// </summary>
    public async Task AppendAsync(Actor actor, DateTimeOffset at, IReadOnlyList<AuditEntry> entries, CancellationToken cancellationToken)
    {
        CompactRange head = await store.LockHeadAsync(actor.GroupId, cancellationToken);
        var events = new List<AuditEventRecord>(entries.Count);
        foreach (AuditEntry entry in entries)
        {
            AuditEventRecord made = Place(actor, head.Size, at, entry);
            events.Add(made);
            head = head.Append(made.LeafHash);
        }

        await store.AppendAsync(events, head, cancellationToken);
    }

    /// <summary>True when the stored columns say what the leaf says.</summary>
    internal static bool Agrees(AuditEventRecord stored)
    {
        try
        {
            using var leaf = JsonDocument.Parse(stored.Leaf);
            JsonElement root = leaf.RootElement;
            JsonElement actor = root.GetProperty("actor");
            JsonElement subject = root.GetProperty("subject");
            return root.GetProperty("group").ValueEquals(stored.GroupId.ToString("D"))
                && root.GetProperty("seq").GetInt64() == stored.Sequence
                && root.GetProperty("at").ValueEquals(Instant(stored.At))
                && actor.GetProperty("id").ValueEquals(stored.ActorId.ToString("D"))
                && actor.GetProperty("name").ValueEquals(Text(stored.ActorName))
                && actor.GetProperty("role").ValueEquals(stored.ActorRole)
                && root.GetProperty("action").ValueEquals(stored.Action)
                && subject.GetProperty("type").ValueEquals(stored.SubjectType)
                && subject.GetProperty("id").ValueEquals(stored.SubjectId.ToString("D"))
                && stored.ProcedureId == (IsProcedure(stored.SubjectType) ? stored.SubjectId : null)
                && (subject.TryGetProperty("revision", out JsonElement revision) ? revision.GetInt32() : (int?)null) == stored.Revision
                && Same("title", stored.ProcedureTitle)
                && Same("reason", stored.Reason)
                && Same("summary", stored.Summary)
                && Same("requestId", stored.RequestId);

            bool Same(string name, string? column) => root.TryGetProperty(name, out JsonElement value)
                ? column is not null && value.ValueEquals(Text(column))
                : column is null;
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            return false;
        }
    }

    private static AuditEventRecord Place(Actor actor, long sequence, DateTimeOffset at, AuditEntry entry)
    {
        string role = entry.ActorRole ?? string.Join(", ", actor.Roles.Order().Select(WireName.Of));
        if (role.Length == 0)
        {
            role = "none";
        }

        byte[] leaf = CanonicalJson.Serialize(Leaf(actor, role, sequence, at, entry));
        return new AuditEventRecord
        {
            GroupId = actor.GroupId,
            Sequence = sequence,
            Leaf = leaf,
            LeafHash = MerkleTree.LeafHash(leaf),
            At = at,
            ActorId = actor.UserId,
            ActorName = actor.Name,
            ActorRole = role,
            Action = entry.Action,
            SubjectType = entry.SubjectType,
            SubjectId = entry.SubjectId,
            ProcedureId = IsProcedure(entry.SubjectType) ? entry.SubjectId : null,
            ProcedureTitle = entry.ProcedureTitle,
            Revision = entry.Revision,
            Reason = entry.Reason,
            Summary = entry.Summary,
            RequestId = actor.RequestId,
        };
    }

    private static JsonObject Leaf(Actor actor, string role, long sequence, DateTimeOffset at, AuditEntry entry)
    {
        var leaf = new JsonObject
        {
            ["v"] = 1,
            ["group"] = actor.GroupId.ToString("D"),
            ["seq"] = sequence,
            ["at"] = Instant(at),
            ["actor"] = new JsonObject { ["id"] = actor.UserId.ToString("D"), ["name"] = Text(actor.Name), ["role"] = role },
            ["action"] = entry.Action,
            ["subject"] = new JsonObject { ["type"] = entry.SubjectType, ["id"] = entry.SubjectId.ToString("D") },
            ["authn"] = new JsonObject { ["method"] = actor.AuthenticationMethod, ["at"] = Instant(actor.AuthenticatedAt) },
            ["summary"] = Text(entry.Summary),
            ["requestId"] = Text(actor.RequestId),
        };
        Add("title", entry.ProcedureTitle);
        Add("before", entry.Before);
        Add("after", entry.After);
        Add("reason", entry.Reason);
        Add("meaning", entry.Meaning);
        Add("payload", entry.PayloadDigest);
        Add("ruleset", entry.RuleSet);
        if (entry.Revision is { } revision)
        {
            leaf["subject"]!["revision"] = revision;
        }

        return leaf;

        void Add(string name, string? value)
        {
            if (value is not null)
            {
                leaf[name] = Text(value);
            }
        }
    }

    private static bool IsProcedure(string subjectType) => string.Equals(subjectType, AuditEntry.ProcedureSubject, StringComparison.Ordinal);

    /// <summary>RFC 3339, UTC, always six fraction digits: what the database keeps of an instant.</summary>
    internal static string Instant(DateTimeOffset at) =>
        at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture);

    /// <summary>RFC 8785 does not normalise, so equal texts must be made equal here.</summary>
    private static string Text(string value) => value.Normalize(NormalizationForm.FormC);
}
