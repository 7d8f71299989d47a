using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Vessels, places and agents over the API and the pages. All of them are invented.</summary>
public sealed class InventoryTests(TestApp test)
{
    [Fact]
    public async Task Vessel_AddReadChangeListAndVersions_GoTogether()
    {
        (string address, JsonObject added) = await AddAsync("vessels", Vessel("W-01"));
        Assert.Equal("W-01", (string?)added["entry"]!["label"]);
        using HttpClient member = test.As("member");
        using HttpResponseMessage read = await member.GetAsync(address);
        Assert.Equal("\"1\"", read.Headers.ETag?.ToString());
        using HttpResponseMessage changed = await SendAsync(member, HttpMethod.Put, address, Vessel("W-01", bar: 8), "\"1\"");
        Assert.Equal((HttpStatusCode.OK, "\"2\""), (changed.StatusCode, changed.Headers.ETag?.ToString()));
        using HttpResponseMessage list = await member.GetAsync("/api/v1/vessels");
        JsonNode listed = (await Read.ObjectAsync(list))["items"]!.AsArray().Single(v => (string?)v!["entry"]!["label"] is "W-01")!;
        Assert.Equal((2, 8.0, "Invented member"), ((int)listed["version"]!, (double)listed["entry"]!["rating"]!["value"]!, (string)listed["changedBy"]!));
        using HttpResponseMessage versions = await member.GetAsync(address + "/versions");
        Assert.Equal(2, (await Read.ObjectAsync(versions))["items"]!.AsArray().Count);
        Assert.Equal(1, await EventsAsync("vessel.changed", "W-01"));
    }

    [Theory]
    [InlineData("vessels")]
    [InlineData("places")]
    [InlineData("agents")]
    public async Task Entry_TagAbsentStaleAndCurrent_Is428412And200(string kind)
    {
        JsonObject entry = await EntryAsync(kind, "W-tag " + kind);
        (string address, _) = await AddAsync(kind, entry);
        JsonObject changed = entry.DeepClone().AsObject().With(e => e["note"] = "changed");
        using HttpClient author = test.As("author");
        using HttpResponseMessage absent = await SendAsync(author, HttpMethod.Put, address, changed);
        await Read.ProblemAsync(absent, (HttpStatusCode)428);
        using HttpResponseMessage stale = await SendAsync(author, HttpMethod.Put, address, changed, "\"7\"");
        await Read.ProblemAsync(stale, HttpStatusCode.PreconditionFailed);
        using HttpResponseMessage current = await SendAsync(author, HttpMethod.Put, address, changed, "\"1\"");
        Assert.Equal((HttpStatusCode.OK, "\"2\""), (current.StatusCode, current.Headers.ETag?.ToString()));
    }

