using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage.Model;

internal static class LogTables
{
    public static void Configure(ModelBuilder builder)
    {
        builder.Entity<NoticeRecord>(notice =>
        {
            notice.ToTable("notice").HasKey(x => x.Id);
            notice.HasAlternateKey(x => new { x.GroupId, x.Id });
            notice.Property(x => x.Id).ValueGeneratedNever();
            notice.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.RecipientId }).OnDelete(DeleteBehavior.Restrict);
            notice.HasOne<ProcedureRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ProcedureId }).HasPrincipalKey(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
            notice.HasIndex(x => new { x.GroupId, x.RecipientId, x.CreatedAt });
        });
        builder.Entity<OutboxRow>(outbox =>
        {
            outbox.ToTable("outbox").HasKey(x => x.NoticeId);
            outbox.Property(x => x.NoticeId).ValueGeneratedNever();
            outbox.HasOne<NoticeRecord>().WithOne().HasForeignKey<OutboxRow>(x => new { x.GroupId, x.NoticeId }).HasPrincipalKey<NoticeRecord>(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
            outbox.HasIndex(x => x.CreatedAt).HasFilter("sent_at IS NULL");
        });
        builder.Entity<AuditEventRecord>(entry =>
        {
            entry.ToTable("audit_event").HasKey(x => new { x.GroupId, x.Sequence });
            entry.Property(x => x.Sequence).HasColumnName("seq").ValueGeneratedNever();
            entry.Property(x => x.Leaf).HasColumnName("leaf_bytes");
            entry.HasOne<GroupRow>().WithMany().HasForeignKey(x => x.GroupId).OnDelete(DeleteBehavior.Restrict);
            entry.HasIndex(x => new { x.GroupId, x.ProcedureId, x.Sequence });
            entry.HasIndex(x => new { x.GroupId, x.ActorId, x.Sequence });
        });
        builder.Entity<AuditHeadRow>(head =>
        {
            head.ToTable("audit_head").HasKey(x => x.GroupId);
            head.Property(x => x.GroupId).ValueGeneratedNever();
            head.HasOne<GroupRow>().WithOne().HasForeignKey<AuditHeadRow>(x => x.GroupId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<IdempotencyRow>(record =>
        {
            record.ToTable("idempotency_record").HasKey(x => new { x.AccountId, x.Key });
            record.Property(x => x.Key).HasMaxLength(255);
            record.HasOne<Account>().WithMany().HasForeignKey(x => x.AccountId).OnDelete(DeleteBehavior.Restrict);
            record.HasIndex(x => x.CreatedAt);
        });
    }
}
