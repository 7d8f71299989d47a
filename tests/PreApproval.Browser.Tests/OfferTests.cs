using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>What the screening offers, put into the draft from beside it.</summary>
[Trait("kind", "browser")]
public class OfferTests(DemoApp app, Hosting.Browser browser)
{
    [Fact]
    public async Task PutItIn_AgentsForAHydride_UntickWhatMustNotBeUsedAndClearTheFinding()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartFromExampleAsync("Lithium aluminium hydride reduction, quenched with water at once");
        ILocator finding = mira.Page.Locator("#screening .finding", new() { HasText = "Carbon dioxide must not be used on aluminium hydrides" }).First;
        await Assertions.Expect(finding).ToContainTextAsync("untick every other, above all one that must not be used");
        await Assertions.Expect(mira.Field("/fireResponse/agents/carbon-dioxide")).ToBeCheckedAsync();
        await finding.GetByRole(AriaRole.Button, new() { Name = "Put it in" }).ClickAsync();

        await Assertions.Expect(mira.Field("/fireResponse/agents/carbon-dioxide")).Not.ToBeCheckedAsync();
        await Assertions.Expect(mira.Field("/fireResponse/agents/dry-sand")).ToBeCheckedAsync();
        await Assertions.Expect(mira.Page.Locator("#screening .finding", new() { HasText = "Carbon dioxide must not be used on aluminium hydrides" })).ToHaveCountAsync(0);
        await mira.SavedAsync();
        await mira.AssertSoundAsync("the editor after an offer was put in");
        await mira.Page.ReloadAsync();
        await mira.EditorOpenedAsync();
        await Assertions.Expect(mira.Field("/fireResponse/agents/carbon-dioxide")).Not.ToBeCheckedAsync();
    }

    /// <summary>A vessel holds what its mark says: a rating is told, and never filled in.</summary>
    [Fact]
    public async Task PutItIn_ATubeAboveItsRating_FillsTheTemperatureAndOffersNoRating()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartFromExampleAsync("Amination of chlorobenzene in a closed tube");
        ILocator findings = mira.Page.Locator("#screening");
        await Assertions.Expect(findings.GetByText("use a vessel rated for at least").First).ToBeVisibleAsync();
        await Assertions.Expect(findings.GetByRole(AriaRole.Button, new() { Name = "Put it in: use a vessel" })).ToHaveCountAsync(0);
        await findings.GetByRole(AriaRole.Button, new() { Name = "Put it in: set at most" }).First.ClickAsync();

        await Assertions.Expect(mira.Field("/steps/3/temperature")).ToBeFocusedAsync();
        await Assertions.Expect(mira.Field("/steps/3/temperature")).Not.ToHaveValueAsync("110");
        await mira.SavedAsync();
    }
}
