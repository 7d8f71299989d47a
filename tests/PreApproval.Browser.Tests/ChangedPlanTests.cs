using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>What differs between two plans, on the page for comparing and in the review of a revision: readable wide, narrow, dark and on paper.</summary>
[Trait("kind", "browser")]
public class ChangedPlanTests(DemoApp app, Hosting.Browser browser)
{
    [Fact]
    public async Task Compare_TwoDocuments_IsSoundInEveryLook()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.Page.GotoAsync("/compare");
        await PasteAsync(mira, "Before", Tube(static _ => { }));
        await PasteAsync(mira, "After", Tube(Weaker));
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Compare", Exact = true }).ClickAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Region, new() { Name = "The plan before and after" })).ToContainTextAsync("relief device");
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Region, new() { Name = "Hazards before and after" })).ToContainTextAsync("missing relief device");
        await AssertEveryLookAsync(mira, "compare");
    }

    [Fact]
    public async Task Review_OfASecondRevision_IsSoundInEveryLook()
    {
        (string address, DemoPerson reviewer) = await SentBackAndSubmittedAgainAsync();
        await using Visitor visitor = await Visitor.ArriveAsync(app, browser, reviewer);
        await visitor.Page.GotoAsync(address + "/review");
        await visitor.Page.GetByRole(AriaRole.Link, new() { Name = "what changed in the plan" }).ClickAsync();
        await Assertions.Expect(visitor.Page.GetByRole(AriaRole.Heading, new() { Name = "What changed in the plan against revision 1" })).ToBeInViewportAsync();
        await Assertions.Expect(visitor.Page.GetByRole(AriaRole.Region, new() { Name = "The plan before and after" })).ToContainTextAsync("125 °C");
        await AssertEveryLookAsync(visitor, "review");
    }

    private static async Task AssertEveryLookAsync(Visitor visitor, string place)
    {
        foreach ((string look, ColorScheme scheme, Media media, int width) in new[] { ("wide", ColorScheme.Light, Media.Screen, 1280), ("dark", ColorScheme.Dark, Media.Screen, 1280), ("phone", ColorScheme.Light, Media.Screen, 390), ("paper", ColorScheme.Light, Media.Print, 794) })
        {
            await visitor.Page.EmulateMediaAsync(new() { ColorScheme = scheme, Media = media });
            await visitor.Page.SetViewportSizeAsync(width, 900);
            await visitor.AssertSoundAsync($"{place}, {look}");
        }
    }

    private static async Task PasteAsync(Visitor visitor, string side, JsonObject document)
    {
        await visitor.Page.GetByText("Paste a document: " + side).ClickAsync();
        await visitor.Page.Locator($"#{side.ToLowerInvariant()}-text").FillAsync(document.ToJsonString());
    }

    private async Task<(string Address, DemoPerson Reviewer)> SentBackAndSubmittedAgainAsync()
    {
        using HttpClient author = await SignedInAsync(DemoGroup.Mira);
        JsonNode made = await ReadAsync(await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Tube(static _ => { }) }));
        string address = $"/procedures/{made["id"]}";
        JsonNode first = await ReadAsync(await author.PostAsync($"/api/v1{address}/submissions", content: null));
        string name = first["slots"]!.AsArray().First(static slot => slot!["open"]!.GetValue<bool>())!["assigneeName"]!.GetValue<string>();
        DemoPerson reviewer = DemoGroup.People.First(person => string.Equals(person.Name, name, StringComparison.Ordinal));
        using HttpClient signer = await SignedInAsync(reviewer);
        await ReadAsync(await signer.PostAsJsonAsync($"/api/v1{address}/decisions", new JsonObject { ["revision"] = 1, ["decision"] = "request-changes", ["reason"] = "otherwise, please", ["password"] = DemoGroup.Password }));
        using HttpResponseMessage draft = await author.GetAsync($"/api/v1{address}/draft");
        using var put = new HttpRequestMessage(HttpMethod.Put, $"/api/v1{address}/draft") { Content = JsonContent.Create(Tube(Weaker)) };
        put.Headers.IfMatch.Add(draft.Headers.ETag!);
        await ReadAsync(await author.SendAsync(put));
        await ReadAsync(await author.PostAsync($"/api/v1{address}/submissions", content: null));
        return (address, reviewer);
    }

    private async Task<HttpClient> SignedInAsync(DemoPerson person)
    {
        var client = new HttpClient { BaseAddress = await app.AddressAsync() };
        JsonNode token = await ReadAsync(await client.PostAsJsonAsync("/api/v1/tokens", new JsonObject { ["userName"] = person.UserName, ["password"] = DemoGroup.Password }));
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token["token"]!.GetValue<string>());
        return client;
    }

    private static async Task<JsonNode> ReadAsync(HttpResponseMessage answer)
    {
        using (answer)
        {
            string text = await answer.Content.ReadAsStringAsync();
            Assert.True(answer.IsSuccessStatusCode, text);
            return JsonNode.Parse(text)!;
        }
    }

    /// <summary>Hotter, without its relief device, with a step and a safeguard more and an agent less.</summary>
    private static void Weaker(JsonObject document)
    {
        document["vessels"]![0]!.AsObject().Remove("relief");
        document["steps"]![2]!["temperature"]!["value"] = 125;
        document["steps"]![2]!["surfaceTemperature"]!["value"] = 135;
        document["steps"]!.AsArray().Insert(4, JsonNode.Parse("""{ "id": "4a", "action": "vent", "vessel": "tube" }"""));
        document["safeguards"]!.AsArray().Add(new JsonObject { ["control"] = "face shield" });
        document["fireResponse"]!["agents"]!.AsArray().RemoveAt(1);
    }

    private static JsonObject Tube(Action<JsonObject> change)
    {
        JsonObject document = JsonNode.Parse("""
            {
              "schema": "preapproval/procedure/1", "title": "Water in a closed tube (invented)", "attendance": "attended", "lone": false,
              "materials": [ { "id": "water", "substance": { "cas": "7732-18-5" }, "role": "solvent", "amount": { "value": 10, "unit": "mL" } } ],
              "vessels": [ { "id": "tube", "kind": "thick-walled glass tube", "volume": { "value": 50, "unit": "mL" }, "rating": { "value": 2, "unit": "bar(g)" }, "ratingEvidence": "engraved (invented)",
                "closure": "screw plug", "relief": { "device": "valve", "set": { "value": 1.9, "unit": "bar(g)" } } } ],
              "steps": [
                { "id": "1", "action": "charge", "vessel": "tube", "materials": ["water"], "temperature": { "value": 20, "unit": "°C" } },
                { "id": "2", "action": "seal", "vessel": "tube", "headspace": "air" },
                { "id": "3", "action": "heat", "vessel": "tube", "temperature": { "value": 120, "unit": "°C" }, "duration": { "value": 2, "unit": "h" }, "heatSource": "oil bath", "surfaceTemperature": { "value": 130, "unit": "°C" } },
                { "id": "4", "action": "cool", "vessel": "tube", "temperature": { "value": 20, "unit": "°C" } },
                { "id": "5", "action": "open", "vessel": "tube" }
              ],
              "safeguards": [ { "control": "blast shield" } ],
              "fireResponse": { "agents": ["dry powder", "carbon dioxide"], "plan": "lower the sash" }
            }
            """)!.AsObject();
        change(document);
        return document;
    }
}
