using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The group's own substances. They and their values are invented.</summary>
public sealed class OwnSubstanceTests(TestApp test)
{
    [Fact]
    public async Task PostSubstances_ByAReviewer_IsFoundReadAndMarked()
    {
        (string address, _) = await AddAsync("invented find-me ester", flashPoint: 31);
        using HttpClient author = test.As("author");
        using HttpResponseMessage search = await author.GetAsync("/api/v1/substances?query=invented%20find-me");
        JsonNode found = (await Read.ObjectAsync(search))["items"]![0]!;
        Assert.True((bool)found["own"]!);
        Assert.EndsWith((string)found["key"]!, address, StringComparison.Ordinal);

        using HttpResponseMessage read = await author.GetAsync(address);
        Assert.Equal("\"1\"", read.Headers.ETag?.ToString());
        JsonObject own = await Read.ObjectAsync(read);
        JsonNode flash = own["values"]!.AsArray().Single(v => (string?)v!["name"] is "flash point")!;
        Assert.Equal((31.0, "stated by the group"), ((double)flash["value"]!, (string)flash["quality"]!));
        Assert.Contains("notebook 7, page 12 (invented)", (string)flash["source"]![0]!, StringComparison.Ordinal);
        Assert.False((bool)own["inCatalogue"]!);
    }

    [Theory]
    [InlineData("author", HttpStatusCode.Forbidden)]
    [InlineData("administrator", HttpStatusCode.Forbidden)]
    [InlineData("auditor", HttpStatusCode.Forbidden)]
    public async Task PostSubstances_WithoutTheRole_IsRefused(string person, HttpStatusCode status)
    {
        using HttpClient client = test.As(person);
        using HttpResponseMessage answer = await client.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", Substance("not mine to add"));
        await Read.ProblemAsync(answer, status);
    }

