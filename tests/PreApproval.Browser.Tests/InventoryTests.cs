using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>The inventory's pages, and a vessel and a place from the inventory to the draft. All invented.</summary>
[Trait("kind", "browser")]
public class InventoryTests(DemoApp app, Hosting.Browser browser)
{
    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 1280)]
    [InlineData(ColorScheme.Light, 390)]
    public async Task Pages_OfTheInventory_AreSound(ColorScheme scheme, int width)
    {
        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas, scheme, width);
        await tomas.Page.GetByRole(AriaRole.Link, new() { Name = "Inventory", Exact = true }).ClickAsync();
        await Assertions.Expect(tomas.Page.GetByText("star crack at the neck (invented)")).ToBeVisibleAsync();
        await SoundAsync(tomas, "the vessels");
        string vessel = await tomas.Page.GetByRole(AriaRole.Link, new() { Name = "A-02" }).GetAttributeAsync("href") ?? "";
        await tomas.Page.GetByRole(AriaRole.Link, new() { Name = "Places and extinguishing agents" }).ClickAsync();
        await SoundAsync(tomas, "the places");
        string place = await tomas.Page.GetByRole(AriaRole.Link, new() { Name = "Change Hood 12, room 2.14 (invented)", Exact = true }).GetAttributeAsync("href") ?? "";
        string agent = await tomas.Page.GetByRole(AriaRole.Link, new() { Name = "Change dry sand at Hood 12" }).GetAttributeAsync("href") ?? "";
        foreach (string address in new[] { vessel, vessel + "/edit", place, agent, "/inventory/vessels/new", "/inventory/places/new", "/inventory/agents/new", "/inventory/import" })
        {
            IResponse? answer = await tomas.Page.GotoAsync(address);
            Assert.Equal(200, answer?.Status);
            await SoundAsync(tomas, address);
        }

        await tomas.Page.GotoAsync("/inventory/vessels/new");
        await tomas.Page.GetByLabel("Rated pressure", new() { Exact = true }).FillAsync("4");
        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Add to the inventory" }).ClickAsync();
        await Assertions.Expect(tomas.Page.Locator(".error-summary")).ToBeFocusedAsync();
        await SoundAsync(tomas, "the form with faults");
        await tomas.Page.Locator(".error-summary a").First.ClickAsync();
        await Assertions.Expect(tomas.Page.GetByLabel("Label", new() { Exact = true })).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Import_FileWithAFault_ThenTheMendedOne_ShowsWhatChangesBeforeItDoes()
    {
        await using Visitor odd = await Visitor.ArriveAsync(app, browser, DemoGroup.Odd);
        await odd.Page.GotoAsync("/inventory/import");
        await ChooseAsync(odd, "label,kind,volume (mL)\nB-51,beaker,lots\n");
        await Assertions.Expect(odd.Page.Locator(".error-summary")).ToContainTextAsync("Line 2, volume (mL)");
        await odd.AssertSoundAsync("an import with a fault");
        await ChooseAsync(odd, "label,kind,volume (mL),note\nB-51,beaker,250,\"two\nlines\"\n");
        await Assertions.Expect(odd.Page.GetByRole(AriaRole.Heading, new() { Name = "Check before importing" })).ToBeVisibleAsync();
        await odd.AssertSoundAsync("the preview of an import");
        await odd.Page.GetByRole(AriaRole.Button, new() { Name = "Import 1 vessel" }).ClickAsync();
        await Assertions.Expect(odd.Page.GetByRole(AriaRole.Link, new() { Name = "B-51" })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Editor_VesselAndPlaceOfTheInventory_FillTheDraftAndFollowTheInventory()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.Page.GotoAsync("/inventory/vessels/new");
        await mira.Page.GetByLabel("Label", new() { Exact = true }).FillAsync("T-90");
        await mira.Page.GetByLabel("What it is").FillAsync("thick-walled glass tube");
        await mira.Page.GetByLabel("Inner volume", new() { Exact = true }).FillAsync("35");
        await mira.Page.GetByLabel("Rated pressure", new() { Exact = true }).FillAsync("6 bar(g)");
        await mira.Page.GetByLabel("Where the rating is written").FillAsync("engraved (invented)");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add to the inventory" }).ClickAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "T-90" })).ToBeVisibleAsync();
        string vessel = new Uri(mira.Page.Url).AbsolutePath;

        Guid draft = await mira.StartEmptyAsync("Uses the inventory");
        await mira.Page.GetByLabel("A place of the group’s inventory").SelectOptionAsync(new SelectOptionValue { Label = "Hood 12, room 2.14 (invented), hood" });
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Use this place" }).ClickAsync();
        await Assertions.Expect(mira.Field("/place/airFlow")).ToHaveValueAsync("700");
        await Assertions.Expect(mira.Field("/fireResponse/agents/dry-sand")).ToBeCheckedAsync();
        await mira.Page.GetByLabel("A vessel of the group’s inventory").SelectOptionAsync(new SelectOptionValue { Label = "T-90, thick-walled glass tube, 35 mL, 6 bar(g)" });
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Take this vessel" }).ClickAsync();
        await Assertions.Expect(mira.Field("/vessels/0/id")).ToHaveValueAsync("T-90");
        await Assertions.Expect(mira.Field("/vessels/0/rating")).ToHaveValueAsync("6");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/substance").FillAsync("7732-18-5");
        await mira.Field("/materials/0/amount").FillAsync("5");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await mira.Field("/steps/0/action").SelectOptionAsync("charge");
        await mira.Field("/steps/0/materials/m1").CheckAsync();
        await Assertions.Expect(mira.Page.GetByText("No finding needs a reviewer")).ToBeVisibleAsync();
        await mira.AssertSoundAsync("the editor with the inventory");
        await mira.SavedAsync();

        await mira.Page.GotoAsync(vessel + "/edit");
        await mira.Page.GetByLabel("Rated pressure", new() { Exact = true }).FillAsync("5");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Keep as version 2" }).ClickAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "2 versions" })).ToBeVisibleAsync();
        await mira.Page.GotoAsync($"/procedures/{draft}/edit");
        await mira.EditorOpenedAsync();
        await Assertions.Expect(mira.Page.Locator("[id=\"/vessels/0/rating-fault\"]")).ToContainTextAsync("6 bar(g) here and 5 bar(g) in the group's inventory");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Take the present values of the inventory: T-90" }).ClickAsync();
        await Assertions.Expect(mira.Field("/vessels/0/rating")).ToHaveValueAsync("5");
        await Assertions.Expect(mira.Page.GetByText("No finding needs a reviewer")).ToBeVisibleAsync();
        await mira.SavedAsync();
    }

    private static async Task ChooseAsync(Visitor visitor, string text)
    {
        await visitor.Page.GetByLabel("File").SetInputFilesAsync(new FilePayload { Name = "vessels.csv", MimeType = "text/csv", Buffer = System.Text.Encoding.UTF8.GetBytes(text) });
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Show what would change" }).ClickAsync();
    }

    private static async Task SoundAsync(Visitor visitor, string name)
    {
        Assert.Equal(1, await visitor.Page.Locator("h1").CountAsync());
        Assert.Equal(1, await visitor.Page.Locator("main").CountAsync());
        await visitor.AssertSoundAsync(name);
    }
}
