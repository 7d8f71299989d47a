using System.Text.Json.Nodes;
using PreApproval.Audit;
using PreApproval.Documents;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>
/// Reads documents as the application does and finds what the title asks for, so that these tests are about what becomes of a
/// finding and not about chemistry: a title that contains <c>pressure danger</c> gets one, and so on.
/// </summary>
internal static class SampleScreening
{
    public static DocumentScreener Screener { get; } = new(DocumentReader.Read, DocumentReader.ReadDraft, Screen);

    private static ScreenedDocument Screen(ProcedureDocument document, Policy policy)
    {
        List<Finding> findings = [];
        foreach (Hazard hazard in Enum.GetValues<Hazard>())
        {
            foreach (Severity severity in Enum.GetValues<Severity>())
            {
                string words = $"{hazard} {severity}".ToLowerInvariant();
                if (document.Title.Contains(words, StringComparison.Ordinal))
                {
                    findings.Add(new Finding { Code = $"{hazard}.sample".ToLowerInvariant(), Hazard = hazard, Severity = severity, Steps = ["1"], Vessel = "beaker", Statement = words });
                }
            }
        }

        var report = new Report
        {
            Verdict = findings.Exists(f => f.Severity <= policy.ReviewFrom) ? Verdict.Review : Verdict.Clear,
            Findings = findings,
            Timeline = [],
            Coverage = [],
        };
        string policyDigest = PolicyWriter.Digest(policy);
        var json = new JsonObject
        {
            ["engine"] = new JsonObject { ["policy"] = policyDigest },
            ["verdict"] = report.Verdict == Verdict.Clear ? "clear" : "review",
            ["findings"] = new JsonArray([.. findings.Select(f => new JsonObject
            {
                ["id"] = f.Id,
                ["hazard"] = f.Hazard.ToString().ToLowerInvariant(),
                ["severity"] = f.Severity.ToString().ToLowerInvariant(),
                ["evidence"] = new JsonArray(new JsonObject { ["name"] = "a number", ["value"] = 1, ["unit"] = "1", ["source"] = new JsonArray("An invented reference, 2026"), ["quality"] = "measured" }),
            })]),
        };
        string digest = CanonicalJson.Digest(System.Text.Encoding.UTF8.GetBytes(document.Title));
        return new ScreenedDocument(report, CanonicalJson.Serialize(json), digest, policyDigest, digest);
    }
}
