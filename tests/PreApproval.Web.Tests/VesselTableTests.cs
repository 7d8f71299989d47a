using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Vessels out to a table and in from one. All of them are invented.</summary>
public sealed class VesselTableTests(TestApp test)
{
    [Fact]
    public async Task Table_ExportedAndImportedAgain_ChangesNothingAndAnEditedOneOnlyWhatWasEdited()
    {
        await test.AddEntryAsync("vessels", Entries.Vessel("W-csv").With(v => v["note"] = "=1+1, \"quoted\"\nsecond line").With(v => v["volume"] = new JsonObject { ["value"] = 0.035, ["unit"] = "L" })
            .With(v => v["relief"] = new JsonObject { ["device"] = "valve", ["set"] = new JsonObject { ["value"] = 100, ["unit"] = "psi(g)" } })
            .With(v => v["glassTube"] = new JsonObject { ["outsideDiameterMm"] = 25.4, ["wallMm"] = 3.1, ["annealed"] = false }));
        using HttpClient author = test.As("author");
        using HttpResponseMessage exported = await author.GetAsync("/api/v1/vessels/export");
        Assert.Equal("text/csv; charset=utf-8; header=present", exported.Content.Headers.ContentType?.ToString());
        string text = await exported.Content.ReadAsStringAsync();
        Assert.Contains("'=1+1", text, StringComparison.Ordinal);
        Assert.Contains("volume (mL)", text, StringComparison.Ordinal);
        using HttpResponseMessage same = await ImportAsync(author, text, "?preview=true");
        Assert.All((await Read.ObjectAsync(same))["vessels"]!.AsArray(), v => Assert.Equal("unchanged", (string?)v!["effect"]));

        long events = await test.EventsAsync("vessel.%");
        using HttpResponseMessage preview = await ImportAsync(author, "label,rating (psi(g))\r\nW-csv,100\r\nW-csv new,\r\n", "?preview=true");
        Assert.Equal(["/3/kind"], Read.Paths(await Read.ProblemAsync(preview, HttpStatusCode.UnprocessableEntity)));
        using HttpResponseMessage changed = await ImportAsync(author, "label,kind,rating (psi(g))\r\nW-csv,thick-walled glass tube,100\r\nW-csv new,beaker,\r\n", "");
        JsonObject done = await Read.ObjectAsync(changed);
        Assert.Equal("changed added", string.Join(' ', done["vessels"]!.AsArray().Select(v => (string?)v!["effect"])));
        Assert.Equal(events + 2, await test.EventsAsync("vessel.%"));
        using HttpResponseMessage read = await author.GetAsync($"/api/v1/vessels/{(string)done["vessels"]![0]!["id"]!}");
        JsonNode entry = (await Read.ObjectAsync(read))["entry"]!;
        Assert.Equal("""{"device":"valve","set":{"unit":"psi(g)","value":100}}""", entry["relief"]!.ToJsonString());
        Assert.Equal("""{"annealed":false,"outsideDiameterMm":25.4,"wallMm":3.1}""", entry["glassTube"]!.ToJsonString());
        Assert.Equal((100.0, "psi(g)", "=1+1, \"quoted\"\nsecond line"), ((double)entry["rating"]!["value"]!, (string)entry["rating"]!["unit"]!, (string)entry["note"]!));
    }

