namespace PreApproval.Procedures.Thresholds;

/// <summary>The groups' policies. Every method is limited to a group.</summary>
public interface IPolicyStore
{
    /// <summary>The latest version; null: the group never set one.</summary>
    Task<PolicyVersionRecord?> CurrentAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>The same; nobody sets another one before the end of the transaction.</summary>
    Task<PolicyVersionRecord?> HoldAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>The same for the one who is about to set the next one.</summary>
    Task<PolicyVersionRecord?> LockAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Newest first.</summary>
    Task<IReadOnlyList<PolicyVersionRecord>> VersionsAsync(Guid groupId, CancellationToken cancellationToken);

    Task AddAsync(PolicyVersionRecord version, CancellationToken cancellationToken);
}
