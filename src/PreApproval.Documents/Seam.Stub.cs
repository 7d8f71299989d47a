using PreApproval.Hazards.Screening;

namespace PreApproval.Documents;

public static partial class DocumentReader
{
    public static partial Result<ProcedureDocument, DocumentRefusal> Read(ReadOnlyMemory<byte> utf8) => throw new NotSupportedException();

    public static partial Result<DraftReading, DocumentRefusal> ReadDraft(ReadOnlyMemory<byte> utf8) => throw new NotSupportedException();
}

public static partial class DocumentScreening
{
    public static partial ScreenedDocument Screen(ProcedureDocument document, Policy policy) => throw new NotSupportedException();
}
