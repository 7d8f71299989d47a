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
