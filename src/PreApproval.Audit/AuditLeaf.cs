using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace PreApproval.Audit;

/// <summary>Who acted.</summary>
/// <param name="Id">Never given to another person.</param>
/// <param name="Name">Printed name at the time.</param>
/// <param name="Role">Role at the time.</param>
/// <param name="OnBehalfOf">Whom a deputy acted for.</param>
public sealed record LeafActor(string Id, string Name, string Role, string? OnBehalfOf = null);

/// <summary>What was acted on.</summary>
/// <param name="Type">For instance <c>procedure</c>.</param>
/// <param name="Id">Its key.</param>
/// <param name="Revision">From 1; null where there is none.</param>
/// <param name="Title">As people know it at the time.</param>
public sealed record LeafSubject(string Type, string Id, int? Revision = null, string? Title = null);

/// <summary>How and when the actor proved who they are.</summary>
/// <param name="Method">For instance <c>password</c>.</param>
/// <param name="At">UTC; kept to the microsecond.</param>
public sealed record LeafAuthentication(string Method, DateTimeOffset At);

/// <summary>
/// One event of the audit log as it is hashed: RFC 8785 bytes, integers and strings only, strings in Unicode normalization form C,
/// absent members left out. These bytes are the record; whatever else a database keeps of the event is a convenience.
/// </summary>
public sealed record AuditLeaf
{
    /// <summary>Version of the form, member <c>v</c>.</summary>
    public const int Version = 1;

    /// <summary>Largest leaf, in bytes: the length must fit 16 bits (C2SP tlog-tiles). Payloads go in by digest.</summary>
    public const int LargestBytes = 65_535;

    /// <summary>Largest integer that every JSON reader keeps exact: 2^53 − 1 (RFC 7493 section 2.2).</summary>
    private const long LargestInteger = (1L << 53) - 1;

    private const string TimeForm = "yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'";

    /// <summary>Whose log: the group.</summary>
    public required string Tenant { get; init; }

    /// <summary>Place in the log, from 0 without gaps; the index of RFC 9162.</summary>
    public required long Seq { get; init; }

    /// <summary>Server clock. Written as UTC to the microsecond, fixed width (RFC 3339); finer ticks are cut off.</summary>
    public required DateTimeOffset At { get; init; }

    public required LeafActor Actor { get; init; }

    /// <summary>For instance <c>decision.approve</c>.</summary>
    public required string Action { get; init; }

    public required LeafSubject Subject { get; init; }

    /// <summary>State, setting or digest before.</summary>
    public string? Before { get; init; }

    /// <summary>State, setting or digest after.</summary>
    public string? After { get; init; }

    /// <summary>Why, in the actor's words.</summary>
    public string? Reason { get; init; }

    /// <summary>What the signature means, for signed acts.</summary>
    public string? Meaning { get; init; }

    public LeafAuthentication? Authn { get; init; }

    /// <summary>Digest of what the event is about, as <see cref="CanonicalJson.Digest"/> writes it.</summary>
    public string? PayloadSha256 { get; init; }

    /// <summary>Engine, data and policy under which it was decided.</summary>
    public string? Ruleset { get; init; }

    public string? RequestId { get; init; }

    /// <summary>One plain sentence for people.</summary>
    public string? Summary { get; init; }

