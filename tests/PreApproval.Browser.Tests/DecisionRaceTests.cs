using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>Somebody else acts while a reviewer writes: the reviewer reads what happened and keeps every word.</summary>
[Trait("kind", "browser")]
public class DecisionRaceTests(DemoApp app, Hosting.Browser browser)
{
    private const string Example = "Reduction of an alkyl azide with triphenylphosphine in a stoppered flask";
    private const string ToTheAuthor = "A word to the author that took ten minutes";
    private const string Answer = "An answer that took ten minutes too";

    [Fact]
    public async Task Review_OtherReviewerRequestedChangesFirst_SaysWhoAndKeepsTheWords()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartFromExampleAsync(Example);
        await mira.SubmitAsync(revision: 1);
        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas);
        await using Visitor ines = await Visitor.ArriveAsync(app, browser, DemoGroup.Ines);
        await WriteReviewAsync(ines, id);
        await tomas.Page.GotoAsync($"/procedures/{id}/review");
        await tomas.Page.GetByLabel("To the author").FillAsync("Vent it.");
        await tomas.Page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Request changes" }).ClickAsync();
        await Visitor.RevisionShownAsync(tomas.Page, 1);

        await SignAsync(ines);
        await AssertLostAsync(ines, $"{DemoGroup.Tomas.Name} requested changes to revision 1");
        await ines.AssertSoundAsync("a decision that came too late");
    }

    [Fact]
    public async Task Review_AuthorWithdrewMeanwhile_SaysSoAndKeepsTheWords()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartFromExampleAsync(Example);
        await mira.SubmitAsync(revision: 1);
        await using Visitor ines = await Visitor.ArriveAsync(app, browser, DemoGroup.Ines);
        await WriteReviewAsync(ines, id);
        await WithdrawAsync(mira);

        await SignAsync(ines);
        await AssertLostAsync(ines, $"{DemoGroup.Mira.Name} withdrew revision 1");
    }

    [Fact]
    public async Task Review_LaterRevisionSubmittedMeanwhile_LeadsToItAndKeepsTheWords()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartFromExampleAsync(Example);
        await mira.SubmitAsync(revision: 1);
        await using Visitor ines = await Visitor.ArriveAsync(app, browser, DemoGroup.Ines);
        await WriteReviewAsync(ines, id);
        await WithdrawAsync(mira);
        await mira.Page.GotoAsync($"/procedures/{id}/edit");
        await mira.EditorOpenedAsync();
        await mira.Field("/purpose").FillAsync("Written anew");
        await mira.SavedAsync();
        await mira.SubmitAsync(revision: 2);

        await SignAsync(ines);
        await AssertLostAsync(ines, "revision 2 has been submitted");
        await ines.Page.GetByRole(AriaRole.Link, new() { Name = "Review revision 2" }).ClickAsync();
        await Assertions.Expect(ines.Page.GetByLabel("To the author")).ToHaveValueAsync("");
    }

    [Fact]
    public async Task Withdraw_AReviewerDecidedMeanwhile_SaysWhoAndKeepsTheReason()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await mira.StartFromExampleAsync(Example);
        await mira.SubmitAsync(revision: 1);
        await mira.Page.GetByLabel("Why you take it back").FillAsync("The wrong flask");
        await using Visitor ines = await Visitor.ArriveAsync(app, browser, DemoGroup.Ines);
        await WriteReviewAsync(ines, id);
        await ines.Page.GetByRole(AriaRole.Button, new() { Name = "Decline" }).ClickAsync();
        await Visitor.RevisionShownAsync(ines.Page, 1);

        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Withdraw revision 1" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator(".error-summary")).ToContainTextAsync($"{DemoGroup.Ines.Name} declined revision 1");
        await Assertions.Expect(mira.Page.GetByLabel("Why you take it back")).ToHaveValueAsync("The wrong flask");
    }

    private static async Task WriteReviewAsync(Visitor reviewer, Guid id)
    {
        await reviewer.Page.GotoAsync($"/procedures/{id}/review");
        await reviewer.Page.GetByLabel("To the author").FillAsync(ToTheAuthor);
        await reviewer.Page.Locator("input[name=answer-0][value=send-back]").CheckAsync();
        await reviewer.Page.Locator("textarea[name=text-0]").FillAsync(Answer);
        await reviewer.Page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
    }

    private static Task SignAsync(Visitor reviewer) => reviewer.Page.GetByRole(AriaRole.Button, new() { Name = "Request changes" }).ClickAsync();

    private static async Task WithdrawAsync(Visitor author)
    {
        await author.Page.GetByLabel("Why you take it back").FillAsync("Wrong flask");
        await author.Page.GetByRole(AriaRole.Button, new() { Name = "Withdraw revision 1" }).ClickAsync();
        await Assertions.Expect(author.Page.Locator("main .title .state")).ToHaveTextAsync("Withdrawn");
    }

    private static async Task AssertLostAsync(Visitor reviewer, string what)
    {
        await Assertions.Expect(reviewer.Page.GetByRole(AriaRole.Heading, new() { Name = "Somebody was faster" })).ToBeVisibleAsync();
        await Assertions.Expect(reviewer.Page.Locator("main")).ToContainTextAsync(what);
        await Assertions.Expect(reviewer.Page.GetByText("Nothing was signed")).ToBeVisibleAsync();
        await Assertions.Expect(reviewer.Page.GetByLabel("To the author")).ToHaveValueAsync(ToTheAuthor);
        await Assertions.Expect(reviewer.Page.GetByLabel("Sent back")).ToHaveValueAsync(Answer);
    }
}
