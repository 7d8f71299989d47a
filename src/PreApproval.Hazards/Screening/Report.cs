using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Screening;

/// <summary>The kinds of hazard a finding can be of.</summary>
public enum Hazard
{
    Pressure,
    Incompatibility,
    Fire,
    Energetic,
    Gas,
    Heat,
    Toxicity,
    Peroxide,
    Temperature,
    Safeguard,
    Data,
}

/// <summary>Signal words of ISO 3864-2 and ANSI Z535.4, worst first.</summary>
public enum Severity
{
    Danger,
    Warning,
    Caution,
    Notice,
}

public enum Verdict
{
    Clear,
    Review,
}

public enum ControlStatus
{
    Present,
    Missing,
    Improvised,
}

public enum CoverageStatus
{
    Measured,
    Correlated,
    Estimated,
    Assumed,
    Missing,
}

/// <summary>Which way of a number is the more dangerous one.</summary>
public enum WorseWhen
{
    Higher,
    Lower,

    /// <summary>The number says no danger by its size: a rule, a value for information.</summary>
    Neither,
}

/// <summary>One number behind a finding. Units are those of the report: °C, bar(g), bar, fraction, J, mol, s.</summary>
public sealed record Evidence
{
    public required string Name { get; init; }

    /// <summary>What is counted, where <see cref="Name"/> also says of what or in which step: the same in two documents that differ in these.</summary>
    public string Quantity { get => field ?? Name; init; }

    /// <summary>Which way of it is worse.</summary>
    public WorseWhen Worse { get; init; } = WorseWhen.Higher;

    public required double Value { get; init; }

    public required string Unit { get; init; }

    public double? Limit { get; init; }

    /// <summary>Model or correlation that gave it.</summary>
    public required string Model { get; init; }

    /// <summary>Full references.</summary>
    public required IReadOnlyList<string> Sources { get; init; }

    public required Quality Quality { get; init; }
}

/// <summary>A change that, made alone, clears the finding.</summary>
/// <param name="Change">For instance <c>set temperature</c>.</param>
/// <param name="Path">JSON Pointer into the procedure document.</param>
/// <param name="Value">New number, or null when <paramref name="Text"/> is set.</param>
/// <param name="Unit">Unit of the contract, for a quantity; null for a member that is a plain number.</param>
/// <param name="Text">New text, for a change that is not a number; the entries of a list separated by <c>", "</c>.</param>
public sealed record Clearing(string Change, string Path, double? Value, string? Unit, string? Text)
{
    private const string ListSeparator = ", ";

    /// <summary>The stated surface, which goes down with a set temperature by the same difference; null where nothing goes with the change.</summary>
    public SurfaceWith? With { get; init; }

    /// <summary>True where the document holds yes or no at the path, and yes is offered.</summary>
    public bool IsYes => Text is Yes;

    /// <summary>What <see cref="Text"/> is for a member that is yes or no.</summary>
    internal const string Yes = "true";

    /// <summary>The new entries where the document holds a list at the path; null for any other change.</summary>
    public IReadOnlyList<string>? Entries => Text is { } text && IsList(Path) ? text.Split(ListSeparator) : null;

    /// <summary>A change of a list in the document.</summary>
    /// <exception cref="ArgumentException">The document holds no list there.</exception>
    public static Clearing OfList(string change, string path, IEnumerable<string> entries) =>
        IsList(path) ? new(change, path, null, null, string.Join(ListSeparator, entries)) : throw new ArgumentException($"The document holds no list at {path}.", nameof(path));

    private static bool IsList(string path) => path is "/fireResponse/agents";
}

/// <summary>A surface that must go down with a set temperature for the change to do what it says.</summary>
/// <param name="Path">JSON Pointer to the surface temperature.</param>
/// <param name="Celsius">New surface temperature in °C, rounded down.</param>
public sealed record SurfaceWith(string Path, double Celsius);

/// <summary>A control the finding needs, and whether the plan has it.</summary>
public sealed record NeededControl(string Control, ControlStatus Status);

/// <summary>One thing the engine found.</summary>
public sealed record Finding
{
    /// <summary>Stable code, <c>hazard.what</c>, for instance <c>pressure.exceeds-rating</c>.</summary>
    public required string Code { get; init; }

    /// <summary>
    /// <c>code/vessel/steps</c>, and <c>/about</c> where several findings share these: the same finding has the same identifier in
    /// every report of the document.
    /// </summary>
    public string Id => $"{Code}/{Vessel ?? "-"}/{Joined(Steps.Count == 0 ? Materials : Steps)}{(About is null ? "" : "/" + About)}";

    private static string Joined(IReadOnlyList<string> words) => words.Count == 1 ? words[0] : string.Join('+', words);

    /// <summary>Which of several findings of one code at one place this is: its materials or partners; null when it is the only one.</summary>
    public string? About { get; init; }

    public required Hazard Hazard { get; init; }

    public required Severity Severity { get; init; }

    public IReadOnlyList<string> Steps { get; init; } = [];

    public string? Vessel { get; init; }

    public IReadOnlyList<string> Materials { get; init; } = [];

    /// <summary>One plain sentence with the numbers in it.</summary>
    public required string Statement { get; init; }

    public IReadOnlyList<Evidence> Evidence { get; init; } = [];

    public IReadOnlyList<Clearing> ClearedBy { get; init; } = [];

    public IReadOnlyList<NeededControl> Controls { get; init; } = [];

    /// <summary>True for a missing datum that left a check of a hazardous step undone: it goes to review.</summary>
    public bool LeavesCheckUndone { get; init; }
}

/// <summary>What is in one vessel after one step.</summary>
public sealed record TimelineEntry
{
    public required string Step { get; init; }

    public required string Vessel { get; init; }

    public required double TemperatureK { get; init; }

    public required bool Sealed { get; init; }

    /// <summary>Substance key and mol, in order of the plan.</summary>
    public required IReadOnlyList<(string Substance, double Mol)> Contents { get; init; }

    /// <summary>Absolute pressure in Pa at the set temperature; null for an open vessel or where it cannot be had.</summary>
    public double? ExpectedPressurePa { get; init; }

    /// <summary>Immiscible bound in Pa at the set temperature.</summary>
    public double? BoundPressurePa { get; init; }
}

/// <param name="Material">Material identifier.</param>
/// <param name="Check">What was looked up, for instance <c>autoignition</c>.</param>
/// <param name="Status">Quality of what was found, or missing.</param>
public readonly record struct CoverageEntry(string Material, string Check, CoverageStatus Status);

/// <summary>What the engine says of a plan. Same plan, data and policy: same report.</summary>
public sealed record Report
{
    public required Verdict Verdict { get; init; }

    /// <summary>Worst first, then by step, then by code.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Identifiers of the findings that send it to review, in their order; empty when it is clear.</summary>
    public IReadOnlyList<string> ToReview { get; init; } = [];

    public required IReadOnlyList<TimelineEntry> Timeline { get; init; }

    public required IReadOnlyList<CoverageEntry> Coverage { get; init; }

    /// <summary>What meets what, in the order of the steps; then waste containers, then extinguishing agents.</summary>
    public IReadOnlyList<Strip> Encounters { get; init; } = [];

    /// <summary>What to do first where a vessel burns, in the order of the steps.</summary>
    public IReadOnlyList<FireAction> FireActions => field ??= Followed is var (plan, walk) ? FireAction.Of(plan, walk) : [];

    /// <summary>The plan and its walk, for what is worded only when somebody asks.</summary>
    internal (Plan Plan, WalkResult Walk)? Followed { get; init; }
}
