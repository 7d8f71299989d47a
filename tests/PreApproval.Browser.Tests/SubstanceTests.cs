using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>The catalogue's pages, and a substance of the group's own from the form to the screening. Own substances are invented.</summary>
[Trait("kind", "browser")]
public class SubstanceTests(DemoApp app, Hosting.Browser browser)
{
    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 1280)]
    [InlineData(ColorScheme.Light, 390)]
    public async Task Pages_OfTheCatalogue_AreSound(ColorScheme scheme, int width)
    {
        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas, scheme, width);
        foreach (string address in new[] { "/catalogue", "/catalogue?query=ethyl", "/catalogue?query=no-such-thing", "/catalogue/108-88-3", "/catalogue/7647-14-5", "/catalogue/own/new" })
        {
            IResponse? answer = await tomas.Page.GotoAsync(address);
            Assert.Equal(200, answer?.Status);
            Assert.Equal(1, await tomas.Page.Locator("h1").CountAsync());
            await tomas.AssertSoundAsync(address);
        }

        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Add to the group’s own substances" }).ClickAsync();
        await Assertions.Expect(tomas.Page.Locator(".error-summary")).ToBeFocusedAsync();
        await tomas.AssertSoundAsync("the form with faults");
        await tomas.Page.Locator(".error-summary a").First.ClickAsync();
        await Assertions.Expect(tomas.Page.GetByLabel("Name", new() { Exact = true })).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Search_FromTheNavigation_LeadsToTheCardAndTheSourceInOneClick()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.Page.GetByRole(AriaRole.Link, new() { Name = "Substances" }).ClickAsync();
        await mira.Page.GetByLabel("Name, synonym or CAS number").FillAsync("PhMe");
        await mira.Page.Keyboard.PressAsync("Enter");
        await mira.Page.Locator("[aria-labelledby=found] a", new() { HasText = "toluene" }).First.ClickAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "Toluene" })).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.Locator("svg.chart")).ToBeVisibleAsync();
        ILocator flash = mira.Page.Locator("#fire + .scroll tr", new() { HasText = "Flash point" });
        await flash.Locator("summary").ClickAsync();
        await Assertions.Expect(flash.Locator("li").First).ToContainTextAsync("governs");
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Link, new() { Name = "Add values of the group’s own" })).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task OwnSubstance_AddedInTheForm_IsKnownInADraftAndItsValueShowsInTheScreening()
    {
        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas);
        await tomas.Page.GotoAsync("/catalogue/own/new");
        await tomas.Page.GetByLabel("Name", new() { Exact = true }).FillAsync("invented quick ether");
        await tomas.Page.GetByLabel("Source of the values").FillAsync("notebook 7, page 12 (invented)");
        await tomas.Page.GetByLabel("Formula").FillAsync("C5H12O");
        await tomas.Page.GetByLabel("Density", new() { Exact = true }).FillAsync("0,75");
        await tomas.Page.GetByLabel("Flash point", new() { Exact = true }).FillAsync("-21 °C");
        await tomas.Page.GetByLabel("Autoignition temperature", new() { Exact = true }).FillAsync("151");
        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Add to the group’s own substances" }).ClickAsync();
        await Assertions.Expect(tomas.Page.GetByRole(AriaRole.Heading, new() { Name = "Invented quick ether" })).ToBeVisibleAsync();
        await Assertions.Expect(tomas.Page.Locator("#fire + .scroll")).ToContainTextAsync("stated by the group");
        await tomas.AssertSoundAsync("an own substance");

        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("Uses what the group states");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/substance").FillAsync("Invented quick-ether");
        await Assertions.Expect(mira.Page.Locator("[id=\"/materials/0/substance-known\"]")).ToContainTextAsync("ignites by itself at 151 °C");
        await Assertions.Expect(mira.Page.Locator("[id=\"/materials/0/substance-known\"]")).ToContainTextAsync("values of the group’s own");
        await mira.Field("/materials/0/amount").FillAsync("50");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a vessel" }).ClickAsync();
        await mira.Field("/vessels/0/kind").FillAsync("round-bottom flask");
        await mira.Field("/vessels/0/volume").FillAsync("100");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await mira.Field("/steps/0/action").SelectOptionAsync("charge");
        await mira.Field("/steps/0/materials/m1").CheckAsync();
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await mira.Field("/steps/1/action").SelectOptionAsync("heat");
        await mira.Field("/steps/1/temperature").FillAsync("30");
        await mira.Field("/steps/1/heatSource").SelectOptionAsync("hotplate");
        await mira.Field("/steps/1/surfaceTemperature").FillAsync("200");
        await Assertions.Expect(mira.Page.Locator("#screening")).ToContainTextAsync("151");
        await Assertions.Expect(mira.Page.Locator("#screening")).ToContainTextAsync("the group's own list, version 1: notebook 7, page 12 (invented)");
        await mira.SavedAsync();
    }

    [Fact]
    public async Task OwnSubstance_ChangedAndTakenOutOfUse_ShowsItsVersions()
    {
        await using Visitor edda = await Visitor.ArriveAsync(app, browser, DemoGroup.Edda);
        await edda.Page.GotoAsync("/catalogue/own/new?of=108-88-3");
        await Assertions.Expect(edda.Page.GetByLabel("CAS number")).ToHaveValueAsync("108-88-3");
        await edda.Page.GetByLabel("Source of the values").FillAsync("data sheet (invented)");
        await edda.Page.GetByLabel("Flash point", new() { Exact = true }).FillAsync("2");
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Add to the group’s own substances" }).ClickAsync();

        // The lower flash point governs, and the published one stays in sight.
        ILocator flash = edda.Page.Locator("#fire + .scroll tr", new() { HasText = "Flash point" });
        await Assertions.Expect(flash).ToContainTextAsync("2 °C");
        await Assertions.Expect(flash).ToContainTextAsync("also 4 °C");
        await edda.Page.GetByRole(AriaRole.Link, new() { Name = "Change the group’s values" }).ClickAsync();
        await edda.Page.GetByLabel("Flash point", new() { Exact = true }).FillAsync("3");
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Keep as version 2" }).ClickAsync();
        await Assertions.Expect(flash).ToContainTextAsync("3 °C");
        await edda.Page.GetByRole(AriaRole.Link, new() { Name = "Change the group’s values" }).ClickAsync();
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Take it out of use" }).ClickAsync();
        await Assertions.Expect(edda.Page.Locator("#reason-fault")).ToBeVisibleAsync();
        await edda.Page.GetByLabel("Why").FillAsync("the published value is enough");
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Take it out of use" }).ClickAsync();
        await Assertions.Expect(edda.Page.GetByText("Out of use since")).ToBeVisibleAsync();
        await edda.Page.GetByText("3 versions").ClickAsync();
        await edda.AssertSoundAsync("a substance out of use");
        await edda.Page.GotoAsync("/catalogue/108-88-3");
        await Assertions.Expect(flash).ToContainTextAsync("4 °C");
    }
}
