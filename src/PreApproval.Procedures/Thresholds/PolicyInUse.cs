using PreApproval.Documents.Policies;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Thresholds;

/// <summary>The policy under which a group's documents are screened.</summary>
public sealed class PolicyInUse(IPolicyStore store)
{
    /// <summary>That of the actor's group; the program's default for somebody without a group.</summary>
    public async Task<Policy> OfAsync(Actor? actor, CancellationToken cancellationToken) =>
        actor is { Roles.Count: > 0 } ? PolicyOf(await store.CurrentAsync(actor.GroupId, cancellationToken)) : Policy.Default;

    internal static Policy PolicyOf(PolicyVersionRecord? version) => version is null ? Policy.Default : PolicyReader.Parse(version.Content);

    internal static int VersionOf(PolicyVersionRecord? version) => version?.Version ?? PolicyView.DefaultVersion;
}