    [Fact]
    public async Task Import_Refusals_AreProblemsAndKeepNothing()
    {
        using HttpClient author = test.As("author");
        long events = await test.EventsAsync("vessel.%");
        using HttpResponseMessage faults = await ImportAsync(author, "label,kind,volume (mL)\r\nW-a,tube,10\r\nW-b,tube,ten\r\nw a,tube,10\r\n", "");
        Assert.Equal(["/3/volume (mL)", "/4/label"], Read.Paths(await Read.ProblemAsync(faults, HttpStatusCode.UnprocessableEntity)));
        using HttpResponseMessage broken = await ImportAsync(author, "label,kind\r\n\"W-a,tube\r\n", "");
        Assert.Equal(["/2"], Read.Paths(await Read.ProblemAsync(broken, HttpStatusCode.BadRequest)));
        using HttpResponseMessage large = await ImportAsync(author, "label,kind\r\n" + new string('x', 1_000_000), "");
        await Read.ProblemAsync(large, HttpStatusCode.RequestEntityTooLarge);
        using HttpResponseMessage json = await author.PostAsync("/api/v1/vessels/import", new StringContent("{}", Encoding.UTF8, "application/json"));
        await Read.ProblemAsync(json, HttpStatusCode.UnsupportedMediaType);
        using HttpResponseMessage plan = await ImportAsync(author, "label,kind\r\nW-a,tube\r\n", "?plan=sha256:0");
        await Read.ProblemAsync(plan, HttpStatusCode.PreconditionFailed);
        Assert.Equal(events, await test.EventsAsync("vessel.%"));
    }

    /// <summary>1.6 MB: beyond the body of a call, within that of a form. The page keeps its form and says what the most is.</summary>
    [Theory]
    [InlineData(1_600_000, HttpStatusCode.UnprocessableEntity, "The file is larger than 1 MB.")]
    [InlineData(9_000_000, HttpStatusCode.RequestEntityTooLarge, "has at most 1 MB (1,000,000 bytes)")]
    public async Task ImportPage_FileThatIsTooLarge_SaysHowLargeItMayBe(int bytes, HttpStatusCode status, string words)
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        using var form = new MultipartFormDataContent();
        foreach ((string name, string value) in await author.FormAsync("/inventory/import", "preview"))
        {
            form.Add(new StringContent(value), name);
        }

        form.Add(new ByteArrayContent(new byte[bytes]), "file", "vessels.csv");
        using HttpResponseMessage answer = await author.Client.PostAsync("/inventory/import", form);
        Assert.Contains(words, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), StringComparison.Ordinal);
        Assert.Equal(status, answer.StatusCode);
    }

    [Fact]
    public async Task Import_PreviewOfANewVessel_ListsItsValues()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await ImportAsync(author, "label,kind,volume (mL),rating (bar(g)),rating evidence,inspected on\r\nW-new,tube,35,10,engraved,2026-02-10\r\n", "?preview=true");
        string words = (string)(await Read.ObjectAsync(answer))["vessels"]![0]!["words"]!;
        Assert.Equal("kind tube; volume 35 mL; rating 10 bar(g); evidence of the rating engraved; inspected on 2026-02-10", words);
    }

    [Fact]
    public async Task Import_ReliefAndGlassWall_AreListedAndBadCellsRefusedWithTheirPlace()
    {
        using HttpClient author = test.As("author");
        const string Columns = "label,kind,relief device,relief set (bar(g)),outside diameter (mm),wall (mm),annealed\r\n";
        using HttpResponseMessage answer = await ImportAsync(author, Columns + "W-wall,tube,bursting disc,5.5,20,2.2,yes\r\n", "?preview=true");
        string words = (string)(await Read.ObjectAsync(answer))["vessels"]![0]!["words"]!;
        Assert.Equal("kind tube; relief device bursting disc; relief set 5.5 bar(g); outside diameter 20 mm; wall 2.2 mm; annealed yes", words);
        using HttpResponseMessage bad = await ImportAsync(author, Columns + "W-wall,tube,tap,5.5,20,thick,perhaps\r\nW-full,tube,,,20,10,\r\n", "");
        Assert.Equal(["/2/wall (mm)", "/2/annealed", "/2/relief device", "/3/wall (mm)"], Read.Paths(await Read.ProblemAsync(bad, HttpStatusCode.UnprocessableEntity)));
    }

    private static Task<HttpResponseMessage> ImportAsync(HttpClient client, string text, string query)
    {
        var content = new ByteArrayContent(Encoding.UTF8.GetBytes(text));
        content.Headers.ContentType = MediaTypeHeaderValue.Parse("text/csv; charset=utf-8");
        return client.PostAsync("/api/v1/vessels/import" + query, content);
    }
}
