using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>The connection of an open editor: whom it still serves, and how much it carries.</summary>
[Trait("kind", "browser")]
public class CircuitTests(DemoApp app, Hosting.Browser browser)
{
    [Fact]
    public async Task Editor_OpenWhileSignedOutElsewhere_SavesNothingMore()
    {
        await using Visitor odd = await Visitor.ArriveAsync(app, browser, DemoGroup.Odd);
        await odd.StartEmptyAsync("Open while signed out");
        await odd.SavedAsync();
        string? version = await odd.Page.Locator("#saved").GetAttributeAsync("data-version");
        IPage other = await odd.Page.Context.NewPageAsync();
        await other.GotoAsync("/account/sign-out");
        await other.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).Last.ClickAsync();
        await Assertions.Expect(other.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();

        await odd.Field("/title").FillAsync("Typed after the sign-out");
        await Assertions.Expect(odd.Page.GetByText("You are not signed in any more")).ToBeVisibleAsync();
        Assert.Equal(version, await odd.Page.Locator("#saved").GetAttributeAsync("data-version"));
    }

    [Fact]
    public async Task Editor_LargeDraft_OpensAndSavesWithinTheSizeOfAMessage()
    {
        using var client = new HttpClient { BaseAddress = await app.AddressAsync() };
        using HttpResponseMessage signedIn = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "odd", password = DemoGroup.Password }, TestContext.Current.CancellationToken);
        JsonNode token = (await signedIn.Content.ReadFromJsonAsync<JsonNode>(TestContext.Current.CancellationToken))!;
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", (string)token["token"]!);
        var document = new JsonObject
        {
            ["schema"] = "preapproval/procedure/1",
            ["title"] = "Large draft",
            ["safeguards"] = new JsonArray([.. Enumerable.Range(0, 75).Select(_ => new JsonObject { ["control"] = "blast shield", ["detail"] = new string('x', 7_900) })]),
        };
        using HttpResponseMessage created = await client.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = document }, TestContext.Current.CancellationToken);
        created.EnsureSuccessStatusCode();
        string id = (string)(await created.Content.ReadFromJsonAsync<JsonNode>(TestContext.Current.CancellationToken))!["id"]!;

        await using Visitor odd = await Visitor.ArriveAsync(app, browser, DemoGroup.Odd);
        await odd.Page.GotoAsync($"/procedures/{id}/edit");
        await odd.EditorOpenedAsync();
        await odd.Field("/title").FillAsync("Large draft, renamed");
        await Assertions.Expect(odd.Page.Locator("#saved")).Not.ToHaveAttributeAsync("data-version", "1");
        await odd.SavedAsync();
        Assert.Empty(odd.ConsoleErrors);
    }
}
