using System.Text.Json.Nodes;
using PreApproval.Documents.Comparing;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Reporting;

/// <summary>A comparison as the JSON of the contract: numbers as in a report, null where there is none.</summary>
public static class ComparisonWriter
{
    /// <summary><c>plan</c> is there only where the plans differ.</summary>
    public static JsonObject ToJson(IReadOnlyList<HazardChange> changes, IReadOnlyList<PlanChange> plan)
    {
        ArgumentNullException.ThrowIfNull(changes);
        ArgumentNullException.ThrowIfNull(plan);
        var json = new JsonObject { ["changes"] = new JsonArray([.. changes.Select(Change)]) };
        if (plan.Count > 0)
        {
            json["plan"] = new JsonArray([.. plan.Select(Change)]);
        }

        return json;
    }

    /// <summary>The word of the contract.</summary>
    public static string Of(ChangeEffect effect) => effect switch
    {
        ChangeEffect.Introduced => "introduced",
        ChangeEffect.Removed => "removed",
        ChangeEffect.Raised => "raised",
        ChangeEffect.Lowered => "lowered",
    };

    /// <summary>The quantity, with those that are told together with it.</summary>
    public static string QuantityOf(HazardChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return string.Join(", ", change.Also.Select(static one => one.Quantity).Prepend(change.Quantity).Distinct(StringComparer.Ordinal));
    }

    private static JsonObject Change(HazardChange change)
    {
        JsonObject json = Line(change);
        if (change.Also.Count > 0)
        {
            json["also"] = new JsonArray([.. change.Also.Select(Line)]);
        }

        return json;
    }

    private static JsonObject Line(HazardChange change) => new()
    {
        ["hazard"] = ReportWords.Of(change.Hazard),
        ["quantity"] = change.Quantity,
        ["effect"] = Of(change.Effect),
        ["before"] = Number(change.Before),
        ["after"] = Number(change.After),
        ["unit"] = (change.After ?? change.Before)?.Unit,
        ["severityBefore"] = Severity(change.FindingBefore),
        ["severityAfter"] = Severity(change.FindingAfter),
        ["findingBefore"] = change.FindingBefore?.Id,
        ["findingAfter"] = change.FindingAfter?.Id,
        ["limitBefore"] = Finite(change.Before?.Limit),
        ["limitAfter"] = Finite(change.After?.Limit),
        ["vessel"] = change.Vessel,
        ["steps"] = new JsonArray([.. change.Steps.Select(static step => JsonValue.Create(step))]),
    };

    private static JsonObject Change(PlanChange change) => new()
    {
        ["part"] = PlanChange.WordOf(change.Part),
        ["name"] = change.Name,
        ["nameBefore"] = change.NameBefore,
        ["what"] = change.What,
        ["effect"] = PlanChange.WordOf(change.Effect),
        ["before"] = change.Before,
        ["after"] = change.After,
    };

    private static JsonNode? Number(Evidence? evidence) => Finite(evidence?.Value);

    private static JsonNode? Finite(double? value) => value is { } number && double.IsFinite(number) ? SignificantDigits.Six(number) : null;

    private static string? Severity(Finding? finding) => finding is null ? null : ReportWords.Of(finding.Severity);
}
