using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Thresholds;

namespace PreApproval.Storage.Model;

/// <summary>The versions of the groups' thresholds. Every foreign key begins with the group.</summary>
internal static class PolicyTables
{
    public static void Configure(ModelBuilder builder) => builder.Entity<PolicyVersionRecord>(version =>
    {
        version.ToTable("policy_version").HasKey(x => new { x.GroupId, x.Version });
        version.Property(x => x.Version).ValueGeneratedNever();
        version.HasOne<GroupPolicyRow>().WithMany().HasForeignKey(x => x.GroupId).OnDelete(DeleteBehavior.Restrict);
        version.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AuthorId }).OnDelete(DeleteBehavior.Restrict);
    });
}
