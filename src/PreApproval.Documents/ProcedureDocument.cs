using PreApproval.Hazards.Plans;

namespace PreApproval.Documents;

/// <summary>
/// A procedure document of schema <c>preapproval/procedure/1</c>. Quantities are kept as typed; null means that the
/// member is absent. A document from <see cref="DocumentReader.Read"/> is valid: references resolve and numbers are credible.
/// </summary>
public sealed record ProcedureDocument
{
    /// <summary>The only value of <c>schema</c>.</summary>
    public const string SchemaName = "preapproval/procedure/1";

    public required string Title { get; init; }

    public string? Purpose { get; init; }

    public SourceEntry? Source { get; init; }

    public ScaleEntry? Scale { get; init; }

    public required IReadOnlyList<MaterialEntry> Materials { get; init; }

    public Attendance? Attendance { get; init; }

    /// <summary>True when nobody else is within call.</summary>
    public bool? Lone { get; init; }

    public PeopleEntry? People { get; init; }

    public ProtectionEntry? Protection { get; init; }

    public PlaceEntry? Place { get; init; }

    /// <summary>The engine's only "today".</summary>
    public DateOnly? PlannedOn { get; init; }

    public required IReadOnlyList<VesselEntry> Vessels { get; init; }

    public required IReadOnlyList<StepEntry> Steps { get; init; }

    public IReadOnlyList<ReactionEntry>? Reactions { get; init; }

    public IReadOnlyList<SafeguardEntry>? Safeguards { get; init; }

    public FireResponseEntry? FireResponse { get; init; }

    public IReadOnlyList<WasteEntry>? Waste { get; init; }
}

/// <param name="Citation">Where the procedure comes from.</param>
/// <param name="Changes">What differs from the source, and why.</param>
public sealed record SourceEntry(string? Citation, string? Changes);

/// <param name="Limiting">Identifier of the limiting material.</param>
/// <param name="Amount">Its amount.</param>
public sealed record ScaleEntry(string? Limiting, Quantity? Amount);

public sealed record PeopleEntry(Experience? Experience);

public sealed record ProtectionEntry(string? Gloves, string? Eyes, string? Coat);

/// <param name="Name">As typed.</param>
/// <param name="Kind">Bench, hood, or hood with scrubber.</param>
/// <param name="RoomVolume">Volume of the room.</param>
/// <param name="AirFlow">Air flow of the hood or the room.</param>
public sealed record PlaceEntry(string? Name, PlaceKind? Kind, Quantity? RoomVolume, Quantity? AirFlow)
{
    /// <summary>Extinguishing agents that stand there, by the group's inventory where it knows the place; null: not said.</summary>
    public IReadOnlyList<Agent>? Agents { get; init; }
}

/// <param name="Control">As typed: a listed control or free text.</param>
/// <param name="Steps">Identifiers of the steps it covers; null or empty: all.</param>
/// <param name="Detail">As typed.</param>
public sealed record SafeguardEntry(string Control, IReadOnlyList<string>? Steps, string? Detail);

/// <param name="Agents">Extinguishing agents at hand.</param>
/// <param name="Plan">As typed.</param>
public sealed record FireResponseEntry(IReadOnlyList<Agent>? Agents, string? Plan);

/// <param name="Materials">Identifiers of the materials that go in.</param>
/// <param name="Container">As typed.</param>
public sealed record WasteEntry(IReadOnlyList<string> Materials, string Container);
