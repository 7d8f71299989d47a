namespace PreApproval.Cli.Tests;

public sealed class CommandLineTests
{
    [Theory]
    [InlineData("mixture", "file.json")]
    [InlineData("pair", "water", "sodium")]
    [InlineData("compare", "a.json", "b.json")]
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
