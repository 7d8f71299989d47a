using PreApproval.Audit;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>Rows, events and refusals that single changes and the import of a table share.</summary>
internal static class InventoryRows
{
    public static InventoryContent Content((InventoryItemRecord Head, InventoryVersionRecord Latest) row) => InventoryDocument.Parse(row.Head.Kind, row.Latest.Content);

    public static InventoryItemRecord Head(Guid id, Guid groupId, InventoryContent content, int version, DateTimeOffset now) => new()
    {
        Id = id,
        GroupId = groupId,
        Kind = KindOf(content),
        Name = content.Called,
        NameKey = NameSpelling.Of(content.Called),
        PlaceId = content is InventoryAgent agent ? agent.Place : null,
        Version = version,
        UpdatedAt = now,
    };

    public static InventoryVersionRecord Version(InventoryItemRecord head, VersionChange change, Actor actor, DateTimeOffset now, string? reason, byte[] content) => new()
    {
        ItemId = head.Id,
        Version = head.Version,
        GroupId = head.GroupId,
        Change = change,
        AuthorId = actor.UserId,
        At = now,
        Reason = reason,
        Content = content,
        ContentDigest = CanonicalJson.Digest(content),
    };

    public static AuditEntry Event(InventoryItemRecord head, InventoryVersionRecord version, string summary) => new()
    {
        Action = $"{WireName.Of(head.Kind)}.{WireName.Of(version.Change)}",
        SubjectType = WireName.Of(head.Kind),
        SubjectId = head.Id,
        After = version.ContentDigest,
        PayloadDigest = version.ContentDigest,
        Reason = version.Reason,
        Summary = summary,
    };

    /// <summary>For instance <c>the vessel 'T-07'</c>, <c>foam at 'Hood 3'</c>.</summary>
    public static string Named(InventoryContent content, string place) => content switch
    {
        InventoryVessel => $"the vessel '{TypedText.Title(content.Called)}'",
        InventoryPlace => $"the place '{TypedText.Title(content.Called)}'",
        _ => $"{content.Called} at '{TypedText.Title(place)}'",
    };

    /// <summary>One word for messages.</summary>
    public static string Word(InventoryKind kind) => kind switch
    {
        InventoryKind.Vessel => "vessel",
        InventoryKind.Place => "place",
        InventoryKind.Agent => "extinguishing agent",
    };

    /// <summary>May take out of the inventory, and put back into service.</summary>
    public static bool MayRetire(Standing standing) => Access.ReviewsOrLeads(standing.Is);

    /// <summary>A vessel that somebody took out of service is put back only by those who decide.</summary>
    public static Refusal? WhyNotBack(Standing standing, InventoryContent before, InventoryContent after, string path) =>
        before is InventoryVessel { OutOfService: not null } && after is InventoryVessel { OutOfService: null } && !MayRetire(standing)
            ? new Refusal(RefusalKind.Forbidden, "A reviewer or the group lead puts a vessel back into service.", [new Fault(path, "A reviewer or the group lead puts a vessel back into service.")])
            : null;

    public static Refusal Taken(InventoryKind kind) => new(
        RefusalKind.Conflict,
        $"The inventory has a {Word(kind)} of this name.",
        [new Fault(kind == InventoryKind.Vessel ? "/label" : "/name", $"Another {Word(kind)} of the inventory goes by this name.")]);

    private static InventoryKind KindOf(InventoryContent content) => content switch
    {
        InventoryVessel => InventoryKind.Vessel,
        InventoryPlace => InventoryKind.Place,
        _ => InventoryKind.Agent,
    };
}
