using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Audit;
using PreApproval.Documents;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Testing;

/// <summary>
/// Documents that say what the engine would find, so that the workflow can be tested without the engine:
/// <c>{"title": "…", "flags": ["pressure/danger", "fire/warning"]}</c>.
/// </summary>
public static class FakeScreening
{
    public static DocumentScreener Screener { get; } = new(Read, ReadDraft, Screen) { Digest = Digest };

    public static ReadOnlyMemory<byte> Document(string title, params IReadOnlyList<string> flags) =>
        JsonSerializer.SerializeToUtf8Bytes(new { title, flags });

    /// <summary>A document that names one vessel, which a group's inventory may have.</summary>
    public static ReadOnlyMemory<byte> DocumentIn(string vessel, string title) =>
        JsonSerializer.SerializeToUtf8Bytes(new { title, vessels = (object[])[new { id = vessel }] });

    /// <summary>Identifier of the finding that a flag makes.</summary>
    public static string FindingId(string flag) => $"{flag.Split('/')[0]}.made-up/tube/1";

    private static Result<ProcedureDocument, DocumentRefusal> Read(ReadOnlyMemory<byte> utf8)
    {
        if (Parse(utf8) is not { } content)
        {
            return new DocumentRefusal(DocumentRefusalKind.NotJson, [new Fault("", "Not JSON.")]);
        }

        return content.Title.Length == 0
            ? new DocumentRefusal(DocumentRefusalKind.Invalid, [new Fault("/title", "Name the procedure.")])
            : new ProcedureDocument
            {
                Title = content.Title,
                Purpose = content.Purpose ?? string.Join(' ', content.Flags ?? []),
                Materials = [],
                Vessels = [.. (content.Vessels ?? []).Select(static vessel => new VesselEntry { Id = vessel.Id, Kind = "thick-walled glass tube" })],
                Steps = [],
            };
    }

    private static Result<DraftReading, DocumentRefusal> ReadDraft(ReadOnlyMemory<byte> utf8)
    {
        if (Parse(utf8) is not { } content)
        {
            return new DocumentRefusal(DocumentRefusalKind.NotJson, [new Fault("", "Not JSON.")]);
        }

        return new DraftReading(content.Title, content.Title.Length == 0 ? [new Fault("/title", "Name the procedure.")] : []);
    }

    private static ScreenedDocument Screen(ProcedureDocument document, Policy policy)
    {
        Finding[] findings = [.. (document.Purpose ?? string.Empty).Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Made).OrderBy(finding => finding.Severity)];
        bool flagged = Array.Exists(findings, finding => finding.Severity <= policy.ReviewFrom || finding.LeavesCheckUndone);
        var report = new Report { Verdict = flagged ? Verdict.Review : Verdict.Clear, Findings = findings, Timeline = [], Coverage = [] };
        byte[] json = CanonicalJson.Serialize(new JsonObject { ["findings"] = new JsonArray([.. findings.Select(finding => JsonValue.Create(finding.Id))]) });
        return new ScreenedDocument(report, json, Digest(document), PolicyWriter.Digest(policy), CanonicalJson.Digest("data"u8));
    }

    private static string Digest(ProcedureDocument document) =>
        CanonicalJson.Digest(CanonicalJson.Serialize(new JsonObject { ["title"] = document.Title, ["flags"] = document.Purpose }));

    private static Finding Made(string flag) => new()
    {
        Code = $"{flag.Split('/')[0]}.made-up",
        Hazard = WireName.Parse<Hazard>(flag.Split('/')[0]),
        Severity = WireName.Parse<Severity>(flag.Split('/')[1]),
        Vessel = "tube",
        Steps = ["1"],
        Statement = "Made up for a test.",
    };

    private static Content? Parse(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            return JsonSerializer.Deserialize<Content>(utf8.Span, JsonSerializerOptions.Web);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>The purpose stands for the flags in a document that was written again with the group's own values in it.</summary>
    private sealed record Content(string Title, IReadOnlyList<string>? Flags, string? Purpose, IReadOnlyList<Named>? Vessels);

    private sealed record Named(string Id);
}
