using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The page that compares two procedures: chosen, from a file, or pasted.</summary>
public sealed partial class ComparePageTests(TestApp test)
{
    private static readonly string Tube = ClosedTube.Document("from a file").ToJsonString();

    private static readonly string Hotter = ClosedTube.Document("hotter").With(d => d["steps"]![2]!["temperature"]!["value"] = 150).With(d => d["steps"]![2]!["surfaceTemperature"]!["value"] = 160).ToJsonString();

    [Fact]
    public async Task Compare_TwoFiles_ListsWhatIsRaised()
    {
        (HttpStatusCode status, string page) = await PostAsync("/compare", ("before-file", "source.json", Tube), ("after-file", "now.json", Hotter));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("Hazards of “hotter” (file now.json) against “from a file” (file source.json)", page, StringComparison.Ordinal);
        Assert.Contains("Raised: pressure", page, StringComparison.Ordinal);
        Assert.Contains("What differs in the plan", page, StringComparison.Ordinal);
        Assert.Matches("""Step 3 \(heat\), temperature</th>\s*<td data-label="Before">120 °C</td>\s*<td data-label="After">150 °C</td>""", page);
    }

    [Fact]
    public async Task Compare_OwnRevisionWithItsDraft_AreOfferedAndRead()
    {
        string address = (await test.SubmittedAsync("compared with itself"))["/api/v1".Length..];
        string id = address.Split('/')[^1];
        (HttpStatusCode status, string page) = await PostAsync($"{address}/compare", ("before", null, $"{id}/1"), ("after", null, $"{id}/draft"));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("No hazard is introduced, removed, raised or lowered.", page, StringComparison.Ordinal);
        Assert.Contains("The plan is the same.", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_RevisionWithAFile_TheFileGoesBeforeThePreset()
    {
        string address = (await test.SubmittedAsync("compared with a file"))["/api/v1".Length..];
        string id = address.Split('/')[^1];
        (HttpStatusCode status, string page) = await PostAsync($"{address}/compare", ("before", null, $"{id}/1"), ("after", null, $"{id}/draft"), ("after-file", "now.json", Hotter));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("Hazards of “hotter” (file now.json) against “compared with a file” (revision 1)", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_OpenedFromAProcedure_HasItsTwoLatestChosen()
    {
        string address = (await test.SubmittedAsync("two of one title"))["/api/v1".Length..];
        string id = address.Split('/')[^1];
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        Assert.Equal([$"{id}/1", $"{id}/draft"], Selected(await author.Client.GetStringAsync(address + "/compare")));
        using HttpClient client = test.As("author");
        (await client.SendJsonAsync(HttpMethod.Put, $"/api/v1{address}/draft", Sample.Document("two of one title").With(d => d["purpose"] = "once more"), "\"2\"")).EnsureSuccessStatusCode();
        (await client.PostAsync($"/api/v1{address}/submissions", content: null)).EnsureSuccessStatusCode();
        Assert.Equal([$"{id}/1", $"{id}/2"], Selected(await author.Client.GetStringAsync(address + "/compare")));
        (_, string page) = await PostAsync($"{address}/compare", ("before", null, $"{id}/1"), ("after", null, $"{id}/2"));
        Assert.Contains("Hazards of “two of one title” (revision 2) against “two of one title” (revision 1)", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_NothingChosen_SaysSoForEachSide()
    {
        (HttpStatusCode status, string page) = await PostAsync("/compare");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("Before: choose a procedure or a file, or paste a document.", page, StringComparison.Ordinal);
        Assert.Contains("After: choose a procedure or a file, or paste a document.", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "the file is empty")]
    [InlineData("not json", "The document is not well-formed JSON.")]
    [InlineData("{\"schema\":\"preapproval/procedure/1\",\"title\":\"t\",\"unheard\":1}", "members that the format does not know")]
    [InlineData("{\"schema\":\"preapproval/procedure/1\",\"title\":\"t\"}", "The document has faults.")]
    public async Task Compare_FileThatIsNoDocument_SaysWhatIsWrongAtTheField(string content, string expected)
    {
        (HttpStatusCode status, string page) = await PostAsync("/compare", ("before-file", "source.json", content), ("after-text", null, Tube));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains(expected, page, StringComparison.Ordinal);
        Assert.Contains("id=\"before-file-fault\"", page, StringComparison.Ordinal);
        Assert.Contains("from a file", page, StringComparison.Ordinal);
    }

    /// <summary>At most 1 000 000 bytes: the format's own limit.</summary>
    [Fact]
    public async Task Compare_FileOver1MB_IsRefusedWithItsSize()
    {
        (HttpStatusCode status, string page) = await PostAsync("/compare", ("before-file", "large.json", new string(' ', 1_200_000)), ("after-file", "now.json", Tube));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("the file has 1200000 bytes; at most 1000000 (1 MB) are allowed", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_TwoSourcesForOneSide_AreRefused()
    {
        (HttpStatusCode status, string page) = await PostAsync("/compare", ("before-file", "source.json", Tube), ("before-text", null, Tube), ("after-text", null, Tube));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("Before: only one of", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_ProcedureThatIsNotOffered_IsRefused()
    {
        string foreign = (await test.SubmittedAsync("of another group", "foreign-author")).Split('/')[^1];
        (HttpStatusCode status, string page) = await PostAsync("/compare", ("before", null, $"{foreign}/1"), ("after-text", null, Tube));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("Before: choose a procedure of the list.", page, StringComparison.Ordinal);
    }

    private async Task<(HttpStatusCode Status, string Page)> PostAsync(string address, params (string Name, string? File, string Content)[] parts)
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        using var form = new MultipartFormDataContent();
        foreach ((string name, string value) in await author.FormAsync(address, "compare"))
        {
            form.Add(new StringContent(value), name);
        }

        foreach ((string name, string? file, string content) in parts)
        {
            if (file is null)
            {
                form.Add(new StringContent(content), name);
            }
            else
            {
                form.Add(new ByteArrayContent(Encoding.UTF8.GetBytes(content)), name, file);
            }
        }

        using HttpResponseMessage answer = await author.Client.PostAsync(address, form);
        return (answer.StatusCode, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()));
    }

    private static IReadOnlyList<string> Selected(string page) => [.. SelectedOption().Matches(page).Select(static m => m.Groups["value"].Value)];

    [GeneratedRegex("<option value=\"(?<value>[^\"]+)\" selected", RegexOptions.ExplicitCapture, 10_000)]
    private static partial Regex SelectedOption();
}
