using System.Net;
using System.Text.RegularExpressions;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The first page and the menu show what a person may see, and no more. Common practice, no source.</summary>
public sealed partial class StartPageTests(TestApp test)
{
    [Theory]
    [InlineData("administrator")]
    [InlineData("auditor")]
    [InlineData("author")]
    [InlineData("pressure-reviewer")]
    [InlineData("lead")]
    public async Task Menu_OfAPerson_LeadsToNoRefusal(string person)
    {
        using Browsing browsing = await Browsing.SignInAsync(test.App, person);
        using HttpResponseMessage start = await browsing.Client.GetAsync("/");
        Assert.Equal(HttpStatusCode.OK, start.StatusCode);
        string[] links = [.. Link().Matches(await start.Content.ReadAsStringAsync()).Select(static m => m.Groups["to"].Value).Where(static to => to.StartsWith('/')).Distinct(StringComparer.Ordinal)];
        Assert.True(links.Length > 3);
        foreach (string link in links)
        {
            using HttpResponseMessage answer = await browsing.Client.GetAsync(link);
            Assert.True(answer.StatusCode is HttpStatusCode.OK, $"{link}: {(int)answer.StatusCode}");
        }
    }

    [Fact]
    public async Task Start_OfAnAdministrator_SaysWhatTheyMaySee()
    {
        using Browsing browsing = await Browsing.SignInAsync(test.App, "administrator");
        string page = await browsing.Client.GetStringAsync("/");
        Assert.Contains("you administer this group", page, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"/inventory\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task List_StateThatIsNone_SaysSo()
    {
        using Browsing browsing = await Browsing.SignInAsync(test.App, "author");
        Assert.Contains("No state is called “foo”", WebUtility.HtmlDecode(await browsing.Client.GetStringAsync("/?state=foo")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task History_AddressWithWhatIsNoFilter_SaysWhatFiltersNothing()
    {
        using Browsing browsing = await Browsing.SignInAsync(test.App, "lead");
        string page = WebUtility.HtmlDecode(await browsing.Client.GetStringAsync("/history?from=2026-13-45&event=foo"));
        Assert.Contains("filters nothing: “from” in the address, the event “foo”.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("filters nothing", await browsing.Client.GetStringAsync("/history?event=decision"), StringComparison.Ordinal);
    }

    [GeneratedRegex("<a [^>]*href=\"(?<to>[^\"#?]*)\"", RegexOptions.ExplicitCapture, 10_000)]
    private static partial Regex Link();
}
