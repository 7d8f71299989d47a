using PreApproval.Documents;
using PreApproval.Documents.Policies;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Thresholds;

/// <summary>
/// The thresholds of a group. The lead sets them with a reason; everybody of the group reads them. Each setting is a version that is never
/// changed, with its event in the same transaction.
/// </summary>
public sealed class PolicyHandler(IUnitOfWork work, IPolicyStore store, IProcedureReader reader, IGroupStore groups, AuditTrail trail, TimeProvider clock)
{
    /// <summary>Why the person may not set them; null: they may.</summary>
    public static Refusal? WhyNot(Actor actor)
    {
        ArgumentNullException.ThrowIfNull(actor);
        return actor.Is(GroupRole.Lead) ? null
            : actor.Roles.Count == 0 ? Refusal.NotFound
            : Refusal.Because(RefusalKind.Forbidden, "The group lead sets the thresholds.");
    }

    /// <summary>The policy in use.</summary>
    public async Task<Result<PolicyView, Refusal>> ReadAsync(Actor actor, CancellationToken cancellationToken) =>
        actor.Roles.Count == 0
            ? Refusal.NotFound
            : await ViewAsync(actor.GroupId, await store.CurrentAsync(actor.GroupId, cancellationToken), cancellationToken);

    /// <summary>Every version, newest first; the default, with which the group began, is the last.</summary>
    public async Task<Result<IReadOnlyList<PolicyView>, Refusal>> VersionsAsync(Actor actor, CancellationToken cancellationToken)
    {
        if (actor.Roles.Count == 0)
        {
            return Refusal.NotFound;
        }

        IReadOnlyList<PolicyVersionRecord> versions = await store.VersionsAsync(actor.GroupId, cancellationToken);
        IReadOnlyDictionary<Guid, string> names = await reader.NamesAsync([.. versions.Select(version => version.AuthorId).Distinct()], cancellationToken);
        return Result<IReadOnlyList<PolicyView>, Refusal>.Ok([.. versions.Select(version => View(version, names[version.AuthorId])), DefaultOf(actor.GroupId)]);
    }

    /// <summary>
    /// Sets the policy where its version is still <paramref name="expectedVersion"/>; otherwise <see cref="RefusalKind.Stale"/>. A policy that is
    /// the one in use makes no version.
    /// </summary>
    public async Task<Result<PolicyView, Refusal>> SetAsync(Actor actor, int expectedVersion, Policy policy, string reason, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(policy);
        if (WhyNot(actor) is { } forbidden)
        {
            return forbidden;
        }

        if (Faults(policy, reason) is { Count: > 0 } faults)
        {
            return new Refusal(RefusalKind.Invalid, "The thresholds can't be set like this.", faults);
        }

        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        if (await groups.LockStandingAsync(actor.GroupId, actor.UserId, cancellationToken) is not { Active: true } standing || !standing.Is(GroupRole.Lead))
        {
            return Refusal.Because(RefusalKind.Forbidden, "Your role in this group was changed: you no longer set its thresholds.");
        }

        PolicyVersionRecord? stored = await store.LockAsync(actor.GroupId, cancellationToken);
        int version = PolicyInUse.VersionOf(stored);
        if (version != expectedVersion)
        {
            return Refusal.Because(RefusalKind.Stale, $"The thresholds were set in the meantime: they are at version {version}. Read them again.");
        }

        Policy before = PolicyInUse.PolicyOf(stored);
        if (before == policy)
        {
            return await ViewAsync(actor.GroupId, stored, cancellationToken);
        }

        var next = new PolicyVersionRecord
        {
            GroupId = actor.GroupId,
            Version = version + 1,
            AuthorId = actor.UserId,
            At = clock.GetUtcNow(),
            Reason = reason.Trim(),
            Content = PolicyWriter.Canonical(policy),
            ContentDigest = PolicyWriter.Digest(policy),
        };
        await store.AddAsync(next, cancellationToken);
        await trail.AppendAsync(actor, [Event(actor, before, policy, next)], cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return View(next, actor.Name);
    }

    private static List<Fault> Faults(Policy policy, string reason)
    {
        List<Fault> faults = [.. PolicyRules.Faults(policy).Select(fault => new Fault("/policy" + PolicyReader.PathOf(fault), fault.Message))];
        if (string.IsNullOrWhiteSpace(reason))
        {
            faults.Add(new Fault("/reason", "Say why, in a few words."));
        }
        else if (TypedText.Fault(reason) is { } fault)
        {
            faults.Add(new Fault("/reason", fault));
        }

        return faults;
    }

    private static AuditEntry Event(Actor actor, Policy before, Policy after, PolicyVersionRecord version)
    {
        IReadOnlyList<(PolicyLine Before, PolicyLine After)> changes = PolicyLine.Changes(before, after);
        return new AuditEntry
        {
            Action = "thresholds.set",
            SubjectType = "group",
            SubjectId = version.GroupId,
            Before = string.Join("; ", changes.Select(change => $"{change.Before.Name} {change.Before.Value}")),
            After = string.Join("; ", changes.Select(change => $"{change.After.Name} {change.After.Value}")),
            Reason = version.Reason,
            PayloadDigest = version.ContentDigest,
            Summary = $"{actor.Name} set the thresholds, now version {version.Version}: {string.Join("; ", changes.Select(change => $"{change.After.Name} {change.Before.Value} → {change.After.Value} ({PolicyLine.Words(change.After.Against)})"))}.",
        };
    }

    private async Task<PolicyView> ViewAsync(Guid groupId, PolicyVersionRecord? version, CancellationToken cancellationToken) =>
        version is null ? DefaultOf(groupId) : View(version, (await reader.NamesAsync([version.AuthorId], cancellationToken))[version.AuthorId]);

    private static PolicyView View(PolicyVersionRecord version, string author)
    {
        Policy policy = PolicyInUse.PolicyOf(version);
        return new PolicyView
        {
            GroupId = version.GroupId,
            Version = version.Version,
            Policy = policy,
            Digest = PolicyWriter.Digest(policy),
            Setting = new PolicySetting(author, version.At, version.Reason),
        };
    }

    private static PolicyView DefaultOf(Guid groupId) => new() { GroupId = groupId, Version = PolicyView.DefaultVersion, Policy = Policy.Default, Digest = PolicyWriter.Digest(Policy.Default) };
}
