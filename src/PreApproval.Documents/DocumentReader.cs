using PreApproval.Documents.Reading;
using PreApproval.Documents.Rules;

namespace PreApproval.Documents;

/// <summary>Reads procedure documents.</summary>
public static class DocumentReader
{
    /// <summary>1 MB.</summary>
    public const int LargestBytes = 1_000_000;

    /// <summary>Strict: all faults of a document, each with its path, or the document.</summary>
    public static Result<ProcedureDocument, DocumentRefusal> Read(ReadOnlyMemory<byte> utf8)
    {
        (ProcedureDocument? document, IReadOnlyList<ReadFault> faults) = ReadAll(utf8);
        return document is not null && faults.Count == 0 ? document : RefusalOf(faults);
    }

    /// <summary>A draft: refuses only what is too large, not JSON or has unknown members; other faults are returned.</summary>
    public static Result<DraftReading, DocumentRefusal> ReadDraft(ReadOnlyMemory<byte> utf8)
    {
        (ProcedureDocument? document, IReadOnlyList<ReadFault> faults) = ReadAll(utf8);
        return document is not null && faults.All(fault => fault.Kind == DocumentRefusalKind.Invalid)
            ? new DraftReading(document.Title, Shown(faults))
            : RefusalOf([.. faults.Where(fault => fault.Kind != DocumentRefusalKind.Invalid)]);
    }

    /// <summary>A draft that is being written: vessels that no step names yet keep it from being submitted, not from being screened. Anything else wrong: refused.</summary>
    public static Result<UnfinishedReading, DocumentRefusal> ReadUnfinished(ReadOnlyMemory<byte> utf8)
    {
        (ProcedureDocument? document, IReadOnlyList<ReadFault> faults) = ReadAll(utf8);
        if (document is null)
        {
            return RefusalOf(faults);
        }

        IReadOnlyList<int> unnamed = VesselUse.Unnamed(document);
        HashSet<string> allowed = new(unnamed.Select(static index => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"/vessels/{index}/id")), StringComparer.Ordinal);
        return faults.All(fault => allowed.Contains(fault.Path))
            ? new UnfinishedReading(document, unnamed, Shown(faults))
            : RefusalOf(faults);
    }

    /// <summary>Faults of form alone (types, names, words, units, lengths): what the published JSON Schema judges too.</summary>
    internal static IReadOnlyList<Fault> FormFaults(ReadOnlyMemory<byte> utf8) => Shown(ReadForm(utf8).Faults);

    private static (ProcedureDocument? Document, IReadOnlyList<ReadFault> Faults) ReadAll(ReadOnlyMemory<byte> utf8)
    {
        (ProcedureDocument? document, IReadOnlyList<ReadFault> faults) = ReadForm(utf8);
        if (document is null)
        {
            return (null, faults);
        }

        // Of two faults about one place the one of form explains the other.
        IEnumerable<ReadFault> broken = DocumentRules.Check(document)
            .Where(rule => !faults.Any(fault => Explains(fault, rule)))
            .Select(rule => new ReadFault(DocumentRefusalKind.Invalid, rule.Path, rule.Message));
        return (document, [.. faults.Concat(broken).Take(FaultList.Most)]);
    }

    /// <summary>A member that is there and cannot be read, or is written under a name like its own, is not missing as well.</summary>
    private static bool Explains(ReadFault form, Fault rule)
    {
        if (string.Equals(form.Path, rule.Path, StringComparison.Ordinal))
        {
            return true;
        }

        if (!rule.Message.StartsWith("is missing", StringComparison.Ordinal))
        {
            return false;
        }

        int at = rule.Path.LastIndexOf('/');
        return form.Path.StartsWith(rule.Path + "/", StringComparison.Ordinal)
            || (at >= 0 && form.Path.LastIndexOf('/') == at && form.Path.StartsWith(rule.Path[..(at + 1)], StringComparison.Ordinal)
                && form.Message.Contains($"did you mean \"{rule.Path[(at + 1)..]}\"?", StringComparison.Ordinal));
    }

    private static (ProcedureDocument? Document, IReadOnlyList<ReadFault> Faults) ReadForm(ReadOnlyMemory<byte> utf8)
    {
        var faults = new FaultList();
        if (utf8.Length > LargestBytes)
        {
            faults.Add(DocumentRefusalKind.TooLarge, "", string.Create(System.Globalization.CultureInfo.InvariantCulture,
                $"has {utf8.Length} bytes; at most {LargestBytes} (1 MB) are allowed. Photographs and data sheets are attached beside the document, not put in it"));
            return (null, faults.All);
        }

        if (JsonTreeReader.Read(utf8.Span, faults) is not { } tree)
        {
            return (null, faults.All);
        }

        if (tree is not JsonTree.Record)
        {
            faults.Add(DocumentRefusalKind.Invalid, "", $"must be a procedure document as an object, but is {tree.Kind}");
            return (new ProcedureDocument { Title = "", Materials = [], Vessels = [], Steps = [] }, faults.All);
        }

        ProcedureDocument document = new StructureReader(faults).Document(tree);
        return (document, faults.All);
    }

    private static DocumentRefusal RefusalOf(IReadOnlyList<ReadFault> faults) => new(faults.Min(fault => fault.Kind), Shown(faults));

    private static IReadOnlyList<Fault> Shown(IReadOnlyList<ReadFault> faults) => [.. faults.Select(fault => new Fault(fault.Path, fault.Message))];
}
