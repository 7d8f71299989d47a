using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>What the form makes of what is chosen, typed, or left open.</summary>
[Trait("kind", "browser")]
public class EditorFormTests(DemoApp app, Hosting.Browser browser)
{
    [Theory]
    [InlineData("solution", "/materials/0/solution/solvent", "/materials/0/solution/concentration")]
    [InlineData("mixture", "/materials/0/mixture/1/substance", "/materials/0/mixture/0/fraction")]
    public async Task Material_KindChosenAndLeftBlank_StaysChosenAndSaysWhatIsMissing(string kind, string first, string second)
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("A kind without its parts");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/substance").FillAsync("7647-01-0");
        await mira.Field("/materials/0/amount").FillAsync("5");
        await mira.Field("/materials/0/is").SelectOptionAsync(kind);
        foreach (string field in new[] { first, second })
        {
            await Assertions.Expect(mira.Page.Locator($"[id=\"{field}-fault\"]")).ToContainTextAsync("missing");
        }

        await mira.SavedAsync();
        await mira.Page.ReloadAsync();
        await mira.EditorOpenedAsync();
        await Assertions.Expect(mira.Field("/materials/0/is")).ToHaveValueAsync(kind);
        await Assertions.Expect(mira.Page.Locator($"[id=\"{first}-fault\"]")).ToContainTextAsync("missing");
    }

    [Fact]
    public async Task Material_SolventTypedAndTakenAway_StaysASolution()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("A solvent taken away");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/is").SelectOptionAsync("solution");
        await mira.Field("/materials/0/solution/solvent").FillAsync("water");
        await mira.Field("/materials/0/solution/solvent").FillAsync("");
        await mira.SavedAsync();
        await mira.Page.ReloadAsync();
        await mira.EditorOpenedAsync();
        await Assertions.Expect(mira.Field("/materials/0/is")).ToHaveValueAsync("solution");
    }

    [Fact]
    public async Task SafetyQuestions_OfANewProcedure_AreOpenUntilAnswered()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await WriteBeakerAsync(mira, "Nobody has said who stays");
        await Assertions.Expect(mira.Field("/attendance")).ToHaveValueAsync("");
        await Assertions.Expect(mira.Field("/lone")).ToHaveValueAsync("");
        ILocator open = mira.Page.Locator("#to-answer");
        await Assertions.Expect(open).ToContainTextAsync("Attendance");
        await Assertions.Expect(open).ToContainTextAsync("Alone, nobody within call");
        await mira.SavedAsync();
        await mira.Page.GotoAsync(mira.Page.Url.Replace("/edit", "/check", StringComparison.Ordinal));
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "To answer before it is submitted" })).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.Locator("dd", new() { HasTextString = "not said" }).First).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.GetByText("somebody within call")).ToHaveCountAsync(0);
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" })).ToHaveCountAsync(0);

        await mira.Page.GetByRole(AriaRole.Link, new() { Name = "Attendance" }).ClickAsync();
        await mira.EditorOpenedAsync();
        await mira.Field("/attendance").SelectOptionAsync("attended");
        await mira.Field("/lone").SelectOptionAsync("no");
        await Assertions.Expect(mira.Page.Locator("#to-answer")).ToHaveCountAsync(0);
        await mira.SavedAsync();
        await mira.SubmitAsync(revision: 1);
    }

    [Theory]
    [InlineData("1,5", "1.5", "mL")]
    [InlineData("0,125", "0.125", "mL")]
    [InlineData("5 g", "5", "g")]
    [InlineData("2,5 mmol", "2.5", "mmol")]
    [InlineData(".5", "0.5", "mL")]
    public async Task Amount_TypedAsPeopleWriteIt_BecomesNumberAndUnit(string typed, string value, string unit)
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("Numbers as written");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/amount").PressSequentiallyAsync(typed);
        await mira.Field("/materials/0/amount").BlurAsync();
        await Assertions.Expect(mira.Field("/materials/0/amount")).ToHaveValueAsync(value);
        await Assertions.Expect(mira.Field("/materials/0/amount/unit")).ToHaveValueAsync(unit);
        await Assertions.Expect(mira.Page.Locator("[id=\"/materials/0/amount-fault\"]")).ToHaveCountAsync(0);
    }

    [Theory]
    [InlineData("1,000")]
    [InlineData("a little")]
    public async Task Amount_NoNumber_IsToldHowToWriteIt(string typed)
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("No number");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/amount").PressSequentiallyAsync(typed);
        await mira.Field("/materials/0/amount").BlurAsync();
        await Assertions.Expect(mira.Field("/materials/0/amount")).ToHaveValueAsync(typed);
        ILocator fault = mira.Page.Locator("[id=\"/materials/0/amount-fault\"]");
        await Assertions.Expect(fault).ToContainTextAsync("rite the number with a point, for instance 1.5");
        await Assertions.Expect(fault).Not.ToContainTextAsync("quotes");
    }

    [Fact]
    public async Task Faults_OfRows_NameThemInTheWordsOfTheForm()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("Rows with faults");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        foreach (int row in new[] { 0, 1 })
        {
            await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a vessel" }).ClickAsync();
            await mira.Field($"/vessels/{row}/id").WaitForAsync();
        }

        await mira.Field("/vessels/1/id").FillAsync("");
        await mira.Field("/vessels/1/id").BlurAsync();
        ILocator faults = mira.Page.Locator("#faults");
        await Assertions.Expect(faults).ToContainTextAsync("Vessel 2: short name");
        await Assertions.Expect(faults).ToContainTextAsync("Material 1");
        string words = await mira.Page.Locator("#editor").InnerTextAsync();
        Assert.DoesNotContain("\"", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Submit_WhereItCannotWork_IsNotOffered()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartFromExampleAsync("Reduction of an alkyl azide with triphenylphosphine in a stoppered flask");
        await mira.SubmitAsync(revision: 1);
        await mira.Page.GotoAsync($"/procedures/{id}/edit");
        await mira.EditorOpenedAsync();
        await Assertions.Expect(mira.Page.GetByText("Revision 1 is in review")).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Button, new() { Name = "Check answers and submit" })).ToHaveCountAsync(0);
        await mira.Page.GotoAsync($"/procedures/{id}/check");
        await Assertions.Expect(mira.Page.GetByText("Revision 1 is in review")).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Link, new() { Name = "Show revision 1" })).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" })).ToHaveCountAsync(0);
    }

    [Theory]
    [InlineData("74-98-6", "boils at −42")] // propane: −42.1 °C, NIST WebBook
    [InlineData("75-07-0", "boils at 20.")] // acetaldehyde: 20.1 to 20.8 °C, NIST WebBook
    public async Task Material_GasGivenInMillilitres_IsAskedForMass(string cas, string boils)
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("A gas in millilitres");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await mira.Field("/materials/0/substance").FillAsync(cas);
        await mira.Field("/materials/0/amount").FillAsync("10");
        ILocator hint = mira.Page.Locator("[id=\"/materials/0/volatile\"]");
        await Assertions.Expect(hint).ToContainTextAsync(boils, new() { IgnoreCase = true });
        await Assertions.Expect(hint).ToContainTextAsync("give mass, mol, or the temperature it is measured at");
        await mira.Field("/materials/0/amount/unit").SelectOptionAsync("g");
        await Assertions.Expect(hint).ToHaveCountAsync(0);
    }

    private static async Task WriteBeakerAsync(Visitor author, string title)
    {
        await author.StartEmptyAsync(title);
        await author.Page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await author.Field("/materials/0/substance").FillAsync("7732-18-5");
        await author.Field("/materials/0/amount").FillAsync("50");
        await author.Page.GetByRole(AriaRole.Button, new() { Name = "Add a vessel" }).ClickAsync();
        await author.Field("/vessels/0/kind").FillAsync("beaker");
        await author.Field("/vessels/0/volume").FillAsync("100");
        await author.Page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await author.Field("/steps/0/action").SelectOptionAsync("charge");
        await author.Field("/steps/0/materials/m1").CheckAsync();
        await Assertions.Expect(author.Page.GetByText("No finding needs a reviewer")).ToBeVisibleAsync();
    }
}
