using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>What takes every place for screenings of the shared application runs while nothing else does.</summary>
[CollectionDefinition("alone", DisableParallelization = true)]
public sealed class Alone;

/// <summary>The explorer in a real browser while every place for screenings is taken.</summary>
[Trait("kind", "browser")]
[Collection("alone")]
public class ExplorerBusyTests(DemoApp app, Hosting.Browser browser)
{
    /// <summary>The newer draft's version must not go with the older document: until its curves are drawn, nothing is carried back.</summary>
    [Fact]
    public async Task Explorer_NewerDraftWaitsForItsCurves_IsNotOverwrittenMeanwhile()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await ExplorerTests.ExploreAsync(mira);
        IPage other = await mira.Page.Context.NewPageAsync();
        await other.GotoAsync($"/procedures/{id}/explore?step=4&temperature=95");
        await ExplorerTests.ReadyAsync(other);
        await other.Locator("#carry-back").ClickAsync();
        await Assertions.Expect(other.Locator("#carried")).ToBeVisibleAsync();

        await mira.Page.Locator("#volume").FillAsync("300");
        await Assertions.Expect(mira.Page.Locator("#edits")).ToBeVisibleAsync();
        await mira.Page.Locator("#carry-back").ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#conflict")).ToBeVisibleAsync();
        await using (app.TakePlaces())
        {
            await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Explore the newer draft with these values" }).ClickAsync();
            await Assertions.Expect(mira.Page.GetByText("Many calculations are running at the moment: what you try")).ToBeVisibleAsync();
            await Assertions.Expect(mira.Page.Locator("#conflict")).ToHaveCountAsync(0);
            await Assertions.Expect(mira.Page.Locator("#carry-back")).ToBeDisabledAsync();

            // What is changed meanwhile does not put the newer draft out of the way.
            await mira.Page.Locator("#volume").FillAsync("310");
        }

        await Assertions.Expect(mira.Page.Locator("#edits + ul")).ToContainTextAsync("310 mL");
        await mira.Page.Locator("#carry-back").ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#carried")).ToContainTextAsync("310 mL");
        string document = await ExplorerTests.DraftAsync(mira, id);
        Assert.Contains("\"temperature\":{\"value\":95,\"unit\":\"°C\"}", document, StringComparison.Ordinal);
        Assert.Contains("\"value\":310", document, StringComparison.Ordinal);
    }
}
