using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>Every page: accessible, from this server only, without errors, in both colour schemes and on a phone.</summary>
[Trait("kind", "browser")]
public class EveryPageTests(DemoApp app, Hosting.Browser browser)
{
    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 1280)]
    [InlineData(ColorScheme.Light, 390)]
    public async Task Pages_OfAMember_AreSound(ColorScheme scheme, int width)
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, person: null, scheme, width);
        await mira.Page.GotoAsync("/");
        Assert.Contains("/account/sign-in", mira.Page.Url, StringComparison.Ordinal);
        await mira.AssertSoundAsync("sign-in");
        await mira.SignInAsync(DemoGroup.Mira);
        await mira.AssertSoundAsync("the list");
        await VisitAsync(mira, "/?state=suspended", "an empty list");
        await VisitAsync(mira, "/procedures/new", "a new procedure");
        await VisitAsync(mira, "/history", "the history of a member");
        await VisitAsync(mira, "/account/sign-out", "sign-out");
        await VisitAsync(mira, "/no-such-page", "a page that is not there", 404);
        await VisitAsync(mira, $"/procedures/{Guid.CreateVersion7()}", "a procedure that is not there", 404);
        await VisitAsync(mira, "/error/403", "a refusal", 403);

        await mira.Page.GotoAsync("/");
        // The demo's own, the oldest: other tests write, submit and decide procedures of that title at the same time.
        string flagged = await mira.Page.Locator("main table a:not([href$='/edit'])", new() { HasText = "Azide" }).Last.GetAttributeAsync("href") ?? "";
        await VisitAsync(mira, flagged, "a procedure in review");
        await VisitAsync(mira, flagged + "/edit", "the editor", live: true);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Show and edit the text" }).ClickAsync();
        await mira.Page.GetByLabel("Document", new() { Exact = true }).WaitForAsync();
        await mira.AssertSoundAsync("the editor with its text");
        await VisitAsync(mira, flagged + "/check", "the check before submitting");
    }

    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 1280)]
    [InlineData(ColorScheme.Light, 390)]
    public async Task Pages_OfAReviewerAndTheLead_AreSound(ColorScheme scheme, int width)
    {
        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas, scheme, width);
        await VisitAsync(tomas, "/review", "the queue");
        string review = await tomas.Page.Locator("main table a").First.GetAttributeAsync("href") ?? "";
        await VisitAsync(tomas, review, "the review");
        await using Visitor edda = await Visitor.ArriveAsync(app, browser, DemoGroup.Edda, scheme, width);
        await VisitAsync(edda, "/history", "the history");
        await VisitAsync(edda, "/history?text=no-such-word", "an empty history");
        await VisitAsync(edda, "/history?since=yesterday", "a history with a bad date", 422);
        await Assertions.Expect(edda.Page.Locator(".error-summary")).ToContainTextAsync("Enter the day as year-month-day");
        await VisitAsync(edda, "/history/check", "how to check the history");
    }

    [Fact]
    public async Task SignIn_WrongPassword_SaysOneThingForEveryReason()
    {
        await using Visitor nobody = await Visitor.ArriveAsync(app, browser);
        List<string> answers = [];
        foreach (string name in new[] { "nobody-of-that-name", DemoGroup.Ruth.UserName })
        {
            await nobody.Page.GotoAsync("/account/sign-in");
            await nobody.Page.GetByLabel("User name").FillAsync(name);
            await nobody.Page.GetByLabel("Password").FillAsync("a wrong password, surely");
            await nobody.Page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
            await Assertions.Expect(nobody.Page.Locator(".error-summary")).ToBeFocusedAsync();
            answers.Add(await nobody.Page.Locator(".error-summary").InnerTextAsync());
            await Assertions.Expect(nobody.Page.GetByLabel("User name")).ToHaveValueAsync(name);
        }

        Assert.Equal(answers[0], answers[1]);
        await nobody.AssertSoundAsync("sign-in with a fault");
    }

    [Fact]
    public async Task SignIn_WithoutTheTokenOfTheForm_ShowsThePageOfAnUnreadableRequest()
    {
        await using Visitor nobody = await Visitor.ArriveAsync(app, browser);
        await nobody.Page.GotoAsync("/account/sign-in");
        await nobody.Page.Context.ClearCookiesAsync();
        await nobody.Page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(nobody.Page.GetByRole(AriaRole.Heading, new() { Name = "This request could not be read" })).ToBeVisibleAsync();
        await nobody.AssertSoundAsync("a request without a token");
    }

    [Fact]
    public async Task SignIn_WithAnAddressOfAnotherSite_StaysHere()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser);
        await mira.Page.GotoAsync("/account/sign-in?ReturnUrl=https%3A%2F%2Fexample.org%2F");
        await mira.Page.GetByLabel("User name").FillAsync(DemoGroup.Mira.UserName);
        await mira.Page.GetByLabel("Password").FillAsync(DemoGroup.Password);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Heading, new() { Name = "Procedures of the group" })).ToBeVisibleAsync();
        Assert.Empty(mira.ForeignRequests);
    }

    [Fact]
    public async Task NewProcedure_WithoutATitle_SaysSoInTheSummaryAndAtTheField()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.Page.GotoAsync("/procedures/new");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Start an empty procedure" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator(".error-summary")).ToBeFocusedAsync();
        await Assertions.Expect(mira.Page.Locator(".error-summary")).ToContainTextAsync("Enter a title.");
        await Assertions.Expect(mira.Page.Locator("#title-fault")).ToHaveTextAsync("Enter a title.");
        await mira.AssertSoundAsync("a new procedure with a fault");
    }

    [Fact]
    public async Task Keyboard_FirstTab_SkipsToTheContent()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.Page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Link, new() { Name = "Skip to the content" })).ToBeFocusedAsync();
        await mira.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(mira.Page.Locator("#main")).ToBeFocusedAsync();
        Assert.Equal("/", new Uri(mira.Page.Url).AbsolutePath);
    }

    private static async Task VisitAsync(Visitor visitor, string address, string name, int status = 200, bool live = false)
    {
        IResponse? answer = await visitor.Page.GotoAsync(address);
        Assert.True(answer?.Status == status, $"{name}: {answer?.Status} instead of {status}");
        if (live)
        {
            await visitor.Page.Locator("#editor[data-interactive]").WaitForAsync();
        }

        Assert.Equal(1, await visitor.Page.Locator("h1").CountAsync());
        Assert.Equal(1, await visitor.Page.Locator("main").CountAsync());
        await visitor.AssertSoundAsync(name);
    }
}
