using System.Text;
using PreApproval.Audit;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.History;

/// <summary>Appends events to a group's log inside the current transaction.</summary>
public sealed class AuditTrail(IAuditStore store, TimeProvider clock)
{
    /// <summary>
    /// Gives each entry its place, its leaf and its hash. Call it as the last write of the transaction: from here to the
    /// commit the group's log is held. Events are of the moment at which it is held, and never before the event before them, whatever the clock does.
    /// </summary>
    public async Task AppendAsync(Actor actor, IReadOnlyList<AuditEntry> entries, CancellationToken cancellationToken)
    {
        if (entries.Count == 0)
        {
            return;
        }

        CompactRange head = await store.LockHeadAsync(actor.GroupId, cancellationToken);
        DateTimeOffset now = clock.GetUtcNow();
        DateTimeOffset at = await store.LastAtAsync(actor.GroupId, cancellationToken) is { } last && last > now ? last : now;
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
    internal static bool Agrees(AuditLeaf leaf, AuditEventRecord stored) =>
        Same(leaf.Tenant, stored.GroupId.ToString("D"))
        && leaf.Seq == stored.Sequence
        && leaf.At == stored.At
        && Same(leaf.Actor.Id, stored.ActorId.ToString("D"))
        && Same(leaf.Actor.Name, stored.ActorName)
        && Same(leaf.Actor.Role, stored.ActorRole)
        && Same(leaf.Action, stored.Action)
        && Same(leaf.Subject.Type, stored.SubjectType)
        && Same(leaf.Subject.Id, stored.SubjectId.ToString("D"))
        && leaf.Subject.Revision == stored.Revision
        && Same(leaf.Subject.Title, stored.ProcedureTitle)
        && stored.ProcedureId == (IsProcedure(stored.SubjectType) ? stored.SubjectId : null)
        && Same(leaf.Reason, stored.Reason)
        && Same(leaf.Summary, stored.Summary)
        && Same(leaf.RequestId, stored.RequestId);

    private static AuditEventRecord Place(Actor actor, long sequence, DateTimeOffset at, AuditEntry entry)
    {
        string role = entry.ActorRole ?? string.Join(", ", actor.Roles.Order().Select(WireName.Of));
        byte[] leaf = new AuditLeaf
        {
            Tenant = actor.GroupId.ToString("D"),
            Seq = sequence,
            At = at,
            Actor = new LeafActor(actor.UserId.ToString("D"), actor.Name, role.Length == 0 ? "none" : role),
            Action = entry.Action,
            Subject = new LeafSubject(entry.SubjectType, entry.SubjectId.ToString("D"), entry.Revision, entry.ProcedureTitle),
            Before = entry.Before,
            After = entry.After,
            Reason = entry.Reason,
            Meaning = entry.Meaning,
            Authn = new LeafAuthentication(actor.AuthenticationMethod, actor.AuthenticatedAt),
            PayloadSha256 = entry.PayloadDigest,
            Ruleset = entry.RuleSet,
            RequestId = actor.RequestId,
            Summary = entry.Summary,
        }.ToBytes();
        return new AuditEventRecord
        {
            GroupId = actor.GroupId,
            Sequence = sequence,
            Leaf = leaf,
            LeafHash = MerkleTree.LeafHash(leaf),
            At = at,
            ActorId = actor.UserId,
            ActorName = actor.Name,
            ActorRole = role.Length == 0 ? "none" : role,
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

    private static bool IsProcedure(string subjectType) => string.Equals(subjectType, AuditEntry.ProcedureSubject, StringComparison.Ordinal);

    /// <summary>The leaf keeps text in normalization form C, a column as it came.</summary>
    private static bool Same(string? leaf, string? column) => string.Equals(leaf, column?.Normalize(NormalizationForm.FormC), StringComparison.Ordinal);
}
