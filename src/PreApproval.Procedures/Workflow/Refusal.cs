using PreApproval.Documents;

namespace PreApproval.Procedures.Workflow;

/// <summary>Why a request was not carried out. Nothing was changed.</summary>
public enum RefusalKind
{
    /// <summary>Not there, or of a foreign group (404): the two cannot be told apart.</summary>
    NotFound,

    /// <summary>The person may not do this (403).</summary>
    Forbidden,

    /// <summary>The state does not allow it, or somebody else decided first (409).</summary>
    Conflict,

    /// <summary>The version is stale (412).</summary>
    Stale,

    /// <summary>The document or the request is too large (413).</summary>
    TooLarge,

    /// <summary>Not JSON or unknown members (400).</summary>
    Malformed,

    /// <summary>Understood but not acceptable (422), with a fault per field.</summary>
    Invalid,

    /// <summary>Signing needs the password again (401).</summary>
    SignInAgain,
}

/// <summary>A refusal in words for the person, with the fields at fault.</summary>
public sealed record Refusal(RefusalKind Kind, string Message, IReadOnlyList<Fault> Faults)
{
    public static Refusal NotFound { get; } = new(RefusalKind.NotFound, "There is no such object.", []);

    public static Refusal Because(RefusalKind kind, string message) => new(kind, message, []);
}
