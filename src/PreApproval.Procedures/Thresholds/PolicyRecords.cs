using PreApproval.Hazards.Screening;

namespace PreApproval.Procedures.Thresholds;

/// <summary>A version of a group's policy. Never changed.</summary>
public sealed record PolicyVersionRecord
{
    public required Guid GroupId { get; init; }

    /// <summary>From 2: version 1 is the program's default, which nobody set.</summary>
    public required int Version { get; init; }

    public required Guid AuthorId { get; init; }

    public required DateTimeOffset At { get; init; }

    public required string Reason { get; init; }

    /// <summary>The policy in the canonical form of RFC 8785.</summary>
    public required byte[] Content { get; init; }

    /// <summary><c>sha256:</c> and the SHA-256 of the content.</summary>
    public required string ContentDigest { get; init; }
}

/// <summary>A version of a group's policy, for those who read it.</summary>
public sealed record PolicyView
{
    /// <summary>The version with which every group begins.</summary>
    public const int DefaultVersion = 1;

    public required Guid GroupId { get; init; }

    /// <summary>Number of this version; the ETag.</summary>
    public required int Version { get; init; }

    public required Policy Policy { get; init; }

    /// <summary>Digest that reports screened under it carry.</summary>
    public required string Digest { get; init; }

    /// <summary>Who set it, when and why; null for the default.</summary>
    public PolicySetting? Setting { get; init; }
}

/// <summary>How a policy came to be.</summary>
public sealed record PolicySetting(string By, DateTimeOffset At, string Reason);
