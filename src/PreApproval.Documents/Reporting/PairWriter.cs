using System.Text.Json.Nodes;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Reporting;

/// <summary>What pairs do to each other, as the JSON of the contract.</summary>
public static class PairWriter
{
    public static JsonObject ToJson(IReadOnlyList<PairAnswer> answers)
    {
        ArgumentNullException.ThrowIfNull(answers);
        return new JsonObject { ["pairs"] = new JsonArray([.. answers.Select(Pair)]) };
    }

    /// <summary>True for a danger or a warning.</summary>
    public static bool IsFlagged(PairAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.Severity <= Severity.Warning;
    }

    private static JsonObject Pair(PairAnswer answer) => new()
    {
        ["a"] = answer.A.Name,
        ["b"] = answer.B.Name,
        ["assessment"] = ReportWords.Of(answer.Assessment),
        ["severity"] = answer.Severity is { } severity ? ReportWords.Of(severity) : null,
        ["consequences"] = Texts(answer.Encounters.SelectMany(static row => row.Consequences)),
        ["gas"] = new JsonArray([.. answer.Encounters.SelectMany(static row => row.Gases.Select(gas => Gas(row, gas)))]),
        ["conditions"] = PairWords.Conditions(answer),
        ["reason"] = PairWords.Reason(answer),
        ["source"] = Texts(PairWords.Sources(answer)),
        ["encounters"] = Texts(answer.Encounters.Select(static row => row.Key)),
    };

    private static JsonObject Gas(Encounter row, GasShare gas) => new()
    {
        ["name"] = gas.Name,
        ["molPerEquivalent"] = gas.MolPerEquivalent,
        ["equivalentOf"] = row.FirstLimits ? row.A : "the limiting partner",
        ["encounter"] = row.Key,
    };

    private static JsonArray Texts(IEnumerable<string> texts) => [.. texts.Distinct(StringComparer.Ordinal).Select(static text => JsonValue.Create(text))];
}
