using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The group's thresholds by API. Only the second group's are set, so that the first keeps the defaults for the other tests.</summary>
public sealed class ThresholdTests(TestApp test)
{
    [Fact]
    public async Task GetPolicy_GroupThatSetNone_IsTheDefaultWithRangesAndSources()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(Policies.Address);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("\"1\"", answer.Headers.ETag?.Tag);
        JsonObject policy = await Read.ObjectAsync(answer);
        Assert.Equal(PolicyWriter.Digest(Policy.Default), (string?)policy["digest"]);
        Assert.True(JsonNode.DeepEquals(PolicyWriter.ToJson(Policy.Default), policy["policy"]), policy["policy"]!.ToJsonString());
        Assert.Null(policy["setBy"]);
        JsonArray thresholds = policy["thresholds"]!.AsArray();
        Assert.Equal(PolicyThreshold.All.Count, thresholds.Count);
        Assert.All(thresholds, t => Assert.False(string.IsNullOrWhiteSpace((string?)t!["source"])));
        Assert.All(thresholds, t => Assert.InRange((double)t!["value"]!, (double)t["lowest"]!, (double)t["highest"]!));
    }

    [Theory]
    [InlineData("member")]
    [InlineData("pressure-reviewer")]
    [InlineData("administrator")]
    [InlineData("auditor")]
    public async Task PutPolicy_ByAnybodyButTheLead_Is403WhateverElseIsWrong(string person)
    {
        using HttpClient client = test.As(person);
        using HttpResponseMessage answer = await client.PutAsJsonAsync(Policies.Address, Policies.Body(Policy.Default));
        await Read.ProblemAsync(answer, HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task Policy_OfAForeignGroup_IsNotThere()
    {
        using HttpClient lead = test.As("lead");
        string foreign = $"?group={test.OtherGroup}";
        using HttpResponseMessage read = await lead.GetAsync(Policies.Address + foreign);
        using HttpResponseMessage versions = await lead.GetAsync($"{Policies.Address}/versions{foreign}");
        using HttpResponseMessage put = await Policies.PutAsync(lead, Policies.Body(Policy.Default), "\"1\"", foreign);
        foreach (HttpResponseMessage answer in (HttpResponseMessage[])[read, versions, put])
        {
            await Read.ProblemAsync(answer, HttpStatusCode.NotFound);
        }
    }

    [Theory]
    [InlineData(null, HttpStatusCode.PreconditionRequired)]
    [InlineData("\"999\"", HttpStatusCode.PreconditionFailed)]
    [InlineData("1", HttpStatusCode.BadRequest)]
    public async Task PutPolicy_IfMatchMissingStaleOrNone_IsRefused(string? tag, HttpStatusCode status)
    {
        using HttpClient lead = test.As("lead");
        string before = await test.RowsAsync();
        using HttpResponseMessage answer = await Policies.PutAsync(lead, Policies.Body(Policy.Default with { OvershootK = 20 }), tag);
        await Read.ProblemAsync(answer, status);
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task PutPolicy_Faults_Are422WithEveryPath()
    {
        using HttpClient lead = test.As("lead");
        JsonObject body = Policies.Body(Policy.Default with { OvershootK = 200, DangerShare = 0.6 }, reason: " ");
        using HttpResponseMessage answer = await Policies.PutAsync(lead, body, "*");
        Assert.Equal("/policy/overshootK /policy/warningShareMetal /reason", string.Join(' ', Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)).Order(StringComparer.Ordinal)));

        body = Policies.Body(Policy.Default);
        body["policy"]!.AsObject().Remove("fillLow");
        using HttpResponseMessage missing = await Policies.PutAsync(lead, body, "*");
        Assert.Equal(["/policy/fillLow"], Read.Paths(await Read.ProblemAsync(missing, HttpStatusCode.UnprocessableEntity)));

        body = Policies.Body(Policy.Default);
        body["policy"]!["overshoot"] = 15;
        using HttpResponseMessage unknown = await Policies.PutAsync(lead, body, "*");
        Assert.Equal(["/policy/overshoot"], Read.Paths(await Read.ProblemAsync(unknown, HttpStatusCode.BadRequest)));
    }

    [Fact]
    public async Task PutPolicy_ByTheLead_IsOneVersionAndEveryScreeningOfTheGroupSaysSo()
    {
        using HttpClient lead = test.As("foreign-lead");
        using HttpClient colleague = test.As("foreign-author");
        using HttpClient other = test.As("author");
        long events = await test.EventsAsync("thresholds.set");
        (Policy next, string tag) = await Policies.NextAsync(lead);

        string key = Guid.CreateVersion7().ToString();
        using HttpResponseMessage set = await Policies.PutAsync(lead, Policies.Body(next), tag, key: key);
        using HttpResponseMessage again = await Policies.PutAsync(lead, Policies.Body(next), tag, key: key);
        Assert.Equal(HttpStatusCode.OK, set.StatusCode);
        Assert.Equal(await set.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        Assert.Equal(events + 1, await test.EventsAsync("thresholds.set"));
        JsonObject answer = await Read.ObjectAsync(set);
        Assert.Equal(PolicyWriter.Digest(next), (string?)answer["digest"]);
        Assert.Equal("stricter", (string?)answer["thresholds"]!.AsArray().Single(t => (string?)t!["member"] is "overshootK")!["against"]);
        Assert.Equal("A test.", (string?)answer["reason"]);

        Assert.Equal(PolicyWriter.Digest(next), await ScreenedUnderAsync(colleague));
        Assert.Equal(PolicyWriter.Digest(Policy.Default), await ScreenedUnderAsync(other));
        using HttpResponseMessage versions = await colleague.GetAsync($"{Policies.Address}/versions");
        JsonArray items = (await Read.ObjectAsync(versions))["items"]!.AsArray();
        Assert.Equal(set.Headers.ETag?.Tag, $"\"{(int)items[0]!["version"]!}\"");
        Assert.Equal(1, (int)items[^1]!["version"]!);

        string address = await test.SubmittedAsync("a quiet procedure of the second group", "foreign-author");
        using HttpResponseMessage screening = await colleague.GetAsync($"{address}/revisions/1/screening");
        Assert.Equal(PolicyWriter.Digest(next), (string?)(await Read.ObjectAsync(screening))["engine"]!["policy"]);

        using HttpResponseMessage stale = await Policies.PutAsync(lead, Policies.Body(next), tag);
        await Read.ProblemAsync(stale, HttpStatusCode.PreconditionFailed);
    }

    [Fact]
    public async Task PostComparisons_UnderAnotherOvershoot_ComparesAtItsWorstTemperature()
    {
        using HttpClient lead = test.As("foreign-lead");
        async Task<double> PressureAsync()
        {
            using HttpResponseMessage answer = await lead.PostAsJsonAsync("/api/v1/comparisons", new JsonObject { ["before"] = Closed(100), ["after"] = Closed(110) });
            return (double)(await Read.ObjectAsync(answer))["changes"]!.AsArray().First(c => (string?)c!["hazard"] is "pressure")!["after"]!;
        }

        double before = await PressureAsync();
        (Policy next, string tag) = await Policies.NextAsync(lead);
        (await Policies.PutAsync(lead, Policies.Body(next), tag)).Dispose();
        Assert.True(await PressureAsync() > before);
    }

    private static async Task<string?> ScreenedUnderAsync(HttpClient client)
    {
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/screenings", Sample.Document("screened"));
        return (string?)(await Read.ObjectAsync(answer))["engine"]!["policy"];
    }

    private static JsonObject Closed(double celsius) => JsonNode.Parse($$"""
        {
          "schema": "preapproval/procedure/1", "title": "Ethanol in a tube (invented)", "purpose": "A test.",
          "materials": [ { "id": "ethanol", "substance": { "cas": "64-17-5" }, "role": "solvent", "amount": { "value": 10, "unit": "mL" } } ],
          "vessels": [ { "id": "tube", "kind": "thick-walled glass tube", "volume": { "value": 35, "unit": "mL" }, "rating": { "value": 4, "unit": "bar(g)" } } ],
          "steps": [
            { "id": "1", "action": "charge", "vessel": "tube", "materials": ["ethanol"], "temperature": { "value": 20, "unit": "°C" } },
            { "id": "2", "action": "seal", "vessel": "tube" },
            { "id": "3", "action": "heat", "vessel": "tube", "temperature": { "value": {{celsius.ToString(System.Globalization.CultureInfo.InvariantCulture)}}, "unit": "°C" }, "heatSource": "metal block" }
          ]
        }
        """)!.AsObject();
}
