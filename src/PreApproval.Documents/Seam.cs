using PreApproval.Hazards.Screening;

namespace PreApproval.Documents;

/// <summary>One fault of a document: where (JSON Pointer) and what would be right.</summary>
public sealed record Fault(string Path, string Message);

/// <summary>A value or the reason there is none. The only result type of the project.</summary>
public readonly record struct Result<T, TError>
    where T : notnull
    where TError : notnull
{
    private Result(T? value, TError? error, bool ok) => (Value, Error, IsOk) = (value, error, ok);

    [System.Diagnostics.CodeAnalysis.MemberNotNullWhen(true, nameof(Value))]
    [System.Diagnostics.CodeAnalysis.MemberNotNullWhen(false, nameof(Error))]
    public bool IsOk { get; }

    public T? Value { get; }

    public TError? Error { get; }

    /// <summary>For values whose type is an interface, which no conversion operator can take.</summary>
    public static Result<T, TError> Ok(T value) => new(value, default, true);

    public static implicit operator Result<T, TError>(T value) => new(value, default, true);

    public static implicit operator Result<T, TError>(TError error) => new(default, error, false);
}

/// <summary>A procedure document of the contract, version 1. Quantities are kept as typed.</summary>
public sealed partial record ProcedureDocument
{
    public required string Title { get; init; }
}

/// <summary>Why bytes are no document at all.</summary>
/// <param name="Kind">What is wrong.</param>
/// <param name="Faults">At least one.</param>
public sealed record DocumentRefusal(DocumentRefusalKind Kind, IReadOnlyList<Fault> Faults);

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

/// <summary>Reads procedure documents.</summary>
public static partial class DocumentReader
{
    public const int LargestBytes = 1_000_000;

    /// <summary>Strict: all faults of a document, each with its path, or the document.</summary>
    public static partial Result<ProcedureDocument, DocumentRefusal> Read(ReadOnlyMemory<byte> utf8);

    /// <summary>A draft: refuses only what is too large, not JSON or has unknown members; other faults are returned.</summary>
    public static partial Result<DraftReading, DocumentRefusal> ReadDraft(ReadOnlyMemory<byte> utf8);
}

/// <summary>A document with its screening.</summary>
/// <param name="Report">The engine's report.</param>
/// <param name="Json">The report of the contract as RFC 8785 bytes.</param>
/// <param name="DocumentDigest">Digest of the canonical document.</param>
/// <param name="PolicyDigest">Digest of the canonical policy.</param>
/// <param name="DataDigest">Digest of the engine's data.</param>
public sealed record ScreenedDocument(Report Report, ReadOnlyMemory<byte> Json, string DocumentDigest, string PolicyDigest, string DataDigest);

/// <summary>Document to plan to report.</summary>
public static partial class DocumentScreening
{
    /// <summary>Screens a valid document under a policy.</summary>
    public static partial ScreenedDocument Screen(ProcedureDocument document, Policy policy);
}