    /// <summary>The canonical bytes. Text that is not in form C is normalised; everything else is written as it is.</summary>
    /// <exception cref="FormatException">
    /// An empty required string, a lone surrogate, a negative sequence number or one above 2^53 − 1, a revision below 1, a payload digest of another form,
    /// or more than <see cref="LargestBytes"/>: limit what people may type before it comes here.
    /// </exception>
    public byte[] ToBytes()
    {
        if (Seq is < 0 or > LargestInteger)
        {
            throw new FormatException("seq lies between 0 and 2^53 − 1.");
        }

        if (PayloadSha256 is { } digest && !IsDigest(digest))
        {
            throw new FormatException("payloadSha256 reads sha256: and 64 lower-case hexadecimal digits.");
        }

        var leaf = new JsonObject
        {
            ["v"] = Version,
            ["tenant"] = Required(Tenant, "tenant"),
            ["seq"] = Seq,
            ["at"] = Time(At),
            ["actor"] = ActorNode(),
            ["action"] = Required(Action, "action"),
            ["subject"] = SubjectNode(),
        };
        Add(leaf, "before", Before);
        Add(leaf, "after", After);
        Add(leaf, "reason", Reason);
        Add(leaf, "meaning", Meaning);
        Add(leaf, "payloadSha256", PayloadSha256);
        Add(leaf, "ruleset", Ruleset);
        Add(leaf, "requestId", RequestId);
        Add(leaf, "summary", Summary);
        if (Authn is { } authn)
        {
            leaf["authn"] = new JsonObject { ["method"] = Required(authn.Method, "authn.method"), ["at"] = Time(authn.At) };
        }

        byte[] bytes = CanonicalJson.Serialize(leaf);
        return bytes.Length <= LargestBytes
            ? bytes
            : throw new FormatException($"The event has {bytes.Length.ToString(CultureInfo.InvariantCulture)} bytes; at most {LargestBytes.ToString(CultureInfo.InvariantCulture)} fit.");
    }

    /// <summary>
    /// Reads a leaf back and accepts only bytes that <see cref="ToBytes"/> writes: another member order, an unknown member, a number
    /// in another form or a string in another normalization form is refused, with the reason.
    /// </summary>
    public static bool TryParse(ReadOnlySpan<byte> bytes, [NotNullWhen(true)] out AuditLeaf? leaf, out string error)
    {
        leaf = null;
        if (bytes.Length > LargestBytes)
        {
            error = "The event is larger than a leaf can be.";
            return false;
        }

        if (!CanonicalJson.TryCanonicalize(bytes, out byte[] canonical, out error))
        {
            return false;
        }

        if (!bytes.SequenceEqual(canonical))
        {
            error = "The bytes are not the canonical form of their JSON (RFC 8785).";
            return false;
        }

        try
        {
            AuditLeaf read = LeafReader.Read(JsonNode.Parse(bytes));
            if (!bytes.SequenceEqual(read.ToBytes()))
            {
                error = "The event has an unknown member, or text that is not in Unicode normalization form C.";
                return false;
            }

            leaf = read;
            return true;
        }
        catch (FormatException e)
        {
            error = e.Message;
            return false;
        }
    }

    internal static DateTimeOffset ReadTime(string text, string member) =>
        DateTimeOffset.TryParseExact(text, TimeForm, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset time)
            ? time
            : throw new FormatException($"{member} reads like 2025-01-31T09:30:00.000000Z.");

    private static string Time(DateTimeOffset time) => time.UtcDateTime.ToString(TimeForm, CultureInfo.InvariantCulture);

    private static bool IsDigest(string text) =>
        text.Length == 71 && text.StartsWith("sha256:", StringComparison.Ordinal) && text.Skip(7).All(char.IsAsciiHexDigitLower);

    private static string Required(string text, string member) =>
        text.Length > 0 ? Normalised(text) : throw new FormatException($"{member} is empty.");

    private static void Add(JsonObject node, string member, string? text)
    {
        if (text is not null)
        {
            node[member] = Normalised(text);
        }
    }

    private static string Normalised(string text)
    {
        try
        {
            return text.Normalize(NormalizationForm.FormC);
        }
        catch (ArgumentException e)
        {
            throw new FormatException("A string has a lone surrogate or a code point that is no character.", e);
        }
    }

    private JsonObject ActorNode()
    {
        var node = new JsonObject
        {
            ["id"] = Required(Actor.Id, "actor.id"),
            ["name"] = Required(Actor.Name, "actor.name"),
            ["role"] = Required(Actor.Role, "actor.role"),
        };
        Add(node, "onBehalfOf", Actor.OnBehalfOf);
        return node;
    }

    private JsonObject SubjectNode()
    {
        var node = new JsonObject { ["type"] = Required(Subject.Type, "subject.type"), ["id"] = Required(Subject.Id, "subject.id") };
        Add(node, "title", Subject.Title);
        if (Subject.Revision is { } revision)
        {
            node["revision"] = revision > 0 ? revision : throw new FormatException("subject.revision counts from 1.");
        }

        return node;
    }
}
