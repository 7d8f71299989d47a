using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using PreApproval.Web.Shared.Components;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>What of a page goes on paper: no control of a form, and each source once. Common practice, no source.</summary>
public sealed partial class PaperTests(TestApp test)
{
    private const string Source = "An invented reference, 2026";

    [Theory]
    [InlineData("author", "")]
    [InlineData("pressure-reviewer", "/review")]
    public async Task Page_WithFindings_NamesASourceOnceOnPaperAndItsNumberBesideEachValue(string person, string tail)
    {
        string address = (await test.SubmittedAsync("a pressure danger, a pressure warning and a fire warning"))["/api/v1".Length..];
        string page = await PageAsync(person, address + tail);
        string paper = OnScreen().Replace(page, "");
        Assert.Equal(1, Regex.Count(paper, Source, RegexOptions.None, TimeSpan.FromSeconds(10)));
        Assert.Equal(3, Regex.Count(paper, "<td>\\[1\\]</td>", RegexOptions.None, TimeSpan.FromSeconds(10)));
    }

    [Fact]
    public async Task Review_OnPaper_HasNoControl()
    {
        string address = (await test.SubmittedAsync("a pressure danger"))["/api/v1".Length..];
        string page = await PageAsync("pressure-reviewer", address + "/review");
        Assert.Contains("<div class=\"answer no-print\">", page, StringComparison.Ordinal);
        Assert.Contains("<div class=\"side stack no-print\">", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_OnPaper_HasNoControl() =>
        Assert.Contains("<section class=\"sheet no-print\">", await PageAsync("author", "/compare"), StringComparison.Ordinal);

    [Fact]
    public void Marks_OfSources_AreNumberedInTheOrderInWhichTheyAreMet()
    {
        var numbers = SourceNumbers.Of(new ScreeningView
        {
            Findings = [new FindingView { Evidence = [new EvidenceView { Source = ["b", "a"] }, new EvidenceView { Source = ["b"] }] }],
            Encounters = [new StripView { Hazards = [new StripHazardView { Source = ["c", "a"] }] }],
        });
        Assert.Equal([(1, "b"), (2, "a"), (3, "c")], numbers.All);
        Assert.Equal("[2, 3]", numbers.Marks(["c", "a"]));
        Assert.Equal("", numbers.Marks([]));
    }

    private async Task<string> PageAsync(string person, string address)
    {
        using Browsing browsing = await Browsing.SignInAsync(test.App, person);
        return await browsing.Client.GetStringAsync(address);
    }

    [GeneratedRegex("<ul class=\"references no-print\">.*?</ul>", RegexOptions.Singleline, 10_000)]
    private static partial Regex OnScreen();
}
