using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Tests.Hosting;
using PreApproval.Web.Thresholds;

namespace PreApproval.Web.Tests;

/// <summary>The group's thresholds by API and by page. Only the second group's are set, so that the first keeps the defaults for the other tests.</summary>
public sealed class ThresholdTests(TestApp test)
{
    private const string Address = "/api/v1/policy";

    [Fact]
    public async Task GetPolicy_GroupThatSetNone_IsTheDefaultWithRangesAndSources()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(Address);
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
        using HttpResponseMessage answer = await client.PutAsJsonAsync(Address, Body(Policy.Default));
        await Read.ProblemAsync(answer, HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task Policy_OfAForeignGroup_IsNotThere()
    {
        using HttpClient lead = test.As("lead");
        string foreign = $"?group={test.OtherGroup}";
        using HttpResponseMessage read = await lead.GetAsync(Address + foreign);
        using HttpResponseMessage versions = await lead.GetAsync($"{Address}/versions{foreign}");
        using HttpResponseMessage put = await SendAsync(lead, Body(Policy.Default), "\"1\"", foreign);
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
        using HttpResponseMessage answer = await SendAsync(lead, Body(Policy.Default with { OvershootK = 20 }), tag);
        await Read.ProblemAsync(answer, status);
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task PutPolicy_Faults_Are422WithEveryPath()
    {
        using HttpClient lead = test.As("lead");
        JsonObject body = Body(Policy.Default with { OvershootK = 200, DangerShare = 0.6 }, reason: " ");
        using HttpResponseMessage answer = await SendAsync(lead, body, "*");
        Assert.Equal("/policy/overshootK /policy/warningShareMetal /reason", string.Join(' ', Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)).Order(StringComparer.Ordinal)));

        body = Body(Policy.Default);
        body["policy"]!.AsObject().Remove("fillLow");
        using HttpResponseMessage missing = await SendAsync(lead, body, "*");
        Assert.Equal(["/policy/fillLow"], Read.Paths(await Read.ProblemAsync(missing, HttpStatusCode.UnprocessableEntity)));

        body = Body(Policy.Default);
        body["policy"]!["overshoot"] = 15;
        using HttpResponseMessage unknown = await SendAsync(lead, body, "*");
        Assert.Equal(["/policy/overshoot"], Read.Paths(await Read.ProblemAsync(unknown, HttpStatusCode.BadRequest)));
    }

    [Fact]
    public async Task PutPolicy_ByTheLead_IsOneVersionAndEveryScreeningOfTheGroupSaysSo()
    {
        using HttpClient lead = test.As("foreign-lead");
        using HttpClient colleague = test.As("foreign-author");
        using HttpClient other = test.As("author");
        long events = await test.EventsAsync("thresholds.set");
        (Policy next, string tag) = await NextAsync(lead);

        string key = Guid.CreateVersion7().ToString();
        using HttpResponseMessage set = await SendAsync(lead, Body(next), tag, key: key);
        using HttpResponseMessage again = await SendAsync(lead, Body(next), tag, key: key);
        Assert.Equal(HttpStatusCode.OK, set.StatusCode);
        Assert.Equal(await set.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        Assert.Equal(events + 1, await test.EventsAsync("thresholds.set"));
        JsonObject answer = await Read.ObjectAsync(set);
        Assert.Equal(PolicyWriter.Digest(next), (string?)answer["digest"]);
        Assert.Equal("stricter", (string?)answer["thresholds"]!.AsArray().Single(t => (string?)t!["member"] is "overshootK")!["against"]);
        Assert.Equal("A test.", (string?)answer["reason"]);

        Assert.Equal(PolicyWriter.Digest(next), await ScreenedUnderAsync(colleague));
        Assert.Equal(PolicyWriter.Digest(Policy.Default), await ScreenedUnderAsync(other));
        using HttpResponseMessage versions = await colleague.GetAsync($"{Address}/versions");
        JsonArray items = (await Read.ObjectAsync(versions))["items"]!.AsArray();
        Assert.Equal(set.Headers.ETag?.Tag, $"\"{(int)items[0]!["version"]!}\"");
        Assert.Equal(1, (int)items[^1]!["version"]!);

        string address = await test.SubmittedAsync("a quiet procedure of the second group", "foreign-author");
        using HttpResponseMessage screening = await colleague.GetAsync($"{address}/revisions/1/screening");
        Assert.Equal(PolicyWriter.Digest(next), (string?)(await Read.ObjectAsync(screening))["engine"]!["policy"]);

        using HttpResponseMessage stale = await SendAsync(lead, Body(next), tag);
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
        (Policy next, string tag) = await NextAsync(lead);
        (await SendAsync(lead, Body(next), tag)).Dispose();
        Assert.True(await PressureAsync() > before);
    }

    [Fact]
    public async Task ThresholdsPage_OfAMember_ShowsThemAndOffersNoChange()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        string page = await member.Client.GetStringAsync("/thresholds");
        Assert.Contains("TRGS 723, 5.2.3", page, StringComparison.Ordinal);
        Assert.DoesNotContain("/thresholds/edit", page, StringComparison.Ordinal);
        using HttpResponseMessage edit = await member.Client.GetAsync("/thresholds/edit");
        Assert.Equal(HttpStatusCode.Forbidden, edit.StatusCode);
    }

