using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>A reviewer of a revision reads what changed in the plan since the one that they know.</summary>
public sealed class ReviewedPlanTests(TestApp test)
{
    [Fact]
    public async Task Review_OfTheFirstRevision_ComparesNothing() =>
        Assert.DoesNotContain("What changed in the plan", await ReviewAsync(await test.SubmittedAsync("a pressure danger")), StringComparison.Ordinal);

    [Fact]
    public async Task Review_AfterChangesWereAskedFor_ListsWhereBeforeAndAfter()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        await AskForChangesAsync(address, 1);
        await SubmitAsync(address, d => d["steps"]![1]!["duration"]!["value"] = 20);

        string page = await ReviewAsync(address);

        Assert.Contains("What changed in the plan against revision 1", page, StringComparison.Ordinal);
        Assert.Contains("The last one that you decided on.", page, StringComparison.Ordinal);
        Assert.Matches("""Step 2 \(stir\), duration</th>\s*<td data-label="Before">10 min</td>\s*<td data-label="After">20 min</td>""", page);
    }

    /// <summary>A revision that was taken back before the reviewer signed is looked past: they may never have opened it.</summary>
    [Fact]
    public async Task Review_AfterARevisionTakenBack_ComparesWithTheOneThatWasDecided()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        await AskForChangesAsync(address, 1);
        await SubmitAsync(address, d => d["materials"]![1]!["amount"]!["value"] = 7);
        using HttpClient author = test.As("author");
        (await author.PostAsJsonAsync($"{address}/withdrawal", new JsonObject { ["revision"] = 2, ["reason"] = "a slip" })).EnsureSuccessStatusCode();
        await SubmitAsync(address, d => d["materials"]![1]!["amount"]!["value"] = 8);

        string page = await ReviewAsync(address);

        Assert.Contains("What changed in the plan against revision 1", page, StringComparison.Ordinal);
        Assert.Matches("""Material “salt”, amount</th>\s*<td data-label="Before">5 g</td>\s*<td data-label="After">8 g</td>""", page);
    }

    [Fact]
    public async Task Review_OfAnUnchangedPlan_SaysSo()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        await AskForChangesAsync(address, 1);
        await SubmitAsync(address, d => d["purpose"] = "said more clearly");

        Assert.Contains("The plan is the same.", await ReviewAsync(address), StringComparison.Ordinal);
    }

    private async Task AskForChangesAsync(string address, int revision)
    {
        using HttpClient reviewer = test.As("pressure-reviewer");
        (await reviewer.PostAsJsonAsync($"{address}/decisions", new JsonObject { ["revision"] = revision, ["decision"] = "request-changes", ["reason"] = "otherwise, please", ["password"] = TestApp.Password })).EnsureSuccessStatusCode();
    }

    private async Task SubmitAsync(string address, Action<JsonObject> change)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage draft = await author.GetAsync(address + "/draft");
        (await author.SendJsonAsync(HttpMethod.Put, address + "/draft", Sample.Document("a pressure danger").With(change), draft.Headers.ETag!.ToString())).EnsureSuccessStatusCode();
        (await author.PostAsync(address + "/submissions", content: null)).EnsureSuccessStatusCode();
    }

    private async Task<string> ReviewAsync(string address)
    {
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "pressure-reviewer");
        return WebUtility.HtmlDecode(await reviewer.Client.GetStringAsync(address["/api/v1".Length..] + "/review"));
    }
}
