namespace PreApproval.Procedures.History;

/// <summary>The stored head of a log, not yet believed.</summary>
/// <param name="Size">Number of events, as the column says.</param>
/// <param name="CompactRange">Right edge of the tree, as stored.</param>
public sealed record StoredHead(long Size, byte[] CompactRange);

/// <summary>A revision's row as stored, whatever stands in it.</summary>
public sealed record RevisionEvidence
{
    public required Guid ProcedureId { get; init; }

    public required int Number { get; init; }

    public required Guid AuthorId { get; init; }

    public required string State { get; init; }

    public required byte[] Document { get; init; }

    public required string DocumentDigest { get; init; }

    public required byte[] Screening { get; init; }

    public required string ScreeningDigest { get; init; }

    public required string EngineVersion { get; init; }

    public required string DataDigest { get; init; }

    public required string PolicyDigest { get; init; }
}

/// <summary>To whom a slot's row says that it was routed.</summary>
public sealed record SlotEvidence(Guid ProcedureId, int Revision, Guid AssigneeId);

/// <summary>A decision's row as stored, whatever stands in it.</summary>
public sealed record DecisionEvidence
{
    public required Guid ProcedureId { get; init; }

    public required int Revision { get; init; }

    public required string Slot { get; init; }

    public required string Decision { get; init; }

    public required string Reason { get; init; }

    /// <summary>JSON.</summary>
    public required string Answers { get; init; }

    public required Guid SignerId { get; init; }

    public required string SignerName { get; init; }

    public required string SignerRole { get; init; }

    public required string Meaning { get; init; }

    public required DateTimeOffset SignedAt { get; init; }

    public required string AuthenticationMethod { get; init; }

    public required byte[] Bound { get; init; }

    public required string BoundDigest { get; init; }
}

/// <summary>A version of the thresholds, of an own substance or of an entry of the inventory, as stored.</summary>
public sealed record VersionEvidence
{
    /// <summary>Subject type of its events.</summary>
    public required string Subject { get; init; }

    public required Guid SubjectId { get; init; }

    public required int Version { get; init; }

    public required Guid AuthorId { get; init; }

    public required byte[] Content { get; init; }

    public required string ContentDigest { get; init; }
}

/// <summary>A right edge that can't be read: nothing can be appended to this log before it is mended.</summary>
public sealed class DamagedLogException : Exception
{
    public DamagedLogException()
    {
    }

    public DamagedLogException(string message)
        : base(message)
    {
    }

    public DamagedLogException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
