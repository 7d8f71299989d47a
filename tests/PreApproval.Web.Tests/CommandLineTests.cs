using PreApproval.Web.Shared;

namespace PreApproval.Web.Tests;

public sealed class CommandLineTests
{
    [Fact]
    public void TryParse_KnownArguments_AreUnderstood()
    {
        Assert.True(StartOptions.TryParse(["--demo", "--data", "/tmp/x", "--urls", "http://127.0.0.1:9", "--RateLimits:SignInsPerMinute=5"], out StartOptions options, out string error));
        Assert.Empty(error);
        Assert.False(options.Migrate);
        Assert.Equal(["--demo=true", "--data=/tmp/x", "--urls=http://127.0.0.1:9", "--RateLimits:SignInsPerMinute=5"], options.Settings);
    }

    [Fact]
    public void TryParse_Migrate_IsUnderstood()
    {
        Assert.True(StartOptions.TryParse(["migrate"], out StartOptions options, out _));
        Assert.True(options.Migrate);
    }

    [Fact]
    public void TryParse_Setup_NamesTheFirstPerson()
    {
        Assert.True(StartOptions.TryParse(["setup", "--group", "A group", "--user", "first", "--name", "Invented First", "--role", "lead"], out StartOptions options, out _));
        Assert.Equal(("A group", "first", "Invented First"), (options.Setup!.Group, options.Setup.UserName, options.Setup.Name));
        Assert.Equal([Procedures.Workflow.GroupRole.Lead], options.Setup.Roles);
    }

    [Theory]
    [InlineData("--name", "setup", "--group", "A group", "--user", "first")]
    [InlineData("--role", "setup", "--group", "A group", "--user", "first", "--name", "X", "--role", "reviewer")]
    [InlineData("--group", "--group", "A group")]
    public void TryParse_SetupUnfinished_IsRefusedByName(string named, params string[] arguments)
    {
        Assert.False(StartOptions.TryParse(arguments, out _, out string error));
        Assert.Contains(named, error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--dmeo")]
    [InlineData("--data")]
    [InlineData("run")]
    public void TryParse_UnknownOrUnfinished_IsRefusedByName(string argument)
    {
        Assert.False(StartOptions.TryParse([argument], out _, out string error));
        Assert.Contains(argument, error, StringComparison.Ordinal);
    }
}
