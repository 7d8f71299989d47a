using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage.Model;

/// <summary>Every foreign key begins with the group, so that no row can point into another group.</summary>
internal static class ProcedureTables
{
    public static void Configure(ModelBuilder builder)
    {
        builder.Entity<ProcedureRecord>(procedure =>
        {
            procedure.ToTable("procedure").HasKey(x => x.Id);
            procedure.HasAlternateKey(x => new { x.GroupId, x.Id });
            procedure.Property(x => x.Id).ValueGeneratedNever();
            procedure.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AuthorId }).OnDelete(DeleteBehavior.Restrict);
            procedure.HasIndex(x => new { x.GroupId, x.UpdatedAt, x.Id });
        });
        builder.Entity<EditorRow>(editor =>
        {
            editor.ToTable("procedure_editor").HasKey(x => new { x.ProcedureId, x.AccountId });
            editor.HasOne<ProcedureRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ProcedureId }).HasPrincipalKey(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
            editor.HasOne<Account>().WithMany().HasForeignKey(x => x.AccountId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<DraftRecord>(draft =>
        {
            draft.ToTable("draft").HasKey(x => x.ProcedureId);
            draft.Property(x => x.ProcedureId).ValueGeneratedNever();
            draft.HasOne<ProcedureRecord>().WithOne().HasForeignKey<DraftRecord>(x => new { x.GroupId, x.ProcedureId }).HasPrincipalKey<ProcedureRecord>(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<RevisionRecord>(revision =>
        {
            revision.ToTable("revision").HasKey(x => new { x.ProcedureId, x.Number });
            revision.HasAlternateKey(x => new { x.GroupId, x.ProcedureId, x.Number });
            revision.Property(x => x.Number).ValueGeneratedNever();
            revision.HasOne<ProcedureRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ProcedureId }).HasPrincipalKey(x => new { x.GroupId, x.Id }).OnDelete(DeleteBehavior.Restrict);
            revision.HasIndex(x => new { x.GroupId, x.State });
        });
        builder.Entity<FindingRecord>(finding =>
        {
            finding.ToTable("finding").HasKey(x => new { x.ProcedureId, x.Revision, x.Ordinal });
            finding.HasOne<RevisionRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ProcedureId, x.Revision }).HasPrincipalKey(x => new { x.GroupId, x.ProcedureId, x.Number }).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<SlotRecord>(slot =>
        {
            slot.ToTable("slot").HasKey(x => new { x.ProcedureId, x.Revision, x.Slot });
            slot.HasAlternateKey(x => new { x.GroupId, x.ProcedureId, x.Revision, x.Slot });
            slot.Property(x => x.Hazards).HasConversion(new HazardsConverter(), new HazardsComparer());
            slot.Property(x => x.RequiredCompetences).HasConversion(new HazardsConverter(), new HazardsComparer());
            slot.HasOne<RevisionRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ProcedureId, x.Revision }).HasPrincipalKey(x => new { x.GroupId, x.ProcedureId, x.Number }).OnDelete(DeleteBehavior.Restrict);
            slot.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AssigneeId }).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<DecisionRecord>(decision =>
        {
            decision.ToTable("decision").HasKey(x => new { x.ProcedureId, x.Revision, x.Slot });
            decision.Property(x => x.Answers).HasColumnType("jsonb").HasConversion(new AnswersConverter(), new AnswersComparer());
            decision.HasOne<SlotRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ProcedureId, x.Revision, x.Slot }).HasPrincipalKey(x => new { x.GroupId, x.ProcedureId, x.Revision, x.Slot }).OnDelete(DeleteBehavior.Restrict);
            decision.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.SignerId }).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<SignRefusalRow>(refusal =>
        {
            refusal.ToTable("sign_refusal").HasKey(x => new { x.ProcedureId, x.Revision, x.AccountId, x.Reason });
            refusal.HasOne<RevisionRecord>().WithMany().HasForeignKey(x => new { x.GroupId, x.ProcedureId, x.Revision }).HasPrincipalKey(x => new { x.GroupId, x.ProcedureId, x.Number }).OnDelete(DeleteBehavior.Restrict);
            refusal.HasOne<MembershipRow>().WithMany().HasForeignKey(x => new { x.GroupId, x.AccountId }).OnDelete(DeleteBehavior.Restrict);
        });
    }
}
