using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>A reviewer signs out in another tab, or presses Enter in the password: neither loses a word nor signs anything.</summary>
[Trait("kind", "browser")]
public class EndedSessionTests(DemoApp app, Hosting.Browser browser)
{
    private const string Example = "Reduction of an alkyl azide with triphenylphosphine in a stoppered flask";
    private const string Words = "A word to the author that took ten minutes";

    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 390)]
    public async Task Decision_AfterASignOutInAnotherTab_ComesBackAndCanBeSigned(ColorScheme scheme, int width)
    {
        Guid id = await SubmittedAsync();
        await using Visitor ines = await Visitor.ArriveAsync(app, browser, DemoGroup.Ines, scheme, width);
        await ines.Page.GotoAsync($"/procedures/{id}/review");
        await WriteAsync(ines);
        IPage other = await ines.Page.Context.NewPageAsync();
        await other.GotoAsync("/review");
        await other.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await Assertions.Expect(other.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();

        await RequestChangesAsync(ines);
        await Assertions.Expect(ines.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("You were not signed in any more, so nothing was carried out.");
        await ines.AssertSoundAsync("the sign-in that carries a form");
        await ines.Page.GetByLabel("User name").FillAsync(DemoGroup.Ines.UserName);
        await ines.Page.GetByLabel("Password").FillAsync(DemoGroup.Password);
        await ines.Page.GetByRole(AriaRole.Button, new() { Name = "Sign in and get it back" }).ClickAsync();
        await Assertions.Expect(ines.Page.GetByText(DemoGroup.Ines.Name)).ToBeVisibleAsync();
        await ines.AssertSoundAsync("the way back to a form");
        await ines.Page.GetByRole(AriaRole.Button, new() { Name = "Back to what I typed" }).ClickAsync();

        await Assertions.Expect(ines.Page.Locator(".error-summary")).ToContainTextAsync("You had been signed out, so nothing was carried out.");
        await Assertions.Expect(ines.Page.GetByLabel("To the author")).ToHaveValueAsync(Words);
        await Assertions.Expect(ines.Page.GetByLabel("Your password, to sign")).ToHaveValueAsync("");
        await ines.AssertSoundAsync("the form that came back");
        await RequestChangesAsync(ines);
        await Visitor.RevisionShownAsync(ines.Page, 1);
        await Assertions.Expect(ines.Page.Locator("main .title .state")).ToHaveTextAsync("Changes requested");
    }

    [Fact]
    public async Task Password_EnterInIt_SignsNothing()
    {
        Guid id = await SubmittedAsync();
        await using Visitor ines = await Visitor.ArriveAsync(app, browser, DemoGroup.Ines);
        await ines.Page.GotoAsync($"/procedures/{id}/review");
        await WriteAsync(ines);
        int posts = 0;
        ines.Page.Request += (_, request) => posts += string.Equals(request.Method, "POST", StringComparison.Ordinal) ? 1 : 0;
        await ines.Page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
        await ines.Page.GetByLabel("Your password, to sign").PressAsync("Enter");

        // a form that was sent would have left the page before this answer
        await ines.Page.EvaluateAsync("() => fetch('/mark.svg')");
        Assert.Equal(0, posts);
        await Assertions.Expect(ines.Page.GetByLabel("To the author")).ToHaveValueAsync(Words);
        await ines.Page.GotoAsync($"/procedures/{id}/revisions/1");
        await Assertions.Expect(ines.Page.Locator("main .title .state")).ToHaveTextAsync("In review");
    }

    private static Task WriteAsync(Visitor reviewer) => reviewer.Page.GetByLabel("To the author").FillAsync(Words);

    private static async Task RequestChangesAsync(Visitor reviewer)
    {
        await reviewer.Page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
        await reviewer.Page.GetByRole(AriaRole.Button, new() { Name = "Request changes" }).ClickAsync();
    }

    private async Task<Guid> SubmittedAsync()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartFromExampleAsync(Example);
        await mira.SubmitAsync(revision: 1);
        return id;
    }
}
