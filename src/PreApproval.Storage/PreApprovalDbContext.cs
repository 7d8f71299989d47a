using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Storage.Model;

namespace PreApproval.Storage;

/// <summary>The tables. Triggers, grants and checks are in the migration after the generated one.</summary>
public sealed class PreApprovalDbContext(DbContextOptions<PreApprovalDbContext> options)
    : IdentityUserContext<Account, Guid>(options), IDataProtectionKeyContext
{
    /// <summary>Keys that protect cookies and forms.</summary>
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    internal DbSet<GroupRow> Groups => Set<GroupRow>();

    internal DbSet<GroupPolicyRow> Policies => Set<GroupPolicyRow>();

    internal DbSet<MembershipRow> Memberships => Set<MembershipRow>();

    internal DbSet<RoleRow> Roles => Set<RoleRow>();

    internal DbSet<CompetenceRow> Competences => Set<CompetenceRow>();

    internal DbSet<RoutingRuleRow> RoutingRules => Set<RoutingRuleRow>();

    internal DbSet<ProcedureRecord> Procedures => Set<ProcedureRecord>();

    internal DbSet<EditorRow> Editors => Set<EditorRow>();

    internal DbSet<DraftRecord> Drafts => Set<DraftRecord>();

    internal DbSet<RevisionRecord> Revisions => Set<RevisionRecord>();

    internal DbSet<FindingRecord> Findings => Set<FindingRecord>();

    internal DbSet<SlotRecord> Slots => Set<SlotRecord>();

    internal DbSet<DecisionRecord> Decisions => Set<DecisionRecord>();

    internal DbSet<NoticeRecord> Notices => Set<NoticeRecord>();

    internal DbSet<OutboxRow> Outbox => Set<OutboxRow>();

    internal DbSet<AuditEventRecord> AuditEvents => Set<AuditEventRecord>();

    internal DbSet<AuditHeadRow> AuditHeads => Set<AuditHeadRow>();

    internal DbSet<IdempotencyRow> IdempotencyRecords => Set<IdempotencyRow>();

    internal DbSet<ApiTokenRecord> ApiTokens => Set<ApiTokenRecord>();

    internal DbSet<SessionRecord> Sessions => Set<SessionRecord>();

    internal DbSet<SignRefusalRow> SignRefusals => Set<SignRefusalRow>();

    internal DbSet<GroupSubstanceRecord> GroupSubstances => Set<GroupSubstanceRecord>();

    internal DbSet<GroupSubstanceVersionRecord> GroupSubstanceVersions => Set<GroupSubstanceVersionRecord>();

    internal DbSet<PolicyVersionRecord> PolicyVersions => Set<PolicyVersionRecord>();

    internal DbSet<InventoryItemRecord> InventoryItems => Set<InventoryItemRecord>();

    internal DbSet<InventoryVersionRecord> InventoryVersions => Set<InventoryVersionRecord>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        base.ConfigureConventions(configurationBuilder);
        configurationBuilder.Properties<ProcedureState>().HaveConversion<WireNameConverter<ProcedureState>>();
        configurationBuilder.Properties<DecisionKind>().HaveConversion<WireNameConverter<DecisionKind>>();
        configurationBuilder.Properties<GroupRole>().HaveConversion<WireNameConverter<GroupRole>>();
        configurationBuilder.Properties<SlotKind>().HaveConversion<WireNameConverter<SlotKind>>();
        configurationBuilder.Properties<Hazard>().HaveConversion<WireNameConverter<Hazard>>();
        configurationBuilder.Properties<Severity>().HaveConversion<WireNameConverter<Severity>>();
        configurationBuilder.Properties<VersionChange>().HaveConversion<WireNameConverter<VersionChange>>();
        configurationBuilder.Properties<InventoryKind>().HaveConversion<WireNameConverter<InventoryKind>>();
        configurationBuilder.Properties<Verdict>().HaveConversion<WireNameConverter<Verdict>>();
    }

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.Entity<Account>(account =>
        {
            account.ToTable("account");
            account.HasIndex(x => x.NormalizedUserName).HasDatabaseName("ix_account_normalized_user_name").IsUnique();
            account.HasIndex(x => x.NormalizedEmail).HasDatabaseName("ix_account_normalized_email");
            account.Property(x => x.DisplayName).HasMaxLength(200);
        });
        builder.Entity<IdentityUserClaim<Guid>>().ToTable("account_claim");
        builder.Entity<IdentityUserLogin<Guid>>().ToTable("account_login");
        builder.Entity<IdentityUserToken<Guid>>().ToTable("account_token");
        builder.Entity<DataProtectionKey>().ToTable("data_protection_key");
        GroupTables.Configure(builder);
        ProcedureTables.Configure(builder);
        LogTables.Configure(builder);
        SubstanceTables.Configure(builder);
        PolicyTables.Configure(builder);
        InventoryTables.Configure(builder);
    }
}
