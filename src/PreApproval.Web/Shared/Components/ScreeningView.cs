using System.Text.Json;
using System.Text.Json.Serialization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Web.Shared.Components;

/// <summary>A screening report of the contract, read for showing: the same bytes that are stored and signed.</summary>
public sealed record ScreeningView
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    public EngineView Engine { get; init; } = new();

    public Verdict Verdict { get; init; }

    public IReadOnlyList<FindingView> Findings { get; init; } = [];

    public IReadOnlyList<TimelineView> Timeline { get; init; } = [];

    public IReadOnlyList<CoverageView> Coverage { get; init; } = [];

    /// <summary>What meets what; empty in reports of engines that did not tell it.</summary>
    public IReadOnlyList<StripView> Encounters { get; init; } = [];

    /// <summary>What to do first where a vessel burns; null in reports of engines that did not tell it.</summary>
    public IReadOnlyList<FireActionView>? FireActions { get; init; }

    public Severity? Worst => Findings.Count == 0 ? null : Findings.Min(f => f.Severity);

    /// <summary>Those that must be answered before an approval.</summary>
    public IEnumerable<FindingView> ToAnswer => Findings.Where(f => f.NeedsAnswer);

    /// <summary>Throws <see cref="JsonException"/> for bytes that are no report.</summary>
    public static ScreeningView Read(ReadOnlyMemory<byte> report) =>
        JsonSerializer.Deserialize<ScreeningView>(report.Span, Options) ?? throw new JsonException("The screening is empty.");
}

public sealed record EngineView
{
    public string Version { get; init; } = "";

    public string Data { get; init; } = "";

    public string Policy { get; init; } = "";
}

public sealed record FindingView
{
    public string Id { get; init; } = "";

    public string Code { get; init; } = "";

    public Hazard Hazard { get; init; }

    public Severity Severity { get; init; }

    public IReadOnlyList<string> Steps { get; init; } = [];

    public string? Vessel { get; init; }

    public IReadOnlyList<string> Materials { get; init; } = [];

    public string Statement { get; init; } = "";

    public IReadOnlyList<EvidenceView> Evidence { get; init; } = [];

    public IReadOnlyList<ClearingView> ClearedBy { get; init; } = [];

    public IReadOnlyList<ControlView> Controls { get; init; } = [];

    public bool NeedsAnswer => Severity is Severity.Danger or Severity.Warning;

    /// <summary>The rule that a share of the rating is measured by, for instance <c>warning from 50 % of the rating; here 84 %</c>; null for other findings. A report keeps the limit of a warning alone.</summary>
    public string? Rule => Evidence.FirstOrDefault(e => string.Equals(e.Name, "share of the rating", StringComparison.Ordinal)) is { Limit: { } limit, Value: { } share }
        ? $"Rule: {RuleOf(limit)}; here {Words.Number(Math.Round(share * 100))} %."
        : null;

    private string RuleOf(double warning) => Code switch
    {
        "pressure.exceeds-rating" => "danger above the rating",
        "pressure.near-rating" when Severity == Severity.Danger => $"danger close to the rating, warning from {Words.Number(warning * 100)} % of it",
        _ => $"warning from {Words.Number(warning * 100)} % of the rating",
    };

    /// <summary>Steps, vessel and materials in words.</summary>
    public string Where
    {
        get
        {
            List<string> parts = [];
            if (Steps.Count > 0)
            {
                parts.Add((Steps.Count == 1 ? "step " : "steps ") + string.Join(", ", Steps));
            }

            if (!string.IsNullOrEmpty(Vessel))
            {
                parts.Add(Vessel);
            }

            if (Materials.Count > 0)
            {
                parts.Add(string.Join(", ", Materials));
            }

            return parts.Count == 0 ? "whole procedure" : string.Join(" · ", parts);
        }
    }
}

public sealed record EvidenceView
{
    public string Name { get; init; } = "";

    public double? Value { get; init; }

    public string Unit { get; init; } = "";

    public double? Limit { get; init; }

    public string Model { get; init; } = "";

    public IReadOnlyList<string> Source { get; init; } = [];

    public Hazards.Substances.Quality Quality { get; init; }
}

public sealed record ClearingView
{
    public string Change { get; init; } = "";

    public string Path { get; init; } = "";

