namespace PreApproval.Hazards.Plans;

/// <summary>
/// A planned procedure in SI units, as the engine reads it. Lists keep the order of the procedure document, so that the
/// index of an entry is its index there (a finding points back with a JSON Pointer such as <c>/steps/2/temperature</c>).
/// The document layer guarantees: references resolve, numbers are finite and in range, every vessel named exists.
/// </summary>
public sealed record Plan
{
    public required IReadOnlyList<Material> Materials { get; init; }

    public required IReadOnlyList<Vessel> Vessels { get; init; }

    public required IReadOnlyList<Step> Steps { get; init; }

    public IReadOnlyList<Reaction> Reactions { get; init; } = [];

    public IReadOnlyList<Safeguard> Safeguards { get; init; } = [];

    /// <summary>Extinguishing agents at hand and the plan, or null when the procedure does not say.</summary>
    public FireResponse? FireResponse { get; init; }

    public IReadOnlyList<WasteContainer> Waste { get; init; } = [];

    /// <summary>Material identifier of the limiting reagent, and its amount in mol.</summary>
    public string? LimitingMaterial { get; init; }

    public Amount? Scale { get; init; }

    public Attendance Attendance { get; init; } = Attendance.Attended;

    /// <summary>True when nobody else is within call.</summary>
    public bool Lone { get; init; }

    public Experience? Experience { get; init; }

    public Protection? Protection { get; init; }

    public Place? Place { get; init; }

    /// <summary>The engine's only "today".</summary>
    public DateOnly? PlannedOn { get; init; }

    /// <summary>A material of the list; null when it is not there.</summary>
    internal Material? MaterialOf(string materialId) => PlaceOf(materialId) is { } place ? Materials[place] : null;

    /// <summary>Place of a material in the list; null when it is not there. The list is short: a walk along it is faster than a table.</summary>
    internal int? PlaceOf(string materialId)
    {
        for (var index = 0; index < Materials.Count; index++)
        {
            if (string.Equals(Materials[index].Id, materialId, StringComparison.Ordinal))
            {
                return index;
            }
        }

        return null;
    }
}

public enum Attendance
{
    Attended,
    Unattended,
    Overnight,
}

public enum Experience
{
    FirstTime,
    UnderSupervision,
    Experienced,
}

public sealed record Protection(string? Gloves, string? Eyes, string? Coat);

public enum PlaceKind
{
    Bench,
    Hood,
    HoodWithScrubber,
}

/// <param name="Name">As typed.</param>
/// <param name="Kind">What it is, or null when not said.</param>
/// <param name="RoomVolumeM3">Room volume in m³.</param>
/// <param name="AirFlowM3PerS">Air flow in m³/s.</param>
public sealed record Place(string? Name, PlaceKind? Kind, double? RoomVolumeM3, double? AirFlowM3PerS)
{
    /// <summary>Extinguishing agents that stand there; empty: not known.</summary>
    public IReadOnlyList<Agent> Agents { get; init; } = [];

    /// <summary>True where a hood is stated; a place of no stated kind is none.</summary>
    internal bool IsHood => Kind is PlaceKind.Hood or PlaceKind.HoodWithScrubber;
}
