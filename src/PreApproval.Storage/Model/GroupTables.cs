using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Storage.Model;

internal static class GroupTables
{
    public static void Configure(ModelBuilder builder)
    {
        builder.Entity<GroupRow>(group =>
        {
            group.ToTable("research_group").HasKey(x => x.Id);
            group.Property(x => x.Id).ValueGeneratedNever();
            group.Property(x => x.Name).HasMaxLength(200);
            group.HasIndex(x => x.Name).IsUnique();
        });
        builder.Entity<GroupPolicyRow>(policy =>
        {
            policy.ToTable("group_policy").HasKey(x => x.GroupId);
            policy.Property(x => x.GroupId).ValueGeneratedNever();
            policy.HasOne<GroupRow>().WithOne().HasForeignKey<GroupPolicyRow>(x => x.GroupId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<MembershipRow>(membership =>
        {
            membership.ToTable("membership").HasKey(x => new { x.GroupId, x.AccountId });
            membership.HasOne<GroupRow>().WithMany().HasForeignKey(x => x.GroupId).OnDelete(DeleteBehavior.Restrict);
            membership.HasOne<Account>().WithMany().HasForeignKey(x => x.AccountId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<RoleRow>(role =>
        {
            role.ToTable("membership_role").HasKey(x => new { x.GroupId, x.AccountId, x.Role });
            role.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AccountId }).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<CompetenceRow>(competence =>
        {
            competence.ToTable("membership_competence").HasKey(x => new { x.GroupId, x.AccountId, x.Hazard });
            competence.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AccountId }).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<RoutingRuleRow>(rule =>
        {
            rule.ToTable("routing_rule").HasKey(x => new { x.GroupId, x.Order });
            rule.Property(x => x.Order).HasColumnName("position").ValueGeneratedNever();
            rule.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.ReviewerId }).OnDelete(DeleteBehavior.Restrict);
            rule.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.DeputyId }).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<ApiTokenRecord>(token =>
        {
            token.ToTable("api_token").HasKey(x => x.Id);
            token.Property(x => x.Id).ValueGeneratedNever();
            token.HasIndex(x => x.Hash).IsUnique();
            token.HasOne<Account>().WithMany().HasForeignKey(x => x.AccountId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<SessionRecord>(session =>
        {
            session.ToTable("session").HasKey(x => x.Id);
            session.Property(x => x.Id).ValueGeneratedNever();
            session.HasIndex(x => x.Hash).IsUnique();
            session.HasIndex(x => x.CreatedAt);
            session.HasOne<Account>().WithMany().HasForeignKey(x => x.AccountId).OnDelete(DeleteBehavior.Restrict);
        });
    }
}
