namespace PreApproval.Web.Inventory;

/// <summary>Addresses of the inventory's pages.</summary>
public static class InventoryLinks
{
    public static string Vessel(Guid id) => $"/inventory/vessels/{id}";
}
