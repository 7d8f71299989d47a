using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Vessels, places and agents over the API and the pages. All of them are invented.</summary>
public sealed class InventoryTests(TestApp test)
{
    [Fact]
    public async Task Vessel_AddReadChangeListAndVersions_GoTogether()
    {
        (string address, JsonObject added) = await test.AddEntryAsync("vessels", Entries.Vessel("W-01"));
        Assert.Equal("W-01", (string?)added["entry"]!["label"]);
        using HttpClient member = test.As("member");
        using HttpResponseMessage read = await member.GetAsync(address);
        Assert.Equal("\"1\"", read.Headers.ETag?.ToString());
        using HttpResponseMessage changed = await member.SendJsonAsync(HttpMethod.Put, address, Entries.Vessel("W-01", bar: 8), "\"1\"");
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
        (string address, _) = await test.AddEntryAsync(kind, entry);
        JsonObject changed = entry.DeepClone().AsObject().With(e => e["note"] = "changed");
        using HttpClient author = test.As("author");
        using HttpResponseMessage absent = await author.SendJsonAsync(HttpMethod.Put, address, changed);
        await Read.ProblemAsync(absent, (HttpStatusCode)428);
        using HttpResponseMessage stale = await author.SendJsonAsync(HttpMethod.Put, address, changed, "\"7\"");
        await Read.ProblemAsync(stale, HttpStatusCode.PreconditionFailed);
        using HttpResponseMessage current = await author.SendJsonAsync(HttpMethod.Put, address, changed, "\"1\"");
        Assert.Equal((HttpStatusCode.OK, "\"2\""), (current.StatusCode, current.Headers.ETag?.ToString()));
    }

    [Theory]
    [InlineData("vessels")]
    [InlineData("places")]
    [InlineData("agents")]
    public async Task Entry_OfAForeignGroup_Is404ForEveryCall(string kind)
    {
        JsonObject entry = await EntryAsync(kind, "W-foreign " + kind);
        (string address, _) = await test.AddEntryAsync(kind, entry);
        using HttpClient foreign = test.As("foreign-lead");
        using HttpResponseMessage read = await foreign.GetAsync(address);
        await Read.ProblemAsync(read, HttpStatusCode.NotFound);
        using HttpResponseMessage versions = await foreign.GetAsync(address + "/versions");
        await Read.ProblemAsync(versions, HttpStatusCode.NotFound);
        using HttpResponseMessage change = await foreign.SendJsonAsync(HttpMethod.Put, address, entry, "\"1\"");
        await Read.ProblemAsync(change, HttpStatusCode.NotFound);
        using HttpResponseMessage retire = await foreign.SendJsonAsync(HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "mine" }, "\"1\"");
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
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "inspectedOn": "2099-01-31" }""", HttpStatusCode.UnprocessableEntity, "/inspectedOn")]
    [InlineData("vessels", """{ "label": "x", "kind": "tube", "parts": [ { "rating": { "value": 4, "unit": "bar(g)" } } ] }""", HttpStatusCode.UnprocessableEntity, "/parts/0/part")]
    [InlineData("places", """{ "name": "x" }""", HttpStatusCode.UnprocessableEntity, "/kind")]
    [InlineData("places", """{ "name": "x", "kind": "hood", "airFlow": { "value": 0, "unit": "m³/h" } }""", HttpStatusCode.UnprocessableEntity, "/airFlow/value")]
    [InlineData("agents", """{ "place": "somewhere", "agent": "foam" }""", HttpStatusCode.UnprocessableEntity, "/place")]
    [InlineData("agents", """{ "place": "0198c0de-0000-7000-8000-000000000000", "agent": "foam" }""", HttpStatusCode.UnprocessableEntity, "/place")]
    [InlineData("agents", """{ "place": "0198c0de-0000-7000-8000-000000000000", "agent": "halon" }""", HttpStatusCode.UnprocessableEntity, "/agent")]
    public async Task Post_BadInput_IsRefusedWithItsPath(string kind, string json, HttpStatusCode status, string path)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.SendJsonAsync(HttpMethod.Post, $"/api/v1/{kind}", JsonNode.Parse(json)!.AsObject());
        Assert.Contains(path, Read.Paths(await Read.ProblemAsync(answer, status)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task Post_TwiceWithOneKey_AddsOnceAndTheLabelIsTakenForOthers()
    {
        using HttpClient author = test.As("author");
        string key = Guid.CreateVersion7().ToString();
        using HttpResponseMessage first = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/vessels", Entries.Vessel("W-key"), key: key);
        using HttpResponseMessage again = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/vessels", Entries.Vessel("W-key"), key: key);
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (first.StatusCode, again.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        using HttpResponseMessage other = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/vessels", Entries.Vessel("W-key 2"), key: key);
        await Read.ProblemAsync(other, HttpStatusCode.UnprocessableEntity);
        using HttpResponseMessage taken = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/vessels", Entries.Vessel("w KEY"));
        Assert.Equal(["/label"], Read.Paths(await Read.ProblemAsync(taken, HttpStatusCode.Conflict)));
    }

    [Theory]
    [InlineData("administrator")]
    [InlineData("auditor")]
    public async Task Post_WithoutTheRole_Is403(string person)
    {
        using HttpClient client = test.As(person);
        using HttpResponseMessage answer = await client.SendJsonAsync(HttpMethod.Post, "/api/v1/vessels", Entries.Vessel("W-none"));
        await Read.ProblemAsync(answer, HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task Retirement_IsForReviewersAndLeads()
    {
        (string address, _) = await test.AddEntryAsync("vessels", Entries.Vessel("W-retire"));
        using HttpClient author = test.As("author");
        using HttpResponseMessage refused = await author.SendJsonAsync(HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "broken" }, "\"1\"");
        await Read.ProblemAsync(refused, HttpStatusCode.Forbidden);
        using HttpClient reviewer = test.As("pressure-reviewer");
        using HttpResponseMessage retired = await reviewer.SendJsonAsync(HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "broken" }, "\"1\"");
        Assert.Equal("retired", (string?)(await Read.ObjectAsync(retired))["change"]);
        using HttpResponseMessage list = await author.GetAsync("/api/v1/vessels");
        Assert.DoesNotContain((await Read.ObjectAsync(list))["items"]!.AsArray(), v => (string?)v!["entry"]!["label"] is "W-retire");
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

    private async Task<JsonObject> EntryAsync(string kind, string name)
    {
        if (kind is "vessels")
        {
            return Entries.Vessel(name);
        }

        if (kind is "places")
        {
            return new JsonObject { ["name"] = name, ["kind"] = "bench" };
        }

        (_, JsonObject place) = await test.AddEntryAsync("places", new JsonObject { ["name"] = name + " place", ["kind"] = "bench" });
        return new JsonObject { ["place"] = (string)place["id"]!, ["agent"] = "carbon dioxide", ["size"] = "1 × 5 kg", ["checkedOn"] = "2031-01-02" };
    }

    private async Task<int> EventsAsync(string action, string text)
    {
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage answer = await lead.GetAsync($"/api/v1/history?action={action}&text={Uri.EscapeDataString(text)}");
        return (await Read.ObjectAsync(answer))["items"]!.AsArray().Count;
    }
}