    [Fact]
    public async Task EditPage_Faults_KeepWhatWasTypedAndSayWhere()
    {
        using Browsing lead = await Browsing.SignInAsync(test.App, "lead");
        Dictionary<string, string> form = await FilledAsync(lead, Policy.Default);
        form["overshootK"] = "200";
        form["unratedNothingPa"] = "much";
        using HttpResponseMessage answer = await lead.SendAsync("/thresholds/edit", form);
        string page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("Unrated closed vessel: nothing up to (gauge): “much” is not a number; write for instance 0.1.", page, StringComparison.Ordinal);
        Assert.Contains("value=\"200\"", page, StringComparison.Ordinal);

        form["unratedNothingPa"] = "0,1 bar";
        using HttpResponseMessage range = await lead.SendAsync("/thresholds/edit", form);
        Assert.Contains("Overshoot of a heat source: 200 K is outside the allowed 0 to 100 K.", WebUtility.HtmlDecode(await range.Content.ReadAsStringAsync()), StringComparison.Ordinal);

        form["overshootK"] = "15";
        using HttpResponseMessage same = await lead.SendAsync("/thresholds/edit", form);
        Assert.Contains("nothing would change", await same.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    /// <summary>The clash is told before the look at the changes, with what was typed still in the fields; the second check goes on from theirs.</summary>
    [Fact]
    public async Task EditPage_SetBySomebodyElseMeanwhile_SaysSoAtTheCheck()
    {
        using HttpClient api = test.As("foreign-lead");
        using Browsing lead = await Browsing.SignInAsync(test.App, "foreign-lead");
        (Policy next, string tag) = await NextAsync(api);
        Dictionary<string, string> form = await FilledAsync(lead, (await NowAsync(api)).Policy with { FillLow = 0.03 });
        using HttpResponseMessage set = await SendAsync(api, Body(next), tag);
        Assert.True(set.IsSuccessStatusCode);

        using HttpResponseMessage check = await lead.SendAsync("/thresholds/edit", form);
        string page = WebUtility.HtmlDecode(await check.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.PreconditionFailed, check.StatusCode);
        Assert.Contains("Somebody set the thresholds since you opened this form", page, StringComparison.Ordinal);
        Assert.Contains("overshoot of a heat source", page, StringComparison.Ordinal);
        Assert.Contains($"value=\"{form["fillLow"]}\"", page, StringComparison.Ordinal);
        form["version"] = Browsing.HiddenOf(page, "check")["version"];
        form["overshootK"] = ThresholdForm.Filled(next)["overshootK"];
        using HttpResponseMessage again = await lead.SendAsync("/thresholds/edit", form);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        Assert.Contains("Check the thresholds", await again.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task EditPage_CheckedAndSetTwice_IsOneVersion()
    {
        using HttpClient api = test.As("foreign-lead");
        (Policy next, string _) = await NextAsync(api);
        using Browsing lead = await Browsing.SignInAsync(test.App, "foreign-lead");
        Dictionary<string, string> form = await FilledAsync(lead, next with { FillLow = 0.02 });
        form["reason"] = "Small amounts\nin large tubes.";
        using HttpResponseMessage check = await lead.SendAsync("/thresholds/edit", form);
        string page = await check.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, check.StatusCode);
        Assert.Contains("looser than the default", page, StringComparison.Ordinal);
        Dictionary<string, string> set = Browsing.HiddenOf(page, "set");
        Assert.Equal("66.6667", set["fillMetal"]);
        long events = await test.EventsAsync("thresholds.set");

        HttpResponseMessage[] answers = await Task.WhenAll(lead.SendAsync("/thresholds/edit", set), lead.SendAsync("/thresholds/edit", set));
        Assert.All(answers, a => Assert.Equal("/thresholds", a.Headers.Location?.OriginalString.Replace(test.App.Address.ToString().TrimEnd('/'), "", StringComparison.Ordinal)));
        Assert.Equal(events + 1, await test.EventsAsync("thresholds.set"));
        Assert.Equal(next with { FillLow = 0.02 }, (await NowAsync(api)).Policy);

        // another tab, from before: shown against what is there now
        set["key"] = Guid.CreateVersion7().ToString();
        using HttpResponseMessage stale = await lead.SendAsync("/thresholds/edit", set);
        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.StatusCode);
        Assert.Contains("Somebody set the thresholds while you did.", await stale.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public void Sections_OfTheForm_HaveEveryThresholdOnce() => Assert.Equal(
        typeof(Policy).GetProperties().Where(p => p.GetMethod!.IsStatic == false).Select(p => PolicyWriter.NameOf(p.Name)).Order(StringComparer.Ordinal),
        ThresholdForm.Sections.SelectMany(s => s.Members).Order(StringComparer.Ordinal));

    [Theory]
    [InlineData("7", 0.07)]
    [InlineData("7 %", 0.07)]
    [InlineData("66,5", 0.665)]
    [InlineData("66.6667", 2.0 / 3)]
    public void ReadForm_Percent_IsTheFractionExactly(string typed, double expected)
    {
        Dictionary<string, string> fields = new(ThresholdForm.Filled(Policy.Default), StringComparer.Ordinal) { ["fillMetal"] = typed, ["fillLow"] = "5" };
        List<Shared.Components.FormError> faults = [];
        Policy? read = ThresholdForm.Read(name => fields[name], Policy.Default, faults);
        if (expected >= 0.1)
        {
            Assert.Equal(expected, read?.FillMetal);
        }
        else
        {
            Assert.Contains("7 % is outside the allowed 10 to 75 %", Assert.Single(faults).Message, StringComparison.Ordinal);
        }
    }

    private static JsonObject Body(Policy policy, string reason = "A test.") => new() { ["policy"] = PolicyWriter.ToJson(policy), ["reason"] = reason };

    private static async Task<HttpResponseMessage> SendAsync(HttpClient client, JsonObject body, string? tag, string query = "", string? key = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, Address + query) { Content = JsonContent.Create(body) };
        if (tag is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", tag);
        }

        if (key is not null)
        {
            request.Headers.Add("Idempotency-Key", key);
        }

        return await client.SendAsync(request);
    }

    private static async Task<(Policy Policy, string Tag)> NowAsync(HttpClient client)
    {
        using HttpResponseMessage answer = await client.GetAsync(Address);
        JsonObject read = await Read.ObjectAsync(answer);
        return (Documents.Policies.PolicyReader.Parse(System.Text.Encoding.UTF8.GetBytes(read["policy"]!.ToJsonString())), answer.Headers.ETag!.Tag);
    }

    /// <summary>The policy in use with one more degree of overshoot, and the tag of the one in use.</summary>
    private static async Task<(Policy Policy, string Tag)> NextAsync(HttpClient client)
    {
        (Policy policy, string tag) = await NowAsync(client);
        return (policy with { OvershootK = policy.OvershootK + 1 }, tag);
    }

    private static async Task<string?> ScreenedUnderAsync(HttpClient client)
    {
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/screenings", Sample.Document("screened"));
        return (string?)(await Read.ObjectAsync(answer))["engine"]!["policy"];
    }

    private static async Task<Dictionary<string, string>> FilledAsync(Browsing lead, Policy policy)
    {
        Dictionary<string, string> form = await lead.FormAsync("/thresholds/edit", "check");
        foreach ((string name, string value) in ThresholdForm.Filled(policy))
        {
            form[name] = value;
        }

        form["reason"] = "A test.";
        return form;
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
