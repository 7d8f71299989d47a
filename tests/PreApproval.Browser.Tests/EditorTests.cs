using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

[Trait("kind", "browser")]
public class EditorTests(DemoApp app, Hosting.Browser browser)
{
    [Fact]
    public async Task Editor_TypedFromNothing_IsSavedAndScreenedWithoutFaults()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartEmptyAsync("Salt in water");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/id").FillAsync("water");
        await mira.Field("/materials/0/substance").FillAsync("7732-18-5");
        await mira.Field("/materials/0/amount").FillAsync("50");
        await Assertions.Expect(mira.Page.Locator("[id=\"/materials/0/substance-known\"]")).ToContainTextAsync("H2O");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a vessel" }).ClickAsync();
        await mira.Field("/vessels/0/kind").FillAsync("beaker");
        await mira.Field("/vessels/0/volume").FillAsync("100");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await mira.Field("/steps/0/action").SelectOptionAsync("charge");
        await mira.Page.GetByRole(AriaRole.Group, new() { Name = "What goes in" }).GetByLabel("water", new() { Exact = true }).CheckAsync();
        await mira.SavedAsync();
        await Assertions.Expect(mira.Page.GetByText("No finding needs a reviewer").Or(mira.Page.GetByText("Goes to review"))).ToBeVisibleAsync();

