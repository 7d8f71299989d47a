using Microsoft.EntityFrameworkCore;
using PreApproval.Documents.Substances;
using PreApproval.Procedures.Substances;

namespace PreApproval.Storage.Model;

/// <summary>The groups' own substances and their versions. Every foreign key begins with the group.</summary>
internal static class SubstanceTables
{
    public static void Configure(ModelBuilder builder)
    {
        builder.Entity<GroupSubstanceRecord>(substance =>
        {
            substance.ToTable("group_substance").HasKey(x => x.Id);
            substance.HasAlternateKey(x => new { x.GroupId, x.Id });
            substance.Property(x => x.Id).ValueGeneratedNever();
            substance.Property(x => x.Name).HasMaxLength(GroupSubstance.LongestName);
            substance.Property(x => x.NameKey).HasMaxLength(GroupSubstance.LongestName);
            substance.HasOne<GroupRow>().WithMany().HasForeignKey(x => x.GroupId).OnDelete(DeleteBehavior.Restrict);
            substance.HasIndex(x => new { x.GroupId, x.NameKey }).IsUnique().HasFilter("retired_at IS NULL");
            substance.HasIndex(x => new { x.GroupId, x.Cas }).IsUnique().HasFilter("retired_at IS NULL AND cas IS NOT NULL");
        });
        builder.Entity<GroupSubstanceVersionRecord>(version =>
        {
            version.ToTable("group_substance_version").HasKey(x => new { x.SubstanceId, x.Version });
            version.Property(x => x.Version).ValueGeneratedNever();
            version.HasOne<GroupSubstanceRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.SubstanceId }).HasPrincipalKey(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
            version.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AuthorId }).OnDelete(DeleteBehavior.Restrict);
        });
    }
}
