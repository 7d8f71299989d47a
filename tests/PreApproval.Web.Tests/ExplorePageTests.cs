using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The explorer's page as it is delivered, before any script.</summary>
public sealed partial class ExplorePageTests(TestApp test)
{
    [Fact]
    public async Task Explore_DraftOfAClosedTube_DrawsThreeChartsEachWithATable()
    {
        string page = await PageAsync("author", await DraftAsync(ClosedTube.Document("explored").With(d => d["materials"]![0]!["substance"]!["cas"] = "64-17-5")), "/explore?step=3");
        Assert.Equal(3, Regex.Count(page, "<svg class=\"chart\"[^>]* role=\"img\" aria-labelledby=\"chart-(pressure|fill|margins)-title\"", RegexOptions.None, Patience));
        Assert.Equal(3, Regex.Count(page, "<title id=\"chart-", RegexOptions.None, Patience));
        Assert.Equal(3, Regex.Count(page, "The chart in numbers<span", RegexOptions.None, Patience));
        Assert.Contains(">safe window</text>", page, StringComparison.Ordinal);
        Assert.Contains("id=\"carry-back\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explore_ValuesInTheAddress_AreTriedAndListedAsChanges()
    {
        string page = await PageAsync("author", await DraftAsync("explored"), "/explore?step=3&temperature=90&solvent=toluene");
        Assert.Contains("Set temperature of step 3: 120 °C → <strong>90 °C</strong>", page, StringComparison.Ordinal);
        Assert.Contains("Substance of water: water (7732-18-5) → <strong>toluene (108-88-3)</strong>", page, StringComparison.Ordinal);
        Assert.Contains("tried 90 °C", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explore_HostileAddress_IsShownAsTextAndLeftAsPlanned()
    {
        string page = await PageAsync("author", await DraftAsync("explored"), "/explore?step=%3Cscript%3Ealert(1)%3C%2Fscript%3E&temperature=%22%3E%3Cb%3E&kind=%3Cb%3E&volume=1e400");
        Assert.DoesNotContain("<script>alert", page, StringComparison.Ordinal);
        Assert.DoesNotContain("\"><b>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"edits\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explore_AddressWithWhatIsNoValue_SaysWhatWasNotTaken()
    {
        string page = await PageAsync("author", await DraftAsync("explored"), "/explore?step=99&temperature=1e999&kind=foo&solvent=nope&fill=-3&volume=5+L");
        Assert.Contains("Not taken from the address, because it is no value here: step “99” (shown is step 3), set temperature “1e999”, fill “-3”, vessel “foo”, liquid instead “nope”.", page, StringComparison.Ordinal);
        Assert.Contains("→ <strong>5000 mL</strong>", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/explore?step=3&temperature=90")]
    [InlineData("/explore?step=3/tube")]
    [InlineData("/explore")]
    public async Task Explore_AddressThatIsUnderstood_SaysNothing(string tail) =>
        Assert.DoesNotContain("id=\"left-out\"", await PageAsync("author", await DraftAsync("explored"), tail), StringComparison.Ordinal);

    /// <summary>1 L = 1000 mL; 0 °C = 273.15 K; 101 325 Pa are 0 bar(g) (BIPM, The International System of Units, 9th ed., tables 7 and 8; NIST SP 811, appendix B.8).</summary>
    [Theory]
    [InlineData("5 L", "mL", 5000)]
    [InlineData("250 ul", "mL", 0.25)]
    [InlineData("400 K", "°C", 126.85)]
    [InlineData("2.01325 bar", "bar(g)", 1)]
    [InlineData("12,5", "mL", 12.5)]
    public void Read_ANumberWithAUnitOfTheEditor_IsThatInTheUnitOfTheField(string typed, string unit, double expected) =>
        Assert.Equal(expected, PreApproval.Web.Exploring.ExploredUnits.Read(typed, unit, -400, 100_000));

    [Fact]
    public async Task Explore_Revision_IsReadOnlyForAuthorAndReviewer()
    {
        string address = await DraftAsync("a pressure danger explored");
        using HttpClient author = test.As("author");
        (await author.PostAsync($"/api/v1{address}/submissions", content: null)).EnsureSuccessStatusCode();
        foreach (string person in new[] { "author", "pressure-reviewer" })
        {
            string page = await PageAsync(person, address, "/revisions/1/explore?step=3&temperature=90");
            Assert.Contains("read only", page, StringComparison.Ordinal);
            Assert.DoesNotContain("id=\"carry-back\"", page, StringComparison.Ordinal);
        }

        Assert.Contains("Revision 1 by", await PageAsync("pressure-reviewer", address, "/explore"), StringComparison.Ordinal);
        Assert.Contains("Draft of revision 2", await PageAsync("author", address, "/explore"), StringComparison.Ordinal);
    }

    /// <summary>A revision is judged by the thresholds of its submission; today's are a choice that says so.</summary>
    [Fact]
    public async Task Explore_RevisionFromBeforeOtherThresholds_SaysWhichAndOffersToday()
    {
        using HttpClient author = test.As("foreign-lead");
        using HttpResponseMessage created = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = ClosedTube.Document("explored by thresholds") });
        string address = created.Headers.Location!.ToString()["/api/v1".Length..];
        (await author.PostAsync($"/api/v1{address}/submissions", content: null)).EnsureSuccessStatusCode();
        string before = await PageAsync("foreign-lead", address, "/revisions/1/explore?step=3");
        Assert.Contains("Judged by the thresholds that this revision was screened under, which are those in use", before, StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"thresholds\"", before, StringComparison.Ordinal);

        // 20 K of overshoot on 120 °C are 140 °C, 15 K by default 135 °C; the surface of 130 °C is below both.
        using HttpResponseMessage read = await author.GetAsync("/api/v1/policy");
        JsonObject policy = (await Read.ObjectAsync(read))["policy"]!.AsObject();
        double then = (double)policy["overshootK"]!;
        policy["overshootK"] = then + 5;
        using var put = new HttpRequestMessage(HttpMethod.Put, "/api/v1/policy") { Content = JsonContent.Create(new JsonObject { ["policy"] = policy.DeepClone(), ["reason"] = "A test." }) };
        put.Headers.TryAddWithoutValidation("If-Match", read.Headers.ETag!.ToString());
        using HttpResponseMessage set = await author.SendAsync(put);
        Assert.True(set.IsSuccessStatusCode, await set.Content.ReadAsStringAsync());

        string old = await PageAsync("foreign-lead", address, "/revisions/1/explore?step=3");
        Assert.Contains("those in use are version", old, StringComparison.Ordinal);
        Assert.Contains("id=\"thresholds\"", old, StringComparison.Ordinal);
        Assert.Contains(Celsius(120 + then), Text(old), StringComparison.Ordinal);
        string today = await PageAsync("foreign-lead", address, "/revisions/1/explore?step=3&thresholds=today");
        Assert.Contains("Judged by the thresholds in use, version", today, StringComparison.Ordinal);
        Assert.Contains(Celsius(120 + then + 5), Text(today), StringComparison.Ordinal);

        static string Celsius(double celsius) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Worst credible temperature {celsius} °C");
    }

    [Fact]
    public async Task Explore_FirstDraftOfAnotherOrForeignGroup_Is404()
    {
        string address = await DraftAsync("mine alone");
        foreach (string person in new[] { "member", "foreign-lead" })
        {
            using Browsing other = await Browsing.SignInAsync(test.App, person);
            using HttpResponseMessage answer = await other.Client.GetAsync(address + "/explore");
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }
    }

    [Fact]
    public async Task Explore_IncompleteDraft_ListsWhatIsMissing()
    {
        string page = await PageAsync("author", await DraftAsync(ClosedTube.Document("unfinished").With(d => d["steps"]![2]!.AsObject().Remove("action"))), "/explore");
        Assert.Contains("cannot be explored yet", page, StringComparison.Ordinal);
        Assert.Contains("<ul class=\"faults\">", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explore_NothingClosedOrHeated_SaysSo() =>
        Assert.Contains("No step of this procedure closes or heats a vessel", await PageAsync("author", await DraftAsync(Sample.Document("cold and open")), "/explore"), StringComparison.Ordinal);

    [Fact]
    public async Task Explore_RatingNotKnown_SaysThatItCountsAsNothing()
    {
        string page = await PageAsync("author", await DraftAsync(ClosedTube.Document("unrated").With(d => d["vessels"]![0]!.AsObject().Remove("rating"))), "/explore?step=3");
        Assert.Contains("not known: counts as 0 bar(g)", page, StringComparison.Ordinal);
        Assert.Contains("has no safe set temperature", Text(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explore_FlashPointMissing_IsNamedAndNotPassedOver()
    {
        string page = await PageAsync("author", await DraftAsync(ClosedTube.Document("unknown").With(d => d["materials"]![1]!["substance"] = new JsonObject { ["name"] = "an own substance of ours" })), "/explore?step=3");
        Assert.Contains("No flash point on file, so not in the margin: an own substance of ours", page, StringComparison.Ordinal);
        Assert.Contains("the pressure leaves out an own substance of ours", Text(page), StringComparison.Ordinal);
        Assert.Contains("A lower bound: the pressure leaves out an own substance of ours", Text(page), StringComparison.Ordinal);
    }

    private static TimeSpan Patience => TimeSpan.FromSeconds(10);

    private Task<string> DraftAsync(string title) => DraftAsync(ClosedTube.Document(title));

    private async Task<string> DraftAsync(JsonObject document)
    {
        using HttpClient client = test.As("author");
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = document });
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return answer.Headers.Location!.ToString()["/api/v1".Length..];
    }

    private async Task<string> PageAsync(string person, string procedure, string page)
    {
        using Browsing browsing = await Browsing.SignInAsync(test.App, person);
        using HttpResponseMessage answer = await browsing.Client.GetAsync(procedure + page);
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{(int)answer.StatusCode} {text}");
        return WebUtility.HtmlDecode(text);
    }

    private static string Text(string page) => Spaces().Replace(Tags().Replace(page, " "), " ");

    [GeneratedRegex("<[^>]*>", RegexOptions.None, 10_000)]
    private static partial Regex Tags();

    [GeneratedRegex(@"\s+", RegexOptions.None, 10_000)]
    private static partial Regex Spaces();
}
