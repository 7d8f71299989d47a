namespace PreApproval.Documents;

/// <summary>One fault of a document: where (JSON Pointer) and what would be right.</summary>
public sealed record Fault(string Path, string Message);

/// <summary>Why bytes are no document at all.</summary>
/// <param name="Kind">What is wrong; the gravest where faults differ.</param>
/// <param name="Faults">At least one.</param>
public sealed record DocumentRefusal(DocumentRefusalKind Kind, IReadOnlyList<Fault> Faults);

/// <summary>Kinds of refusal, gravest first.</summary>
public enum DocumentRefusalKind
{
    /// <summary>Over 1 MB (status 413).</summary>
    TooLarge,

    /// <summary>Not JSON, duplicate keys, invalid UTF-8 (status 400).</summary>
    NotJson,

    /// <summary>Unknown members (status 400).</summary>
    UnknownMember,

    /// <summary>Wrong types, units, values, references (status 422).</summary>
    Invalid,
}

/// <summary>A draft as stored: its exact bytes and what is still wrong with it.</summary>
/// <param name="Title">For lists; empty when there is none.</param>
/// <param name="Faults">Empty when it could be submitted.</param>
public sealed record DraftReading(string Title, IReadOnlyList<Fault> Faults);

/// <summary>A document that lacks nothing but steps for some of its vessels.</summary>
/// <param name="Document">With all its vessels.</param>
/// <param name="Unnamed">Places of the vessels that no step names.</param>
/// <param name="Faults">One for each of them.</param>
public sealed record UnfinishedReading(ProcedureDocument Document, IReadOnlyList<int> Unnamed, IReadOnlyList<Fault> Faults);
