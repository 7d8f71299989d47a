using System.Text.Json.Nodes;

namespace PreApproval.Audit;

/// <summary>Members of a leaf by name and type. Whether there are others is for the comparison of bytes to say.</summary>
internal static class LeafReader
{
    /// <exception cref="FormatException">A member that is missing or of another type.</exception>
    public static AuditLeaf Read(JsonNode? node)
    {
        JsonObject leaf = Object(node, "The event");
        if (Integer(leaf, "v", "v") != AuditLeaf.Version)
        {
            throw new FormatException("v is not a version of the form that this program knows.");
        }

        JsonObject actor = Object(leaf["actor"], "actor");
        JsonObject subject = Object(leaf["subject"], "subject");
        JsonObject? authn = leaf.ContainsKey("authn") ? Object(leaf["authn"], "authn") : null;
        return new AuditLeaf
        {
            Tenant = Text(leaf, "tenant", "tenant"),
            Seq = Integer(leaf, "seq", "seq"),
            At = AuditLeaf.ReadTime(Text(leaf, "at", "at"), "at"),
            Actor = new LeafActor(Text(actor, "id", "actor.id"), Text(actor, "name", "actor.name"), Text(actor, "role", "actor.role"), OptionalText(actor, "onBehalfOf", "actor.onBehalfOf")),
            Action = Text(leaf, "action", "action"),
            Subject = new LeafSubject(Text(subject, "type", "subject.type"), Text(subject, "id", "subject.id"), Revision(subject), OptionalText(subject, "title", "subject.title")),
            Before = OptionalText(leaf, "before", "before"),
            After = OptionalText(leaf, "after", "after"),
            Reason = OptionalText(leaf, "reason", "reason"),
            Meaning = OptionalText(leaf, "meaning", "meaning"),
            Authn = authn is null ? null : new LeafAuthentication(Text(authn, "method", "authn.method"), AuditLeaf.ReadTime(Text(authn, "at", "authn.at"), "authn.at")),
            PayloadSha256 = OptionalText(leaf, "payloadSha256", "payloadSha256"),
            Ruleset = OptionalText(leaf, "ruleset", "ruleset"),
            RequestId = OptionalText(leaf, "requestId", "requestId"),
            Summary = OptionalText(leaf, "summary", "summary"),
        };
    }

    private static JsonObject Object(JsonNode? node, string what) => node as JsonObject ?? throw new FormatException($"{what} is not an object.");

    private static string Text(JsonObject node, string member, string path) =>
        node[member] is JsonValue value && value.TryGetValue(out string? text) ? text : throw new FormatException($"{path} is not a string.");

    private static string? OptionalText(JsonObject node, string member, string path) => node.ContainsKey(member) ? Text(node, member, path) : null;

    private static long Integer(JsonObject node, string member, string path) =>
        node[member] is JsonValue value && value.TryGetValue(out long number) ? number : throw new FormatException($"{path} is not an integer.");

    private static int? Revision(JsonObject subject)
    {
        if (!subject.ContainsKey("revision"))
        {
            return null;
        }

        long number = Integer(subject, "revision", "subject.revision");
        return number is > 0 and <= int.MaxValue ? (int)number : throw new FormatException("subject.revision counts from 1.");
    }
}
