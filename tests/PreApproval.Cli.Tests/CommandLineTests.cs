namespace PreApproval.Cli.Tests;

public sealed class CommandLineTests
{
    [Theory]
    [InlineData("verify", "export.json", "--checkpoint", "file")]
    public void Run_CommandOfLaterVersions_SaysSo(params string[] args)
    {
        Run readable = Run.Of(args);
        Run json = Run.Of([.. args, "--json"]);

        Assert.Equal(2, readable.ExitCode);
        Assert.Contains("not available yet", readable.Error, StringComparison.Ordinal);
        Assert.Equal(2, json.ExitCode);
        Assert.Equal("Not available yet", json.Problem["title"]!.GetValue<string>());
        Assert.Equal("", json.Output);
    }

    [Theory]
    [InlineData("explode")]
    [InlineData("screen")]
    [InlineData("screen", "--jsom", "x")]
    [InlineData("substance", "acetone", "--at", "warm")]
    public void Run_UnreadableCommand_IsUnusable(params string[] args)
    {
        Run run = Run.Of([.. args, "--json"]);

        Assert.Equal(2, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.Equal("The command cannot be read", run.Problem["title"]!.GetValue<string>());
    }

    [Fact]
    public void Batch_OneInputBreaksTheProgram_OthersAreStillAnswered()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var batch = new Inputs.Batch([new("element 0", "1"u8.ToArray(), null), new("element 1", "2"u8.ToArray(), null)], IsArray: true);

        int exitCode = batch.Run(
            bytes => bytes.Span[0] == '1' ? throw new ArgumentOutOfRangeException(nameof(bytes)) : Output.Answer.Of(System.Text.Json.Nodes.JsonValue.Create(2), "", isFlagged: false),
            new Streams(Stream.Null, output, error),
            asJson: true);

        Assert.Equal(2, exitCode);
        var answers = System.Text.Json.Nodes.JsonNode.Parse(output.ToString())!.AsArray();
        Assert.Equal("Internal error", answers[0]!["title"]!.GetValue<string>());
        Assert.Equal(2, answers[1]!.GetValue<int>());
    }

    [Fact]
    public void Run_Help_NamesTheCommands()
    {
        Run run = Run.Of("--help");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("screen", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_StandardInputBesideAFile_IsUnusable() =>
        Assert.Equal(2, Run.Of("screen", "-", "file.json", "--json").ExitCode);
}
