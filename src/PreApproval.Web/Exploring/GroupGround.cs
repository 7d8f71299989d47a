using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Screening;

namespace PreApproval.Web.Exploring;

/// <summary>What of its group a document is read with.</summary>
/// <param name="Own">The group's own substances.</param>
/// <param name="Inventory">Its vessels, places and agents; empty for a revision, which has its copies.</param>
/// <param name="Today">By which an inspection is judged where the document does not say when it is planned.</param>
/// <param name="Policy">Its thresholds.</param>
public sealed record GroupGround(IReadOnlyList<ListedGroupSubstance> Own, GroupInventory Inventory, DateOnly Today, Policy Policy)
{
    /// <summary>A group that has nothing of its own.</summary>
    public static GroupGround Bare { get; } = new([], GroupInventory.Empty, DateOnly.MinValue, Policy.Default);

    public InventoryCompletion Complete(ProcedureDocument read) => InventoryUse.Complete(GroupSubstanceUse.Complete(read, Own), Inventory, Today);
}
