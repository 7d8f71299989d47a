using PreApproval.Documents.Inventory;

namespace PreApproval.Procedures.Inventory;

/// <summary>The groups' inventories. Every method is limited to a group; a foreign object is not found.</summary>
public interface IInventoryStore
{
    /// <summary>Latest versions, by name; those that were retired only where asked for.</summary>
    Task<IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)>> ListAsync(Guid groupId, InventoryKind kind, bool retired, CancellationToken cancellationToken);

    /// <summary>A number that is another one after each change of the group's inventory: the sum of all versions, which are only ever added to.</summary>
    Task<long> StampAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Latest versions of vessels of these names, retired ones too, of the place in use of that name, and of the agents in use at it.</summary>
    Task<IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)>> NamedAsync(
        Guid groupId, IReadOnlyCollection<string> vesselKeys, string? placeKey, CancellationToken cancellationToken);

    Task<InventoryItemRecord?> FindAsync(Guid groupId, InventoryKind kind, Guid id, CancellationToken cancellationToken);

    /// <summary>Nobody changes the group's inventory before the end of the transaction.</summary>
    Task HoldAllAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>The same for the one who is about to change it: before entries are counted or locked.</summary>
    Task LockAllAsync(Guid groupId, CancellationToken cancellationToken);

    /// <summary>Reads the entry and holds its row until the end of the transaction.</summary>
    Task<InventoryItemRecord?> LockAsync(Guid groupId, InventoryKind kind, Guid id, CancellationToken cancellationToken);

    /// <summary>Newest first.</summary>
    Task<IReadOnlyList<InventoryVersionRecord>> VersionsAsync(Guid groupId, Guid id, CancellationToken cancellationToken);

    /// <summary>Number of entries of a kind in use, and of those at a place.</summary>
    Task<int> CountAsync(Guid groupId, InventoryKind kind, Guid? placeId, CancellationToken cancellationToken);

    /// <summary>Adds entries with their first versions. False where a name is taken; the scope must then be given up.</summary>
    Task<bool> AddAsync(IReadOnlyList<(InventoryItemRecord Item, InventoryVersionRecord First)> added, CancellationToken cancellationToken);

    /// <summary>Moves a locked entry to its next version. False where the name is taken; the scope must then be given up.</summary>
    Task<bool> ChangeAsync(InventoryItemRecord item, InventoryVersionRecord next, CancellationToken cancellationToken);
}
