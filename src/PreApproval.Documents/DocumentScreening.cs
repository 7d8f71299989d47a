using PreApproval.Audit;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents;

/// <summary>A document with its screening.</summary>
/// <param name="Report">The engine's report.</param>
/// <param name="Json">The report of the contract as RFC 8785 bytes.</param>
/// <param name="DocumentDigest">Digest of the canonical document.</param>
/// <param name="PolicyDigest">Digest of the canonical policy.</param>
/// <param name="DataDigest">Digest of the engine's data.</param>
public sealed record ScreenedDocument(Report Report, ReadOnlyMemory<byte> Json, string DocumentDigest, string PolicyDigest, string DataDigest);

/// <summary>Document to plan to report.</summary>
public static class DocumentScreening
{
    /// <summary>Screens a valid document under a policy. The same document, data and policy give the same bytes.</summary>
    public static ScreenedDocument Screen(ProcedureDocument document, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(document);
        Catalog catalog = Catalog.Default;
        Report report = Screener.Screen(PlanMapping.ToPlan(document, catalog), policy);
        string documentDigest = DocumentWriter.Digest(document);
        string policyDigest = PolicyWriter.Digest(policy);
        byte[] json = CanonicalJson.Serialize(ReportWriter.ToJson(report, document.Title, documentDigest, policyDigest, catalog.Digest));
        return new ScreenedDocument(report, json, documentDigest, policyDigest, catalog.Digest);
    }
}
