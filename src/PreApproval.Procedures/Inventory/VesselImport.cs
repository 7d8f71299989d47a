namespace PreApproval.Procedures.Inventory;

/// <summary>What a line of a table does.</summary>
public enum ImportEffect
{
    Added,
    Changed,
    Unchanged,
}

/// <summary>What one line of a table does to the inventory.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Label">Label of the vessel.</param>
/// <param name="Effect">Whether it is new, changed or as it was.</param>
/// <param name="Words">What changes, in words; all values of a new one; empty where nothing changes.</param>
/// <param name="Id">Identifier in the inventory; null: it gets one when it is imported.</param>
/// <param name="Version">Its number after the import.</param>
public sealed record ImportedVessel(int Line, string Label, ImportEffect Effect, string Words, Guid? Id, int Version);

/// <summary>What an import did, or would do.</summary>
/// <param name="Done">False: a preview; nothing was changed.</param>
/// <param name="Plan">Digest of what it does: an import that names it is refused when it would do something else.</param>
/// <param name="Vessels">In the order of the file. Vessels that are not in the file stay as they are.</param>
public sealed record VesselImport(bool Done, string Plan, IReadOnlyList<ImportedVessel> Vessels);