    [Theory]
    [InlineData("vessels")]
    [InlineData("places")]
    [InlineData("agents")]
    public async Task Entry_OfAForeignGroup_Is404ForEveryCall(string kind)
    {
        JsonObject entry = await EntryAsync(kind, "W-foreign " + kind);
        (string address, _) = await AddAsync(kind, entry);
        using HttpClient foreign = test.As("foreign-lead");
        using HttpResponseMessage read = await foreign.GetAsync(address);
        await Read.ProblemAsync(read, HttpStatusCode.NotFound);
        using HttpResponseMessage versions = await foreign.GetAsync(address + "/versions");
        await Read.ProblemAsync(versions, HttpStatusCode.NotFound);
        using HttpResponseMessage change = await SendAsync(foreign, HttpMethod.Put, address, entry, "\"1\"");
        await Read.ProblemAsync(change, HttpStatusCode.NotFound);
        using HttpResponseMessage retire = await SendAsync(foreign, HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "mine" }, "\"1\"");
        await Read.ProblemAsync(retire, HttpStatusCode.NotFound);
        using HttpResponseMessage list = await foreign.GetAsync($"/api/v1/{kind}?retired=true");
        Assert.DoesNotContain((await Read.ObjectAsync(list))["items"]!.AsArray(), i => address.EndsWith((string)i!["id"]!, StringComparison.Ordinal));
        using HttpResponseMessage named = await foreign.GetAsync($"/api/v1/{kind}?group={test.Group}");
        await Read.ProblemAsync(named, HttpStatusCode.NotFound);
    }

    [Theory]
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "colour": "red" }""", HttpStatusCode.BadRequest, "/colour")]
    [InlineData("vessels", """{ "kind": "tube" }""", HttpStatusCode.UnprocessableEntity, "/label")]
    [InlineData("vessels", """{ "label": "x" }""", HttpStatusCode.UnprocessableEntity, "/kind")]
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "rating": { "value": 4, "unit": "bar(g)" } }""", HttpStatusCode.UnprocessableEntity, "/ratingEvidence")]
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "volume": { "value": -4, "unit": "mL" } }""", HttpStatusCode.UnprocessableEntity, "/volume/value")]
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "volume": { "value": 4, "unit": "bar" } }""", HttpStatusCode.UnprocessableEntity, "/volume/unit")]
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "inspectedOn": "2031-02-30" }""", HttpStatusCode.UnprocessableEntity, "/inspectedOn")]
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "parts": [ { "rating": { "value": 4, "unit": "bar(g)" } } ] }""", HttpStatusCode.UnprocessableEntity, "/parts/0/part")]
    [InlineData("places", """{ "name": "x" }""", HttpStatusCode.UnprocessableEntity, "/kind")]
    [InlineData("places", """{ "name": "x", "kind": "hood", "airFlow": { "value": 0, "unit": "m³/h" } }""", HttpStatusCode.UnprocessableEntity, "/airFlow/value")]
    [InlineData("agents", """{ "place": "somewhere", "agent": "foam" }""", HttpStatusCode.UnprocessableEntity, "/place")]
    [InlineData("agents", """{ "place": "0198c0de-0000-7000-8000-000000000000", "agent": "foam" }""", HttpStatusCode.UnprocessableEntity, "/place")]
    [InlineData("agents", """{ "place": "0198c0de-0000-7000-8000-000000000000", "agent": "halon" }""", HttpStatusCode.UnprocessableEntity, "/agent")]
    public async Task Post_BadInput_IsRefusedWithItsPath(string kind, string json, HttpStatusCode status, string path)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await SendAsync(author, HttpMethod.Post, $"/api/v1/{kind}", JsonNode.Parse(json)!.AsObject());
        Assert.Contains(path, Read.Paths(await Read.ProblemAsync(answer, status)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task Post_TwiceWithOneKey_AddsOnceAndTheLabelIsTakenForOthers()
    {
        using HttpClient author = test.As("author");
        string key = Guid.CreateVersion7().ToString();
        using HttpResponseMessage first = await SendAsync(author, HttpMethod.Post, "/api/v1/vessels", Vessel("W-key"), key: key);
        using HttpResponseMessage again = await SendAsync(author, HttpMethod.Post, "/api/v1/vessels", Vessel("W-key"), key: key);
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (first.StatusCode, again.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        using HttpResponseMessage other = await SendAsync(author, HttpMethod.Post, "/api/v1/vessels", Vessel("W-key 2"), key: key);
        await Read.ProblemAsync(other, HttpStatusCode.UnprocessableEntity);
        using HttpResponseMessage taken = await SendAsync(author, HttpMethod.Post, "/api/v1/vessels", Vessel("w KEY"));
        Assert.Equal(["/label"], Read.Paths(await Read.ProblemAsync(taken, HttpStatusCode.Conflict)));
    }

    [Theory]
    [InlineData("administrator")]
    [InlineData("auditor")]
    public async Task Post_WithoutTheRole_Is403(string person)
    {
        using HttpClient client = test.As(person);
        using HttpResponseMessage answer = await SendAsync(client, HttpMethod.Post, "/api/v1/vessels", Vessel("W-none"));
        await Read.ProblemAsync(answer, HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task Retirement_IsForReviewersAndLeads()
    {
        (string address, _) = await AddAsync("vessels", Vessel("W-retire"));
        using HttpClient author = test.As("author");
        using HttpResponseMessage refused = await SendAsync(author, HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "broken" }, "\"1\"");
        await Read.ProblemAsync(refused, HttpStatusCode.Forbidden);
        using HttpClient reviewer = test.As("pressure-reviewer");
        using HttpResponseMessage retired = await SendAsync(reviewer, HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "broken" }, "\"1\"");
        Assert.Equal("retired", (string?)(await Read.ObjectAsync(retired))["change"]);
        using HttpResponseMessage list = await author.GetAsync("/api/v1/vessels");
        Assert.DoesNotContain((await Read.ObjectAsync(list))["items"]!.AsArray(), v => (string?)v!["entry"]!["label"] is "W-retire");
    }

    [Fact]
    public async Task Table_ExportedAndImportedAgain_ChangesNothingAndAnEditedOneOnlyWhatWasEdited()
    {
        await AddAsync("vessels", Vessel("W-csv").With(v => v["note"] = "=1+1, \"quoted\"\nsecond line").With(v => v["volume"] = new JsonObject { ["value"] = 0.035, ["unit"] = "L" }));
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

    [Theory]
    [InlineData("vessels")]
    [InlineData("places")]
    [InlineData("agents")]
    [InlineData("own-substances")]
    public async Task List_RetiredThatIsNeitherTrueNorFalse_NamesTheParameter(string list)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/{list}?retired=maybe");
        JsonObject problem = await Read.ProblemAsync(answer, HttpStatusCode.BadRequest);
        Assert.Equal(("?retired", "Expected true or false."), ((string)problem["errors"]![0]!["path"]!, (string)problem["errors"]![0]!["message"]!));
    }

    [Fact]
    public async Task Submission_NamingVesselAndPlace_CopiesThemAndKeepsTheCopyWhenTheInventoryChanges()
    {
        (string vessel, _) = await AddAsync("vessels", Vessel("W-sub").With(v => v["inspectedOn"] = "2031-02-10"));
        (_, JsonObject place) = await AddAsync("places", new JsonObject { ["name"] = "W hood", ["kind"] = "hood", ["airFlow"] = new JsonObject { ["value"] = 700, ["unit"] = "m³/h" } });
        await AddAsync("agents", new JsonObject { ["place"] = (string)place["id"]!, ["agent"] = "dry powder" });
        using HttpClient author = test.As("author");
        string procedure = await DraftAsync(author, "W-sub", d => d["place"] = new JsonObject { ["name"] = "w-Hood" });
        using HttpResponseMessage submitted = await author.PostAsync($"{procedure}/submissions", content: null);
        Assert.Equal(HttpStatusCode.Created, submitted.StatusCode);
        using HttpResponseMessage changed = await SendAsync(author, HttpMethod.Put, vessel, Vessel("W-sub", bar: 2), "\"1\"");
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);

        using HttpResponseMessage kept = await author.GetAsync($"{procedure}/revisions/1/document");
        JsonObject document = await Read.ObjectAsync(kept);
        Assert.Equal((10.0, "2031-02-10"), ((double)document["vessels"]![0]!["rating"]!["value"]!, (string)document["vessels"]![0]!["inspectedOn"]!));
        Assert.StartsWith("the group's inventory, W-sub, version 1 by Invented author: ", (string)document["vessels"]![0]!["ratingEvidence"]!, StringComparison.Ordinal);
        Assert.Equal(("hood", 700.0), ((string)document["place"]!["kind"]!, (double)document["place"]!["airFlow"]!["value"]!));
        Assert.Equal("dry powder", (string?)document["fireResponse"]!["agents"]![0]);

        // The draft stays as typed.
        using HttpResponseMessage draft = await author.GetAsync($"{procedure}/draft");
        Assert.Null((await Read.ObjectAsync(draft))["document"]!["vessels"]![0]!["rating"]);
    }

    [Fact]
    public async Task Submission_VesselOutOfServiceOrContradicted_IsRefusedWithItsPath()
    {
        await AddAsync("vessels", Vessel("W-out").With(v => v["outOfService"] = "a star crack"));
        await AddAsync("vessels", Vessel("W-less"));
        using HttpClient author = test.As("author");
        string broken = await DraftAsync(author, "W-out", _ => { });
        using HttpResponseMessage refused = await author.PostAsync($"{broken}/submissions", content: null);
        JsonObject problem = await Read.ProblemAsync(refused, HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["/vessels/0"], Read.Paths(problem));
        Assert.Contains("a star crack", problem.ToJsonString(), StringComparison.Ordinal);
        string more = await DraftAsync(author, "W-less", d => d["vessels"]![0]!["rating"] = new JsonObject { ["value"] = 20, ["unit"] = "bar(g)" });
        using HttpResponseMessage contradicted = await author.PostAsync($"{more}/submissions", content: null);
        Assert.Equal(["/vessels/0/rating"], Read.Paths(await Read.ProblemAsync(contradicted, HttpStatusCode.UnprocessableEntity)));
    }

    [Fact]
    public async Task Page_FormWithFaults_ComesBackWithWhatWasTypedAndASummary()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        form["label"] = "W-typed";
        form["kind"] = "typed tube";
        form["rating"] = "four";
        form["part-1-rating"] = "3";
        form["part-1-rating-unit"] = "bar(g)";
        using HttpResponseMessage answer = await member.SendAsync("/inventory/vessels/new", form);
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("typed tube", page, StringComparison.Ordinal);
        Assert.Contains("is not a number", page, StringComparison.Ordinal);
        form["rating"] = "4";
        form["key"] = Guid.CreateVersion7().ToString();
        using HttpResponseMessage again = await member.SendAsync("/inventory/vessels/new", form);
        page = await again.Content.ReadAsStringAsync();
        Assert.Contains("#part-1-part", page, StringComparison.Ordinal);
        Assert.Contains("#ratingEvidence", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_FormSentTwice_IsOneVesselAndTheSameAddress()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        form["label"] = "W-twice";
        form["kind"] = "beaker";
        long before = await test.EventsAsync("vessel.added");
        HttpResponseMessage[] answers = await Task.WhenAll(member.SendAsync("/inventory/vessels/new", form), member.SendAsync("/inventory/vessels/new", form));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        Assert.Single(answers.Select(a => a.Headers.Location).Distinct());
        Assert.Equal(before + 1, await test.EventsAsync("vessel.added"));
    }

    [Fact]
    public async Task Page_RetirementForm_IsThereForReviewersAndNotForMembers()
    {
        (_, JsonObject added) = await AddAsync("vessels", Vessel("W-member"));
        string page = $"/inventory/vessels/{(string)added["id"]!}/edit";
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        using HttpResponseMessage shown = await member.Client.GetAsync(page);
        Assert.DoesNotContain("retire-form", await shown.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "fire-reviewer");
        Dictionary<string, string> form = await reviewer.FormAsync(page, "retire");
        form["reason"] = "broken";
        using HttpResponseMessage retired = await reviewer.SendAsync(page, form);
        Assert.Equal(HttpStatusCode.Redirect, retired.StatusCode);
        using HttpResponseMessage after = await member.Client.GetAsync(page);
        Assert.Equal(HttpStatusCode.Conflict, after.StatusCode);
    }

    private async Task<JsonObject> EntryAsync(string kind, string name)
    {
        if (kind is "vessels")
        {
            return Vessel(name);
        }

        if (kind is "places")
        {
            return new JsonObject { ["name"] = name, ["kind"] = "bench" };
        }

        (_, JsonObject place) = await AddAsync("places", new JsonObject { ["name"] = name + " place", ["kind"] = "bench" });
        return new JsonObject { ["place"] = (string)place["id"]!, ["agent"] = "carbon dioxide", ["size"] = "1 × 5 kg", ["checkedOn"] = "2031-01-02" };
    }

    private async Task<(string Address, JsonObject Answer)> AddAsync(string kind, JsonObject entry)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await SendAsync(author, HttpMethod.Post, $"/api/v1/{kind}", entry);
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return (answer.Headers.Location!.ToString(), JsonNode.Parse(text)!.AsObject());
    }

    /// <summary>A draft whose only vessel is the tube of that label; its address.</summary>
    private static async Task<string> DraftAsync(HttpClient author, string label, Action<JsonObject> change)
    {
        JsonObject document = Sample.Document("uses " + label).With(d =>
        {
            d["vessels"] = new JsonArray(new JsonObject { ["id"] = label, ["kind"] = "thick-walled glass tube" });
            d["steps"] = new JsonArray(new JsonObject { ["id"] = "1", ["action"] = "charge", ["vessel"] = label, ["materials"] = new JsonArray("water", "salt") });
        }).With(change);
        using HttpResponseMessage created = await SendAsync(author, HttpMethod.Post, "/api/v1/procedures", new JsonObject { ["document"] = document });
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        return created.Headers.Location!.ToString();
    }

    private static JsonObject Vessel(string label, double bar = 10) => new()
    {
        ["label"] = label,
        ["kind"] = "thick-walled glass tube",
        ["volume"] = new JsonObject { ["value"] = 35, ["unit"] = "mL" },
        ["rating"] = new JsonObject { ["value"] = bar, ["unit"] = "bar(g)" },
        ["ratingEvidence"] = "engraved on the tube (invented)",
    };

    private static Task<HttpResponseMessage> ImportAsync(HttpClient client, string text, string query)
    {
        var content = new ByteArrayContent(Encoding.UTF8.GetBytes(text));
        content.Headers.ContentType = MediaTypeHeaderValue.Parse("text/csv; charset=utf-8");
        return client.PostAsync("/api/v1/vessels/import" + query, content);
    }

    private static Task<HttpResponseMessage> SendAsync(HttpClient client, HttpMethod method, string address, JsonObject body, string? ifMatch = null, string? key = null)
    {
        var request = new HttpRequestMessage(method, address) { Content = new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json") };
        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        if (key is not null)
        {
            request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
        }

        return client.SendAsync(request);
    }

    private async Task<int> EventsAsync(string action, string text)
    {
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage answer = await lead.GetAsync($"/api/v1/history?action={action}&text={Uri.EscapeDataString(text)}");
        return (await Read.ObjectAsync(answer))["items"]!.AsArray().Count;
    }
}
