using System.Text.Json.Nodes;

namespace PreApproval.Cli.Output;

/// <summary>What a command says of one input: a result, or the problem that stands in its place.</summary>
/// <param name="Json">The result; null with a problem.</param>
/// <param name="Text">The result as readable text.</param>
/// <param name="IsFlagged">True when the result calls for attention (exit code 3).</param>
/// <param name="Problem">Why there is no result.</param>
internal sealed record Answer(JsonNode? Json, string Text, bool IsFlagged, Problem? Problem)
{
    public static Answer Of(JsonNode json, string text, bool isFlagged) => new(json, text, isFlagged, null);

    public static implicit operator Answer(Problem problem) => new(null, "", false, problem);
}
