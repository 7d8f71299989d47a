using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Documents.Substances;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Substances;

/// <summary>A document with the group's own values in it.</summary>
/// <param name="Document">As it is screened.</param>
/// <param name="Bytes">As it is kept: as sent where nothing was copied, else in the canonical form of RFC 8785.</param>
public sealed record CompletedDocument(ProcedureDocument Document, ReadOnlyMemory<byte> Bytes);

/// <summary>Copies the group's own values into documents that name its substances, vessels and places: before a screening, and into every revision.</summary>
public sealed class OwnValues(IGroupSubstanceStore store, InventoryLookup inventory, DocumentScreener screener)
{
    /// <summary>The substances in use, by name; none for those who do not read procedures of the group.</summary>
    public async Task<IReadOnlyList<ListedGroupSubstance>> ListAsync(Actor? actor, CancellationToken cancellationToken) =>
        actor is not null && Access.MayRead(actor)
            ? [.. (await store.ListAsync(actor.GroupId, retired: false, cancellationToken)).Select(listed => new ListedGroupSubstance(listed.Head.Id, listed.Head.Version, GroupSubstanceRows.Content(listed.Latest)))]
            : [];

    /// <summary>
    /// Strict reading of a whole document; what the group's own list says of its substances, and the inventory of its vessels and place, is in
    /// it afterwards. A vessel that is out of service, or stated otherwise than the inventory has it, is a fault of the document.
    /// </summary>
    public async Task<Result<CompletedDocument, DocumentRefusal>> ReadAsync(Actor? actor, ReadOnlyMemory<byte> utf8, CancellationToken cancellationToken)
    {
        Result<ProcedureDocument, DocumentRefusal> read = screener.Read(utf8);
        if (!read.IsOk)
        {
            return read.Error;
        }

        ProcedureDocument valued = GroupSubstanceUse.Complete(read.Value, await ListAsync(actor, cancellationToken));
        InventoryCompletion stocked = InventoryUse.Complete(valued, await inventory.OfAsync(actor, valued, cancellationToken), inventory.Today);
        if (stocked.Faults.Count > 0)
        {
            return new DocumentRefusal(DocumentRefusalKind.Invalid, stocked.Faults);
        }

        ProcedureDocument completed = stocked.Document;
        if (ReferenceEquals(completed, read.Value))
        {
            return new CompletedDocument(read.Value, utf8);
        }

        // Read again: what is kept and what is screened must be the same document, with the copies judged like anything else in it.
        byte[] bytes = DocumentWriter.Canonical(completed);
        Result<ProcedureDocument, DocumentRefusal> again = screener.Read(bytes);
        return again.IsOk ? new CompletedDocument(again.Value, bytes) : again.Error;
    }
}
