using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>The explorer in a real browser.</summary>
[Trait("kind", "browser")]
public class ExplorerTests(DemoApp app, Hosting.Browser browser)
{
    private const string Example = "Amination of chlorobenzene in a closed tube";

    [Fact]
    public async Task Explorer_ByKeyboardAlone_TriesAndCarriesBack()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartFromExampleAsync(Example);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Explore step 4 in tube" }).FocusAsync();
        await mira.Page.Keyboard.PressAsync("Enter");
        await ReadyAsync(mira.Page);
        Assert.EndsWith($"/procedures/{id}/explore?step=4%2Ftube", mira.Page.Url, StringComparison.Ordinal);

        await mira.Page.Locator("#step").FocusAsync();
        await mira.Page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(mira.Page.Locator("#temperature-slide")).ToBeFocusedAsync();
        for (int celsius = 109; celsius >= 70; celsius--)
        {
            // Without waiting: an answer to an earlier key must not move the slider.
            await mira.Page.Keyboard.PressAsync("ArrowLeft");
        }

        await Assertions.Expect(mira.Page.Locator("#temperature")).ToHaveValueAsync("70");
        await Assertions.Expect(mira.Page.Locator("#temperature-slide")).ToHaveAttributeAsync("aria-valuetext", "70 °C");
        await Assertions.Expect(mira.Page.Locator("#chart-pressure-desc")).ToContainTextAsync("at the tried 70 °C");
        await Assertions.Expect(mira.Page.Locator("#edits + ul")).ToContainTextAsync("110 °C → 70 °C");
        Assert.Contains("temperature=70", mira.Page.Url, StringComparison.Ordinal);

