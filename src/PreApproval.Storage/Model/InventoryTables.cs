using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Inventory;

namespace PreApproval.Storage.Model;

/// <summary>The groups' vessels, places and extinguishing agents, and their versions. Every foreign key begins with the group.</summary>
internal static class InventoryTables
{
    /// <summary>Longest name: that of a line in a document.</summary>
    private const int LongestName = 300;

    public static void Configure(ModelBuilder builder)
    {
        builder.Entity<InventoryItemRecord>(item =>
        {
            item.ToTable("inventory_item").HasKey(x => x.Id);
            item.HasAlternateKey(x => new { x.GroupId, x.Id });
            item.Property(x => x.Id).ValueGeneratedNever();
            item.Property(x => x.Name).HasMaxLength(LongestName);
            item.Property(x => x.NameKey).HasMaxLength(LongestName);
            item.HasOne<GroupRow>().WithMany().HasForeignKey(x => x.GroupId).OnDelete(DeleteBehavior.Restrict);
            item.HasOne<InventoryItemRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.PlaceId }).HasPrincipalKey(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
            item.HasIndex(x => new { x.GroupId, x.Kind, x.NameKey }).IsUnique().HasFilter("retired_at IS NULL AND kind <> 'agent'");
        });
        builder.Entity<InventoryVersionRecord>(version =>
        {
            version.ToTable("inventory_version").HasKey(x => new { x.ItemId, x.Version });
            version.Property(x => x.Version).ValueGeneratedNever();
            version.HasOne<InventoryItemRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ItemId }).HasPrincipalKey(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
            version.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AuthorId }).OnDelete(DeleteBehavior.Restrict);
        });
    }
}