    /// <summary>What to do, before the value: for instance <c>use a vessel rated for at least</c>.</summary>
    public string Advice => Change switch
    {
        "rating" => Path.Contains("/parts/", StringComparison.Ordinal) ? "use a part rated for at least" : "use a vessel rated for at least",
        "vessel volume" => "use a vessel of at least",
        "set temperature" => "set at most",
        "surface temperature" => "keep the hottest surface at or below",
        "temperature limit" => Path.Contains("/parts/", StringComparison.Ordinal) ? "use a part made for at least" : "use a vessel made for at least",
        "relief set pressure" => "let the relief device open at",
        "wall of the glass in mm" => "use a tube whose wall in mm is at least",
        "annealed glass" => "use a tube known to be annealed:",
        "extinguishing agents" => "have at hand only",
        "attendance" => "stay with it:",
        _ => Change,
    };

    /// <summary>A quantity, a text or a list of texts.</summary>
    public JsonElement To { get; init; }

    /// <summary>The surface that must go down with a set temperature; null where nothing goes with the change.</summary>
    public ClearingView? With { get; init; }

    public string ToWords => ValueWords + (With is { } surface ? $", with the surface at most {surface.ToWords}" : "");

    /// <summary>True where a list is put in the place of the one that is there, so that what must not be used does not stay on it.</summary>
    public bool ReplacesAll => To.ValueKind == JsonValueKind.Array;

    /// <summary>True for what is a decision of the plan; a vessel has the rating, the volume and the wall that it has, whatever a field says.</summary>
    public bool IsOfThePlan => Path.StartsWith("/steps/", StringComparison.Ordinal) || Path is "/attendance" or "/fireResponse/agents";

    private string ValueWords => To.ValueKind switch
    {
        JsonValueKind.Object when To.TryGetProperty("value", out JsonElement value) && value.ValueKind == JsonValueKind.Number =>
            $"{Words.Number(value.GetDouble())} {(To.TryGetProperty("unit", out JsonElement unit) ? unit.GetString() : "")}".TrimEnd(),
        JsonValueKind.String => To.GetString() ?? "",
        JsonValueKind.Array => string.Join(", ", To.EnumerateArray().Select(static entry => entry.GetString())),
        JsonValueKind.Number => Words.Number(To.GetDouble()),
        JsonValueKind.True => "yes",
        JsonValueKind.False => "no",
        _ => "",
    };
}

public sealed record ControlView
{
    public string Control { get; init; } = "";

    public ControlStatus Status { get; init; }
}

public sealed record TimelineView
{
    public string Step { get; init; } = "";

    public string Vessel { get; init; } = "";

    public double TemperatureC { get; init; }

    public bool Sealed { get; init; }

    public IReadOnlyList<ContentView> Contents { get; init; } = [];

    public PressureView? PressureBarAbs { get; init; }
}

public sealed record ContentView
{
    public string Substance { get; init; } = "";

    public double Mol { get; init; }
}

public sealed record PressureView
{
    public double? Expected { get; init; }

    public double? Bound { get; init; }
}

/// <summary>What the card at the bench says of one vessel in a fire.</summary>
public sealed record FireActionView
{
    public string Vessel { get; init; } = "";

    public IReadOnlyList<string> Steps { get; init; } = [];

    public bool Sealed { get; init; }

    /// <summary>Letters by standard.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<string>> Classes { get; init; } = new Dictionary<string, IReadOnlyList<string>>(StringComparer.Ordinal);

    public IReadOnlyList<string> Fit { get; init; } = [];

    /// <summary>Where nothing puts it out: agents for a small fire near it. None in reports of before.</summary>
    public IReadOnlyList<string> Nearby { get; init; } = [];

    public IReadOnlyList<string> Never { get; init; } = [];

    public IReadOnlyList<string> AtHand { get; init; } = [];

    public IReadOnlyList<string> NotThere { get; init; } = [];

    public string FirstAction { get; init; } = "";

    /// <summary>For instance <c>EN 2 class B and D (NFPA 10 class B and D)</c>; a bare letter misleads.</summary>
    public string ClassWords => string.Join(", ", Classes.OrderBy(static one => one.Key, StringComparer.Ordinal).Select(static one => $"{one.Key} class {string.Join(" and ", one.Value)}"));
}

public sealed record CoverageView
{
    public string Material { get; init; } = "";

    public string Check { get; init; } = "";

    public CoverageStatus Status { get; init; }
}