        await mira.Page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(mira.Page.Locator("#temperature")).ToBeFocusedAsync();
        await mira.Page.Keyboard.PressAsync("Control+A");
        await mira.Page.Keyboard.TypeAsync("65,5");
        await Assertions.Expect(mira.Page.Locator("#edits + ul")).ToContainTextAsync("110 °C → 65.5 °C");
        await mira.Page.Locator("#carry-back").FocusAsync();
        await mira.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(mira.Page.Locator("#carried")).ToContainTextAsync("110 °C → 65.5 °C");
        await Assertions.Expect(mira.Page.Locator("#temperature")).ToHaveValueAsync("65.5");
        Assert.DoesNotContain("temperature=", mira.Page.Url, StringComparison.Ordinal);
        string document = await DraftAsync(mira, id);
        Assert.Contains("\"temperature\":{\"value\":65.5,\"unit\":\"°C\"}", document, StringComparison.Ordinal);
        Assert.Contains("\"surfaceTemperature\":{\"value\":75.5,\"unit\":\"°C\"}", document, StringComparison.Ordinal);
        Assert.Empty(mira.ConsoleErrors);
    }

    [Fact]
    public async Task Explorer_NumberThatIsNone_SaysSoAtTheFieldAndKeepsTheLastDrawing()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await ExploreAsync(mira);
        await mira.Page.Locator("#temperature").FillAsync("warm");
        await Assertions.Expect(mira.Page.Locator("#temperature-fault")).ToContainTextAsync("Enter a number from −80 to 400 °C");
        await Assertions.Expect(mira.Page.Locator("#temperature")).ToHaveAttributeAsync("aria-invalid", "true");
        await Assertions.Expect(mira.Page.Locator("#temperature")).ToHaveValueAsync("warm");
        await Assertions.Expect(mira.Page.Locator("#carry-waits")).ToContainTextAsync("mend: set temperature");
        await mira.Page.Locator("#temperature").FillAsync("80");
        await Assertions.Expect(mira.Page.Locator("#temperature-fault")).ToHaveCountAsync(0);
        await Assertions.Expect(mira.Page.Locator("#chart-pressure-desc")).ToContainTextAsync("tried 80 °C");
    }

    [Fact]
    public async Task Explorer_AnotherChangeBesideAFaultyField_IsNotCarriedBackBeforeItIsMended()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await ExploreAsync(mira);
        await mira.Page.Locator("#temperature").FillAsync("70");
        await Assertions.Expect(mira.Page.Locator("#carry-back")).ToBeEnabledAsync();
        await mira.Page.Locator("#volume").FillAsync("much");
        await mira.Page.Locator("#solvent").FillAsync("tolu");
        await Assertions.Expect(mira.Page.Locator("#carry-back")).ToBeDisabledAsync();
        await Assertions.Expect(mira.Page.Locator("#carry-back")).ToHaveAttributeAsync("aria-describedby", "carry-waits");
        await Assertions.Expect(mira.Page.Locator("#carry-waits")).ToContainTextAsync("Before anything is carried back, mend: inner volume, the liquid to exchange.");
        await mira.AssertSoundAsync("the explorer with faulty fields");
        await mira.Page.Locator("#solvent").FillAsync("");
        await mira.Page.Locator("#volume").FillAsync("40");
        await Assertions.Expect(mira.Page.Locator("#carry-waits")).ToHaveCountAsync(0);
        await Assertions.Expect(mira.Page.Locator("#carry-back")).ToBeEnabledAsync();
    }

    [Fact]
    public async Task Explorer_VesselAndSolvent_ShowBothVerdictsAndGoBackToThePlan()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await ExploreAsync(mira);
        await Assertions.Expect(mira.Page.Locator("#verdict")).ToContainTextAsync("Needs a reviewer");
        await mira.Page.Locator("#kind").SelectOptionAsync("stirred metal autoclave");
        await Assertions.Expect(mira.Page.Locator("#side-by-side")).ToContainTextAsync("not known: counts as 0 bar(g)");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Try with 100 bar(g)" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#rating")).ToHaveValueAsync("100");
        await Assertions.Expect(mira.Page.GetByText("is only typical of the kind")).ToBeVisibleAsync();
        await mira.Page.Locator("#solvent").FillAsync("tolu");
        await Assertions.Expect(mira.Page.Locator("#solvent-fault")).ToContainTextAsync("choose from the list");
        await Assertions.Expect(mira.Page.Locator("#solvents option[value=\"toluene\"]")).ToHaveCountAsync(1);
        await mira.Page.Locator("#solvent").FillAsync("toluene");
        await Assertions.Expect(mira.Page.Locator("#edits + ul")).ToContainTextAsync("Substance of thf: tetrahydrofuran (109-99-9) → toluene (108-88-3)");
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "Hazards that change" })).ToBeVisibleAsync();
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Back to the plan" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#edits")).ToHaveCountAsync(0);
        await Assertions.Expect(mira.Page.Locator("#solvent")).ToHaveValueAsync("");
        Assert.DoesNotContain("solvent=", mira.Page.Url, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explorer_DraftSavedElsewhere_SaysSoAndPutsTheChangeOntoTheNewerOne()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await ExploreAsync(mira);
        await mira.Page.Locator("#temperature").FillAsync("70");
        await Assertions.Expect(mira.Page.Locator("#edits")).ToBeVisibleAsync();
        IPage other = await mira.Page.Context.NewPageAsync();
        await other.GotoAsync($"/procedures/{id}/edit");
        await other.Locator("#editor[data-interactive]").WaitForAsync();
        await other.Locator("[id=\"/purpose\"]").FillAsync("changed in the editor meanwhile");
        await Assertions.Expect(other.Locator("#saved")).Not.ToHaveAttributeAsync("data-version", "1");
        await Assertions.Expect(other.Locator("#saved")).ToHaveAttributeAsync("data-state", "saved");

        await mira.Page.Locator("#carry-back").ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#conflict")).ToContainTextAsync("This draft was saved elsewhere");
        Assert.DoesNotContain("\"value\":70,", await DraftAsync(mira, id), StringComparison.Ordinal);
        await Assertions.Expect(mira.Page.Locator("#temperature")).ToHaveValueAsync("70");
        await mira.AssertSoundAsync("the explorer with a conflict");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Put my changes into the newer draft" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#carried")).ToBeVisibleAsync();
        string document = await DraftAsync(mira, id);
        Assert.Contains("changed in the editor meanwhile", document, StringComparison.Ordinal);
        Assert.Contains("\"temperature\":{\"value\":70,\"unit\":\"°C\"}", document, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explorer_SameValueChangedElsewhere_WritesNothingAndOffersTheNewerDraft()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await ExploreAsync(mira);
        IPage other = await mira.Page.Context.NewPageAsync();
        await other.GotoAsync($"/procedures/{id}/explore?step=4&temperature=95");
        await ReadyAsync(other);
        await other.Locator("#carry-back").ClickAsync();
        await Assertions.Expect(other.Locator("#carried")).ToBeVisibleAsync();

        await mira.Page.Locator("#temperature").FillAsync("70");
        await Assertions.Expect(mira.Page.Locator("#edits")).ToBeVisibleAsync();
        await mira.Page.Locator("#carry-back").ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#conflict")).ToContainTextAsync("The newer draft differs in set temperature of step 4");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Explore the newer draft with these values" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#edits + ul")).ToContainTextAsync("95 °C → 70 °C");
        await mira.Page.Locator("#carry-back").ClickAsync();
        await Assertions.Expect(mira.Page.Locator("#carried")).ToContainTextAsync("95 °C → 70 °C");
    }

    [Fact]
    public async Task Explorer_ConnectionLostAndBack_DrawsWhatWasChangedMeanwhile()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await ExploreAsync(mira);
        await mira.Page.Context.SetOfflineAsync(offline: true);
        await mira.Page.EvaluateAsync("() => Blazor._internal.forceCloseConnection()");
        await Assertions.Expect(mira.Page.Locator("#connection")).ToContainTextAsync("Offline");
        await Assertions.Expect(mira.Page.Locator("#carry-back")).ToHaveAttributeAsync("aria-disabled", "true");
        await Assertions.Expect(mira.Page.Locator(".stale")).ToBeVisibleAsync();
        await mira.Page.Locator("#temperature").FillAsync("75");
        await mira.Page.Context.SetOfflineAsync(offline: false);
        await Assertions.Expect(mira.Page.Locator("#chart-pressure-desc")).ToContainTextAsync("tried 75 °C", new() { Timeout = 30_000 });
        await Assertions.Expect(mira.Page.Locator("#connection")).ToBeHiddenAsync();
        await Assertions.Expect(mira.Page.Locator(".stale")).ToBeHiddenAsync();
        await mira.Page.ReloadAsync();
        await ReadyAsync(mira.Page);
        await Assertions.Expect(mira.Page.Locator("#temperature")).ToHaveValueAsync("75");
        await Assertions.Expect(mira.Page.Locator("#edits + ul")).ToContainTextAsync("110 °C → 75 °C");
    }

    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 1280)]
    [InlineData(ColorScheme.Light, 390)]
    public async Task Explorer_AsDraftAndRevision_IsSound(ColorScheme scheme, int width)
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira, scheme, width);
        await ExploreAsync(mira);
        await mira.Page.Locator("#temperature").FillAsync("70");
        await mira.Page.Locator("#kind").SelectOptionAsync("stirred metal autoclave");
        await Assertions.Expect(mira.Page.Locator("#edits")).ToBeVisibleAsync();
        foreach (ILocator summary in await mira.Page.Locator("#explorer summary").AllAsync())
        {
            await summary.ClickAsync();
        }

        await mira.AssertSoundAsync("the explorer");
        await mira.Page.GotoAsync("/compare");
        await mira.AssertSoundAsync("the comparison");
        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas, scheme, width);
        await tomas.Page.GotoAsync("/");
        string flagged = await tomas.Page.Locator("main table a", new() { HasText = "azide" }).First.GetAttributeAsync("href") ?? "";
        await tomas.Page.GotoAsync($"{flagged}/revisions/1/explore");
        await ReadyAsync(tomas.Page);
        await Assertions.Expect(tomas.Page.Locator("#carry-back")).ToHaveCountAsync(0);
        await tomas.AssertSoundAsync("the explorer of a revision");
    }

    internal static async Task<Guid> ExploreAsync(Visitor visitor)
    {
        Guid id = await visitor.StartFromExampleAsync(Example);
        await visitor.Page.GotoAsync($"/procedures/{id}/explore?step=4");
        await ReadyAsync(visitor.Page);
        return id;
    }

    internal static Task ReadyAsync(IPage page) => page.Locator("#explorer[data-interactive]").WaitForAsync();

    internal static async Task<string> DraftAsync(Visitor visitor, Guid id) =>
        await (await visitor.Page.Context.APIRequest.GetAsync($"/procedures/{id}/draft.json")).TextAsync();
}
