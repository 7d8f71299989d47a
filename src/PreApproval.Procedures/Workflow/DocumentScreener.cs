using PreApproval.Documents;
using PreApproval.Hazards.Screening;

namespace PreApproval.Procedures.Workflow;

/// <summary>Reading and screening of documents, as the handlers use them.</summary>
/// <param name="Read">Strict reading of a whole document.</param>
/// <param name="ReadDraft">Lenient reading of a draft.</param>
/// <param name="Screen">Screening under a policy.</param>
public sealed record DocumentScreener(
    Func<ReadOnlyMemory<byte>, Result<ProcedureDocument, DocumentRefusal>> Read,
    Func<ReadOnlyMemory<byte>, Result<DraftReading, DocumentRefusal>> ReadDraft,
    Func<ProcedureDocument, Policy, ScreenedDocument> Screen)
{
    /// <summary>The engine.</summary>
    public static DocumentScreener Engine { get; } = new(DocumentReader.Read, DocumentReader.ReadDraft, DocumentScreening.Screen) { Digest = DocumentWriter.Digest };

    /// <summary>Reading of a draft that is being written.</summary>
    public Func<ReadOnlyMemory<byte>, Result<UnfinishedReading, DocumentRefusal>> ReadUnfinished { get; init; } = DocumentReader.ReadUnfinished;

    /// <summary>The digest of a document without screening it; null: only a screening gives it.</summary>
    public Func<ProcedureDocument, string>? Digest { get; init; }

    /// <summary>Screens two documents and says how their hazards differ.</summary>
    public Func<ProcedureDocument, ProcedureDocument, Policy, IReadOnlyList<HazardChange>> Compare { get; init; } = DocumentComparison.Compare;

    internal string DigestOf(ProcedureDocument document) => Digest is { } digest ? digest(document) : Screen(document, Policy.Default).DocumentDigest;

    /// <summary>A document's refusal as the handler's: one text for screening, saving and submitting.</summary>
    public static Refusal Refuse(DocumentRefusal refusal) => new(
        refusal.Kind switch
        {
            DocumentRefusalKind.TooLarge => RefusalKind.TooLarge,
            DocumentRefusalKind.NotJson or DocumentRefusalKind.UnknownMember => RefusalKind.Malformed,
            DocumentRefusalKind.Invalid => RefusalKind.Invalid,
        },
        refusal.Kind switch
        {
            DocumentRefusalKind.TooLarge => $"The document is larger than {DocumentReader.LargestBytes / 1_000_000} MB.",
            DocumentRefusalKind.NotJson => "The document is not well-formed JSON.",
            DocumentRefusalKind.UnknownMember => "The document has members that the format does not know.",
            DocumentRefusalKind.Invalid => "The document has faults.",
        },
        refusal.Faults);
}
