using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Testing;

namespace PreApproval.Cli.Tests;

/// <summary>One run of the command line with its streams.</summary>
internal sealed record Run(int ExitCode, string Output, string Error)
{
    public static string Examples { get; } = Path.Combine(RepositoryFolder.Path, "docs", "examples");

    public JsonNode Json => JsonNode.Parse(Output)!;

    public JsonNode Problem => JsonNode.Parse(Error)!;

    public static Run Of(params string[] args) => WithInput("", args);

    public static Run WithInput(string input, params string[] args)
    {
        using var standardInput = new MemoryStream(Encoding.UTF8.GetBytes(input));
        using var output = new StringWriter();
        using var error = new StringWriter();
        int exitCode = CommandLine.Run(args, new Streams(standardInput, output, error));
        return new Run(exitCode, output.ToString(), error.ToString());
    }
}
