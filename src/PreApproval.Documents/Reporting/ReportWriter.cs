using System.Text.Json.Nodes;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Reporting;

/// <summary>The engine's report as the JSON of the contract: °C and bar at the edge, six significant digits, null where there is nothing.</summary>
public static class ReportWriter
{
    private const double PaPerBar = 1e5;

    /// <summary>The report with what it rests on.</summary>
    public static JsonObject ToJson(Report report, string title, string documentDigest, string policyDigest, string dataDigest)
    {
        ArgumentNullException.ThrowIfNull(report);
        return new JsonObject
        {
            ["engine"] = new JsonObject { ["version"] = Screener.EngineVersion, ["data"] = dataDigest, ["policy"] = policyDigest },
            ["procedure"] = new JsonObject { ["title"] = title, ["digest"] = documentDigest },
            ["verdict"] = ReportWords.Of(report.Verdict),
            ["findings"] = Array(report.Findings, Finding),
            ["timeline"] = Array(report.Timeline, Timeline),
            ["coverage"] = Array(report.Coverage, entry => new JsonObject
            {
                ["material"] = entry.Material,
                ["check"] = entry.Check,
                ["status"] = ReportWords.Of(entry.Status),
            }),
            ["encounters"] = Array(report.Encounters, Strip),
            ["fireActions"] = Array(report.FireActions, FireAction),
        };
    }

    private static JsonObject FireAction(FireAction action) => new()
    {
        ["vessel"] = action.Vessel,
        ["steps"] = Array(action.Steps, static step => step),
        ["sealed"] = action.Sealed,
        ["classes"] = new JsonObject
        {
            ["EN 2"] = Array([.. action.Burning.Select(FireClass.En2).Distinct(StringComparer.Ordinal)], static letter => letter),
            ["NFPA 10"] = Array([.. action.Burning.Select(FireClass.Nfpa10).Distinct(StringComparer.Ordinal)], static letter => letter),
        },
        ["fit"] = Array(action.Fit, static agent => agent),
        ["nearby"] = Array(action.Nearby, static agent => agent),
        ["never"] = Array(action.Never, static agent => agent),
        ["atHand"] = Array(action.AtHand, static agent => agent),
        ["notThere"] = Array(action.NotThere, static agent => agent),
        ["firstAction"] = action.FirstAction,
    };

    private static JsonObject Finding(Finding finding) => new()
    {
        ["id"] = finding.Id,
        ["code"] = finding.Code,
        ["hazard"] = ReportWords.Of(finding.Hazard),
        ["severity"] = ReportWords.Of(finding.Severity),
        ["steps"] = Array(finding.Steps, step => step),
        ["vessel"] = finding.Vessel,
        ["materials"] = Array(finding.Materials, material => material),
        ["statement"] = finding.Statement,
        ["evidence"] = Array(finding.Evidence, Evidence),
        ["clearedBy"] = Array(finding.ClearedBy, Clearing),
        ["controls"] = Array(finding.Controls, control => new JsonObject { ["control"] = control.Control, ["status"] = ReportWords.Of(control.Status) }),
    };

    private static JsonObject Evidence(Evidence evidence) => new()
    {
        ["name"] = evidence.Name,
        ["value"] = Number(evidence.Value),
        ["unit"] = evidence.Unit,
        ["limit"] = Number(evidence.Limit),
        ["model"] = evidence.Model,
        ["source"] = Array(evidence.Sources, source => source),
        ["quality"] = ReportWords.Of(evidence.Quality),
    };

    private static JsonObject Clearing(Clearing clearing)
    {
        var json = new JsonObject
        {
            ["change"] = clearing.Change,
            ["path"] = clearing.Path,
            ["to"] = clearing switch
            {
                // a member that is a plain number
                { Value: { } value, Unit: null } => Number(value),
                { Value: { } value } => new JsonObject { ["value"] = Number(value), ["unit"] = clearing.Unit },
                { IsYes: true } => JsonValue.Create(true),
                { Entries: { } entries } => Array(entries, static entry => JsonValue.Create(entry)),
                _ => clearing.Text,
            },
        };
        if (clearing.With is { } surface)
        {
            json["with"] = new JsonObject { ["path"] = surface.Path, ["to"] = new JsonObject { ["value"] = Number(surface.Celsius), ["unit"] = "°C" } };
        }

        return json;
    }

    private static JsonObject Timeline(TimelineEntry entry) => new()
    {
        ["step"] = entry.Step,
        ["vessel"] = entry.Vessel,
        ["temperatureC"] = Number(entry.TemperatureK - UnitTable.CelsiusZeroK),
        ["sealed"] = entry.Sealed,
        ["contents"] = Array(entry.Contents, content => new JsonObject { ["substance"] = content.Substance, ["mol"] = Number(content.Mol) }),
        ["pressureBarAbs"] = entry is { ExpectedPressurePa: null, BoundPressurePa: null }
            ? null
            : new JsonObject { ["expected"] = Number(entry.ExpectedPressurePa / PaPerBar), ["bound"] = Number(entry.BoundPressurePa / PaPerBar) },
    };

    private static JsonObject Strip(Strip strip) => new()
    {
        ["place"] = ReportWords.Of(strip.Place),
        ["step"] = strip.Step,
        ["where"] = strip.Where,
        ["findings"] = Array(strip.Findings, finding => finding),
        ["hazards"] = Array(strip.Hazards, hazard => new JsonObject
        {
            ["severity"] = ReportWords.Of(hazard.Severity),
            ["statement"] = hazard.Statement,
            ["source"] = Array(hazard.Sources, source => source),
        }),
        ["noneKnown"] = Array(strip.NoneKnown, group => new JsonObject
        {
            ["basis"] = group.Basis,
            ["source"] = Array(group.Sources, source => source),
            ["pairs"] = Array(group.Pairs, Pair),
        }),
        ["notAssessed"] = Array(strip.NotAssessed, Pair),
    };

    private static JsonObject Pair(StripPair pair) => new() { ["a"] = pair.A, ["b"] = pair.B };

    /// <summary>Null for what JSON cannot say: an infinite pressure of a full vessel.</summary>
    private static JsonNode? Number(double? number) => number is { } value && double.IsFinite(value) ? SignificantDigits.Six(value) : null;

    private static JsonArray Array<T>(IReadOnlyList<T> items, Func<T, JsonNode?> write) => [.. items.Select(write)];
}
