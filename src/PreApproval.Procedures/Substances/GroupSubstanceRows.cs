using PreApproval.Audit;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Substances;

/// <summary>Rows and events of the group's own substances.</summary>
internal static class GroupSubstanceRows
{
    public static GroupSubstance Content(GroupSubstanceVersionRecord version) =>
        GroupSubstanceDocument.Parse(version.Content);

    public static GroupSubstanceRecord Head(Guid id, Guid groupId, GroupSubstance substance, int version, DateTimeOffset now) => new()
    {
        Id = id,
        GroupId = groupId,
        Name = substance.Name,
        NameKey = NameSpelling.Of(substance.Name),
        Cas = substance.Cas,
        Version = version,
        UpdatedAt = now,
    };

    public static GroupSubstanceVersionRecord Version(GroupSubstanceRecord head, VersionChange change, Actor actor, DateTimeOffset now, string? reason, byte[] content) => new()
    {
        SubstanceId = head.Id,
        Version = head.Version,
        GroupId = head.GroupId,
        Change = change,
        AuthorId = actor.UserId,
        At = now,
        Reason = reason,
        Content = content,
        ContentDigest = CanonicalJson.Digest(content),
    };

    public static AuditEntry Event(GroupSubstanceRecord head, GroupSubstanceVersionRecord version, string action, string summary) => new()
    {
        Action = action,
        SubjectType = "substance",
        SubjectId = head.Id,
        After = version.ContentDigest,
        PayloadDigest = version.ContentDigest,
        Summary = summary,
    };
}
