namespace PreApproval.Procedures.Substances;

/// <summary>The groups' own substances. Every method is limited to a group; a foreign object is not found.</summary>
public interface IGroupSubstanceStore
{
    /// <summary>Latest versions, by name; those that were retired only where asked for.</summary>
    Task<IReadOnlyList<(GroupSubstanceRecord Head, GroupSubstanceVersionRecord Latest)>> ListAsync(Guid groupId, bool retired, CancellationToken cancellationToken);

    Task<GroupSubstanceRecord?> FindAsync(Guid groupId, Guid substanceId, CancellationToken cancellationToken);

    /// <summary>One writer at a time, and nobody who holds the group for a submission: before substances are counted, compared or locked.</summary>
    Task LockAllAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Reads the substance and holds its row until the end of the transaction.</summary>
    Task<GroupSubstanceRecord?> LockAsync(Guid groupId, Guid substanceId, CancellationToken cancellationToken);

    /// <summary>Newest first.</summary>
    Task<IReadOnlyList<GroupSubstanceVersionRecord>> VersionsAsync(Guid groupId, Guid substanceId, CancellationToken cancellationToken);

    /// <summary>False where the name or the CAS number is taken; the scope must then be given up.</summary>
    Task<bool> AddAsync(GroupSubstanceRecord substance, GroupSubstanceVersionRecord first, CancellationToken cancellationToken);

    /// <summary>Moves a locked substance to its next version. False where the name or the CAS number is taken; the scope must then be given up.</summary>
    Task<bool> ChangeAsync(GroupSubstanceRecord substance, GroupSubstanceVersionRecord next, CancellationToken cancellationToken);
}
