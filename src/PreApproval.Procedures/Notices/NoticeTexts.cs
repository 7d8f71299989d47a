namespace PreApproval.Procedures.Notices;

internal static class NoticeTexts
{
    public static NoticeRecord Make(Guid groupId, Guid recipientId, string kind, Guid procedureId, int revision, DateTimeOffset now, string text) => new()
    {
        Id = Guid.CreateVersion7(now),
        GroupId = groupId,
        RecipientId = recipientId,
        Kind = kind,
        ProcedureId = procedureId,
        Revision = revision,
        Text = text,
        CreatedAt = now,
    };
}