        await mira.Page.GotoAsync($"/procedures/{id}/edit");
        await mira.EditorOpenedAsync();
        await Assertions.Expect(mira.Field("/materials/0/amount")).ToHaveValueAsync("50");
        await Assertions.Expect(mira.Field("/steps/0/vessel")).ToHaveValueAsync("v1");
        Assert.Empty(mira.ConsoleErrors);
    }

    [Fact]
    public async Task Editor_NegativeMassAndNoVessel_SaysWhatIsWrongAtTheFieldAndInTheList()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("A bad one");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/substance").FillAsync("ethanol");
        await mira.Field("/materials/0/amount").FillAsync("-5");
        ILocator fault = mira.Page.Locator("#faults a[data-field^=\"/materials/0/amount\"]");
        await Assertions.Expect(fault).ToHaveCountAsync(1);
        await Assertions.Expect(mira.Field("/materials/0/amount")).ToHaveAttributeAsync("aria-invalid", "true");
        await fault.ClickAsync();
        await Assertions.Expect(mira.Field("/materials/0/amount")).ToBeFocusedAsync();

        await mira.SavedAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Button, new() { Name = "Check answers and submit" })).ToHaveCountAsync(0);
        await mira.Page.GetByRole(AriaRole.Link, new() { Name = "Read it as it stands" }).ClickAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "It cannot be submitted yet" })).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" })).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Editor_ConnectionLostAndPageClosed_OffersTheTypingAgain()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartEmptyAsync("Typed while offline");
        await mira.SavedAsync();
        await LoseConnectionAsync(mira);
        await mira.Field("/purpose").FillAsync("typed with no connection");
        await Assertions.Expect(mira.Page.Locator("#connection")).ToContainTextAsync("Offline: kept on this device");

        await mira.Page.GotoAsync("about:blank");
        await mira.Page.Context.SetOfflineAsync(offline: false);
        await mira.Page.GotoAsync($"/procedures/{id}/edit");
        await mira.EditorOpenedAsync();
        await Assertions.Expect(mira.Page.Locator("#kept")).ToContainTextAsync("typed with no connection");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Put it back" }).ClickAsync();
        await Assertions.Expect(mira.Field("/purpose")).ToHaveValueAsync("typed with no connection");
        await AssertSavedOnTheServerAsync(mira, id, "typed with no connection");
    }

    [Fact]
    public async Task Editor_ConnectionLostAndBack_SavesTheTypingByItself()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartEmptyAsync("A short gap");
        await mira.SavedAsync();
        await LoseConnectionAsync(mira);
        await mira.Field("/purpose").FillAsync("typed in the gap");
        await Assertions.Expect(mira.Page.Locator("#connection")).ToContainTextAsync("Offline: kept on this device");
        await mira.Page.Context.SetOfflineAsync(offline: false);
        await AssertSavedOnTheServerAsync(mira, id, "typed in the gap");
    }

    [Fact]
    public async Task Editor_NetworkLostAndBack_TakesTheBannerAway()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartEmptyAsync("A gap of twenty seconds");
        await mira.SavedAsync();
        await mira.Page.Context.SetOfflineAsync(offline: true);
        await mira.Field("/purpose").FillAsync("typed in a longer gap");
        ILocator banner = mira.Page.Locator("#connection");
        await Assertions.Expect(banner).ToContainTextAsync("Offline: kept on this device");
        ILocator add = mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" });
        await Assertions.Expect(add).ToHaveAttributeAsync("aria-disabled", "true");
        await add.ClickAsync(new() { Force = true });
        await Assertions.Expect(banner).ToContainTextAsync("Offline: not possible now");
        await Task.Delay(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);

        await mira.Page.Context.SetOfflineAsync(offline: false);
        await Assertions.Expect(banner).ToBeHiddenAsync(new() { Timeout = 20_000 });
        await AssertSavedOnTheServerAsync(mira, id, "typed in a longer gap");
        await Assertions.Expect(add).Not.ToHaveAttributeAsync("aria-disabled", "true");
        await add.ClickAsync();
        await Assertions.Expect(mira.Field("/materials/0/id")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Editor_SavedInAnotherWindow_SaysSoAndOverwritesNothing()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartEmptyAsync("Two windows");
        await mira.SavedAsync();
        IPage other = await mira.Page.Context.NewPageAsync();
        await other.GotoAsync($"/procedures/{id}/edit");
        await other.Locator("#editor[data-interactive]").WaitForAsync();
        await other.Locator("[id=\"/purpose\"]").FillAsync("from the other window");
        await AssertSavedOnTheServerAsync(mira, id, "from the other window");

        await mira.Field("/purpose").FillAsync("from the first window");
        await Assertions.Expect(mira.Page.GetByText("This draft was saved elsewhere")).ToBeVisibleAsync();
        await Assertions.Expect(mira.Field("/purpose")).ToHaveValueAsync("from the first window");
        await AssertSavedOnTheServerAsync(mira, id, "from the other window");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Save mine over it" }).ClickAsync();
        await AssertSavedOnTheServerAsync(mira, id, "from the first window");
    }

    [Fact]
    public async Task Editor_MembersItDoesNotShow_SurviveEditing()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartEmptyAsync("Own values");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Show and edit the text" }).ClickAsync();
        await mira.Page.GetByLabel("Document", new() { Exact = true }).FillAsync("""
            {
              "schema": "preapproval/procedure/1",
              "title": "Own values",
              "materials": [ { "id": "own", "substance": { "name": "an own substance", "properties": { "boilingPoint": { "value": 71.50, "unit": "°C" }, "source": "own measurement" } }, "amount": { "value": 1.0, "unit": "g" } } ],
              "vessels": [],
              "steps": []
            }
            """);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Use this text" }).ClickAsync();
        await Assertions.Expect(mira.Field("/materials/0/amount")).ToHaveValueAsync("1.0");
        await mira.Field("/purpose").FillAsync("edited afterwards");
        string document = await AssertSavedOnTheServerAsync(mira, id, "edited afterwards");
        Assert.Contains("\"boilingPoint\":{\"value\":71.50,\"unit\":\"°C\"}", document, StringComparison.Ordinal);
        Assert.Contains("\"value\":1.0,", document, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Editor_ShortNameChanged_IsFollowedWhereItIsUsed()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartEmptyAsync("Renamed");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a vessel" }).ClickAsync();
        await Assertions.Expect(mira.Field("/vessels/0/id")).ToHaveValueAsync("v1");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await Assertions.Expect(mira.Field("/steps/0/vessel")).ToHaveValueAsync("v1");
        await mira.Field("/vessels/0/id").FillAsync("flask");
        await mira.Field("/vessels/0/id").BlurAsync();
        await Assertions.Expect(mira.Field("/steps/0/vessel")).ToHaveValueAsync("flask");
        await AssertSavedOnTheServerAsync(mira, id, "\"vessel\":\"flask\"");
        await AssertJournalEmptyAsync(mira);
    }

    /// <summary>Nothing is kept on the device once the server has confirmed it.</summary>
    private static async Task AssertJournalEmptyAsync(Visitor visitor)
    {
        for (int i = 0; i < 40; i++)
        {
            if (await visitor.Page.EvaluateAsync<int>("() => localStorage.length") == 0)
            {
                return;
            }

            await Task.Delay(250, TestContext.Current.CancellationToken);
        }

        Assert.Fail("The device still keeps: " + await visitor.Page.EvaluateAsync<string>("() => JSON.stringify(localStorage)"));
    }

    /// <summary>No network, and the circuit's socket is gone.</summary>
    private static async Task LoseConnectionAsync(Visitor visitor)
    {
        await visitor.Page.Context.SetOfflineAsync(offline: true);
        await visitor.Page.EvaluateAsync("() => Blazor._internal.forceCloseConnection()");
    }

    private static async Task<string> AssertSavedOnTheServerAsync(Visitor visitor, Guid id, string part)
    {
        string document = "";
        for (int i = 0; i < 60; i++)
        {
            IAPIResponse answer = await visitor.Page.Context.APIRequest.GetAsync($"/procedures/{id}/draft.json");
            document = await answer.TextAsync();
            if (document.Contains(part, StringComparison.Ordinal))
            {
                return document;
            }

            await Task.Delay(250, TestContext.Current.CancellationToken);
        }

        Assert.Fail($"The server does not hold '{part}' but: {document}");
        return document;
    }
}
