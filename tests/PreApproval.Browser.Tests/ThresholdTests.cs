using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>The group's thresholds: read by everybody, set by the lead with a look at what changes.</summary>
[Trait("kind", "browser")]
public class ThresholdTests(DemoApp app, Hosting.Browser browser)
{
    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 1280)]
    [InlineData(ColorScheme.Light, 390)]
    public async Task Pages_OfTheThresholds_AreSound(ColorScheme scheme, int width)
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira, scheme, width);
        await mira.Page.GetByRole(AriaRole.Link, new() { Name = "Thresholds" }).ClickAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "Thresholds", Exact = true })).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Link, new() { Name = "Change thresholds" })).ToHaveCountAsync(0);
        await mira.AssertSoundAsync("the thresholds of a member");
        IResponse? refused = await mira.Page.GotoAsync("/thresholds/edit");
        Assert.Equal(403, refused?.Status);
        await mira.AssertSoundAsync("a refused change of thresholds");

        await using Visitor edda = await Visitor.ArriveAsync(app, browser, DemoGroup.Edda, scheme, width);
        await edda.Page.GotoAsync("/thresholds");
        await edda.AssertSoundAsync("the thresholds of the lead");
        await edda.Page.GetByRole(AriaRole.Link, new() { Name = "Change thresholds" }).ClickAsync();
        await edda.AssertSoundAsync("changing thresholds");
        await edda.Page.GetByLabel("Overshoot of a heat source, in K").FillAsync("200");
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Check the changes" }).ClickAsync();
        await Assertions.Expect(edda.Page.Locator(".error-summary")).ToBeFocusedAsync();
        await Assertions.Expect(edda.Page.Locator("#overshootK-fault")).ToContainTextAsync("200 K is outside the allowed 0 to 100 K");
        await edda.AssertSoundAsync("changing thresholds with faults");
        await edda.Page.Locator(".error-summary a").First.ClickAsync();
        await Assertions.Expect(edda.Page.GetByLabel("Overshoot of a heat source, in K")).ToBeFocusedAsync();

        await edda.Page.GetByLabel("Overshoot of a heat source, in K").FillAsync("10");
        await edda.Page.GetByLabel("Share of the autoignition temperature in °C, in %").FillAsync("75");
        await edda.Page.GetByLabel("Reason").FillAsync("The blocks were replaced (invented).");
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Check the changes" }).ClickAsync();
        await Assertions.Expect(edda.Page.GetByRole(AriaRole.Heading, new() { Name = "Check the thresholds" })).ToBeVisibleAsync();
        await Assertions.Expect(edda.Page.Locator("main tbody tr")).ToHaveCountAsync(2);
        await Assertions.Expect(edda.Page.Locator("main tbody tr").First).ToContainTextAsync("looser than the default");
        await edda.AssertSoundAsync("the check of thresholds");
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Change answers" }).ClickAsync();
        await Assertions.Expect(edda.Page.GetByLabel("Overshoot of a heat source, in K")).ToHaveValueAsync("10");
        await Assertions.Expect(edda.Page.GetByLabel("Reason")).ToHaveValueAsync("The blocks were replaced (invented).");
    }

    [Fact]
    public async Task Lead_SetsAThreshold_AndEverybodySeesItWithTheReason()
    {
        await using Visitor edda = await Visitor.ArriveAsync(app, browser, DemoGroup.Edda);
        await SetAsync(edda, "11");
        await using (Visitor odd = await Visitor.ArriveAsync(app, browser, DemoGroup.Odd))
        {
            await odd.Page.GotoAsync("/thresholds");
            await Assertions.Expect(odd.Page.Locator("main")).ToContainTextAsync("Inspection runs out after: 12 months → 11 months (stricter than the default)");
            await Assertions.Expect(odd.Page.Locator("main")).ToContainTextAsync("Reason: An audit is due (invented).");
            await odd.AssertSoundAsync("thresholds with versions");
        }

        await edda.Page.GotoAsync("/history?event=thresholds.set");
        await Assertions.Expect(edda.Page.Locator("main")).ToContainTextAsync("inspection runs out after 12 months → 11 months (stricter than the default)");

        // as it was, for the other tests
        await SetAsync(edda, "12");
    }

    private static async Task SetAsync(Visitor lead, string months)
    {
        await lead.Page.GotoAsync("/thresholds/edit");
        await lead.Page.GetByLabel("Inspection runs out after, in months").FillAsync(months);
        await lead.Page.GetByLabel("Reason").FillAsync("An audit is due (invented).");
        await lead.Page.GetByRole(AriaRole.Button, new() { Name = "Check the changes" }).ClickAsync();
        await lead.Page.GetByRole(AriaRole.Button, new() { Name = "Set the thresholds" }).ClickAsync();
        await Assertions.Expect(lead.Page.GetByRole(AriaRole.Heading, new() { Name = "Thresholds", Exact = true })).ToBeVisibleAsync();
    }
}