    [Fact]
    public async Task Substance_OfAForeignGroup_Is404ForEveryCall()
    {
        (string address, _) = await AddAsync("invented foreign ester");
        using HttpClient foreign = test.As("foreign-lead");
        using HttpResponseMessage read = await foreign.GetAsync(address);
        await Read.ProblemAsync(read, HttpStatusCode.NotFound);
        using HttpResponseMessage versions = await foreign.GetAsync(address + "/versions");
        await Read.ProblemAsync(versions, HttpStatusCode.NotFound);
        using HttpResponseMessage change = await foreign.SendJsonAsync(HttpMethod.Put, address, Substance("mine now"), "\"1\"");
        await Read.ProblemAsync(change, HttpStatusCode.NotFound);
        using HttpResponseMessage retire = await foreign.SendJsonAsync(HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "mine" }, "\"1\"");
        await Read.ProblemAsync(retire, HttpStatusCode.NotFound);
        using HttpResponseMessage search = await foreign.GetAsync("/api/v1/substances?query=invented%20foreign");
        Assert.Empty((await Read.ObjectAsync(search))["items"]!.AsArray());
    }

    [Fact]
    public async Task PutSubstance_TagAbsentStaleAndCurrent_Is428412And200()
    {
        (string address, _) = await AddAsync("invented changing ester");
        using HttpClient lead = test.As("lead");
        JsonObject changed = Substance("invented changing ester", flashPoint: 12);
        using HttpResponseMessage absent = await lead.SendJsonAsync(HttpMethod.Put, address, changed);
        await Read.ProblemAsync(absent, (HttpStatusCode)428);
        using HttpResponseMessage stale = await lead.SendJsonAsync(HttpMethod.Put, address, changed, "\"7\"");
        await Read.ProblemAsync(stale, HttpStatusCode.PreconditionFailed);
        using HttpResponseMessage current = await lead.SendJsonAsync(HttpMethod.Put, address, changed, "\"1\"");
        Assert.Equal((HttpStatusCode.OK, "\"2\""), (current.StatusCode, current.Headers.ETag?.ToString()));
        using HttpResponseMessage versions = await lead.GetAsync(address + "/versions");
        Assert.Equal(2, (await Read.ObjectAsync(versions))["items"]!.AsArray().Count);
    }

    [Fact]
    public async Task PostSubstances_Faults_Are422WithTheirPaths()
    {
        using HttpClient lead = test.As("lead");
        JsonObject substance = JsonNode.Parse("""
            { "name": "toluene", "cas": "71-43-3",
              "properties": { "formula": "C6H6", "molarMass": { "value": 80, "unit": "g/mol" }, "flashPoint": { "value": -300, "unit": "°C" }, "boilingPoint": { "value": 95, "unit": "°C" },
                "vapourPressure": { "a": 4.3, "b": 1290, "c": 220.5, "pressureUnit": "bar", "temperatureUnit": "°C", "from": { "value": -10, "unit": "°C" }, "to": { "value": 120, "unit": "°C" } },
                "sources": { "density": "nowhere" } } }
            """)!.AsObject();
        using HttpResponseMessage answer = await lead.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", substance);
        string[] paths = Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity));
        Assert.Equal(
            "/cas /name /properties/boilingPoint /properties/flashPoint/value /properties/molarMass /properties/source /properties/sources/density",
            string.Join(' ', paths.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)));
    }

    [Theory]
    [InlineData("""{ "name": "x", "colour": "red", "properties": { "source": "s" } }""", HttpStatusCode.BadRequest, "/colour")]
    [InlineData("""{ "name": "bleach", "properties": { "source": "s" } }""", HttpStatusCode.UnprocessableEntity, "/name")]
    [InlineData("""{ "properties": { "source": "s" } }""", HttpStatusCode.UnprocessableEntity, "/name")]
    public async Task PostSubstances_UnknownMemberOrUnusableName_IsRefused(string json, HttpStatusCode status, string path)
    {
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage answer = await lead.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", JsonNode.Parse(json)!.AsObject());
        Assert.Contains(path, Read.Paths(await Read.ProblemAsync(answer, status)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task PostSubstances_TwiceWithOneKey_AddsOnceAndOtherContentIs422()
    {
        using HttpClient lead = test.As("lead");
        string key = Guid.CreateVersion7().ToString();
        using HttpResponseMessage first = await lead.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", Substance("invented keyed ester"), key: key);
        using HttpResponseMessage again = await lead.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", Substance("invented keyed ester"), key: key);
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (first.StatusCode, again.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        using HttpResponseMessage other = await lead.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", Substance("invented other ester"), key: key);
        await Read.ProblemAsync(other, HttpStatusCode.UnprocessableEntity);
        using HttpResponseMessage taken = await lead.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", Substance("Invented keyed-ester"));
        Assert.Equal(["/name"], Read.Paths(await Read.ProblemAsync(taken, HttpStatusCode.Conflict)));
    }

    [Fact]
    public async Task Retirement_TakesItOutOfSearchAndKeepsItReadable()
    {
        (string address, _) = await AddAsync("invented retiring ester");
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage retired = await lead.SendJsonAsync(HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "another compound" }, "\"1\"");
        Assert.Equal(HttpStatusCode.OK, retired.StatusCode);
        using HttpResponseMessage search = await lead.GetAsync("/api/v1/substances?query=invented%20retiring");
        Assert.Empty((await Read.ObjectAsync(search))["items"]!.AsArray());
        using HttpResponseMessage read = await lead.GetAsync(address);
        Assert.Equal("retired", (string?)(await Read.ObjectAsync(read))["own"]!["change"]);
    }

    [Fact]
    public async Task Submission_NamingAnOwnSubstance_CopiesItAndKeepsTheCopyWhenTheListChanges()
    {
        (string address, _) = await AddAsync("invented copied ester", flashPoint: 31);
        JsonObject document = Sample.Document("uses an own substance");
        document["materials"]!.AsArray()[1]!["substance"] = new JsonObject { ["name"] = "Invented copied-ester" };
        using HttpClient author = test.As("author");
        using HttpResponseMessage created = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/procedures", new JsonObject { ["document"] = document });
        string procedure = created.Headers.Location!.ToString();
        using HttpResponseMessage submitted = await author.PostAsync($"{procedure}/submissions", content: null);
        Assert.Equal(HttpStatusCode.Created, submitted.StatusCode);

        using HttpClient lead = test.As("lead");
        using HttpResponseMessage changed = await lead.SendJsonAsync(HttpMethod.Put, address, Substance("invented copied ester", flashPoint: 12), "\"1\"");
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        using HttpResponseMessage kept = await author.GetAsync($"{procedure}/revisions/1/document");
        JsonNode properties = (await Read.ObjectAsync(kept))["materials"]![1]!["substance"]!["properties"]!;
        Assert.Equal(31.0, (double)properties["flashPoint"]!["value"]!);
        Assert.Equal("the group's own list, version 1: notebook 7, page 12 (invented)", (string?)properties["source"]);

        // The draft stays as typed.
        using HttpResponseMessage draft = await author.GetAsync($"{procedure}/draft");
        Assert.Null((await Read.ObjectAsync(draft))["document"]!["materials"]![1]!["substance"]!["properties"]);
    }

    [Fact]
    public async Task Page_FormWithFaults_ComesBackWithWhatWasTypedAndASummary()
    {
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "fire-reviewer");
        Dictionary<string, string> form = await reviewer.FormAsync("/catalogue/own/new", "keep");
        form["name"] = "invented typed ester";
        form["cas"] = "96-33-4";
        form["flashPoint"] = "sixty";
        using HttpResponseMessage answer = await reviewer.SendAsync("/catalogue/own/new", form);
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("invented typed ester", page, StringComparison.Ordinal);
        Assert.Contains("is not a number", page, StringComparison.Ordinal);
        Assert.Contains("#flashPoint", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_FormOfAMember_IsRefused()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        using HttpResponseMessage answer = await member.Client.GetAsync("/catalogue/own/new");
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    private async Task<(string Address, JsonObject Answer)> AddAsync(string name, double flashPoint = 63)
    {
        using HttpClient reviewer = test.As("fire-reviewer");
        using HttpResponseMessage answer = await reviewer.SendJsonAsync(HttpMethod.Post, "/api/v1/substances", Substance(name, flashPoint));
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return (answer.Headers.Location!.ToString(), JsonNode.Parse(text)!.AsObject());
    }

    private static JsonObject Substance(string name, double flashPoint = 63) => new()
    {
        ["name"] = name,
        ["properties"] = new JsonObject { ["flashPoint"] = new JsonObject { ["value"] = flashPoint, ["unit"] = "°C" }, ["source"] = "notebook 7, page 12 (invented)" },
    };
}
