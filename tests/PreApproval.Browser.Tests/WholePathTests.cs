using System.Text.RegularExpressions;
using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>The main job, by three people at three browsers.</summary>
[Trait("kind", "browser")]
public partial class WholePathTests(DemoApp app, Hosting.Browser browser)
{
    private const string Title = "Acetonitrile in a closed tube";

    [Fact]
    public async Task Procedure_FlaggedReviewedCountersigned_IsApprovedAndInTheHistory()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await WriteClosedTubeAsync(mira);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Check answers and submit" }).ClickAsync();
        await Assertions.Expect(mira.Page.GetByText("Goes to review")).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.Locator(".signal.danger").First).ToBeVisibleAsync();
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" }).ClickAsync();
        await Visitor.RevisionShownAsync(mira.Page, 1);
        await Assertions.Expect(mira.Page.GetByText("In review").First).ToBeVisibleAsync();
        await Assertions.Expect(mira.Page.GetByText(DemoGroup.Tomas.Name).First).ToBeVisibleAsync();

        // Routed by hazard: each reviewer who has it answers what was routed to them.
        int reviews = 0;
        foreach (DemoPerson reviewer in new[] { DemoGroup.Tomas, DemoGroup.Ines })
        {
            await using Visitor visitor = await Visitor.ArriveAsync(app, browser, reviewer);
            reviews += await ApproveIfAskedAsync(visitor, id) ? 1 : 0;
        }

        Assert.InRange(reviews, 1, 2);
        await mira.Page.ReloadAsync();
        await Assertions.Expect(mira.Page.Locator(".signature", new() { HasText = "Waits for" })).ToContainTextAsync(DemoGroup.Edda.Name);

        await using Visitor edda = await Visitor.ArriveAsync(app, browser, DemoGroup.Edda);
        await edda.Page.GotoAsync("/review");
        await edda.Page.Locator($"a[href=\"/procedures/{id}/review\"]").ClickAsync();
        await Assertions.Expect(edda.Page.GetByText("Shield in front, set temperature at most 60 °C.").First).ToBeVisibleAsync();
        await edda.Page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
        await edda.Page.GetByRole(AriaRole.Button, new() { Name = "Countersign and approve" }).ClickAsync();
        await Visitor.RevisionShownAsync(edda.Page, 1);
        await Assertions.Expect(edda.Page.Locator("main .title .state")).ToHaveTextAsync("Approved");
        await Assertions.Expect(edda.Page.Locator(".signature").Last).ToContainTextAsync(DemoGroup.Edda.Name);
        await Assertions.Expect(edda.Page.Locator(".signature").First).ToContainTextAsync(Digest());

        await edda.Page.GotoAsync($"/history?text={Uri.EscapeDataString(Title)}");
        ILocator events = edda.Page.Locator("main table");
        await Assertions.Expect(events).ToContainTextAsync($"{DemoGroup.Mira.Name} began");
        await Assertions.Expect(events).ToContainTextAsync("was submitted");
        await Assertions.Expect(events).ToContainTextAsync($"{DemoGroup.Tomas.Name} approved");
        await Assertions.Expect(events).ToContainTextAsync($"{DemoGroup.Edda.Name} countersigned");
        await Assertions.Expect(edda.Page.Locator(".note.good")).ToContainTextAsync("Unbroken");
        Assert.Empty(edda.ConsoleErrors);
    }

    [Fact]
    public async Task Review_ByTheAuthorOrWithoutAnswers_IsRefusedAndKeepsWhatWasWritten()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await WriteClosedTubeAsync(mira);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Check answers and submit" }).ClickAsync();
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" }).ClickAsync();
        await Visitor.RevisionShownAsync(mira.Page, 1);
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Link, new() { Name = "Review and decide" })).ToHaveCountAsync(0);
        IResponse? own = await mira.Page.GotoAsync($"/procedures/{id}/review");
        Assert.Equal(403, own?.Status);
        await Assertions.Expect(mira.Page.GetByText("You wrote this procedure")).ToBeVisibleAsync();

        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas);
        await tomas.Page.GotoAsync($"/procedures/{id}/review");
        await tomas.Page.GetByLabel("To the author").FillAsync("A word that must not get lost");
        await tomas.Page.Locator("textarea[name=text-0]").FillAsync("An answer without a choice");
        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Sign and approve" }).ClickAsync();
        ILocator summary = tomas.Page.Locator(".error-summary");
        await Assertions.Expect(summary).ToBeFocusedAsync();
        await Assertions.Expect(summary).ToContainTextAsync("Answer this finding before you approve");
        await Assertions.Expect(summary).ToContainTextAsync("Enter your password: it is your signature.");
        await Assertions.Expect(tomas.Page.Locator("#password-fault")).ToHaveTextAsync("Enter your password: it is your signature.");
        await Assertions.Expect(tomas.Page.GetByLabel("To the author")).ToHaveValueAsync("A word that must not get lost");
        await Assertions.Expect(tomas.Page.Locator("textarea[name=text-0]")).ToHaveValueAsync("An answer without a choice");
        await tomas.AssertSoundAsync("the review with faults");
        await summary.GetByRole(AriaRole.Link, new() { Name = "Enter your password" }).ClickAsync();
        await Assertions.Expect(tomas.Page.GetByLabel("Your password, to sign")).ToBeFocusedAsync();

        await tomas.Page.GetByLabel("Your password, to sign").FillAsync("not the password at all");
        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Request changes" }).ClickAsync();
        await Assertions.Expect(tomas.Page.Locator("#password-fault")).ToContainTextAsync("This is not your password");
        await tomas.Page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
        await tomas.Page.Locator("input[name=answer-0][value=send-back]").CheckAsync();
        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Request changes" }).ClickAsync();
        await Visitor.RevisionShownAsync(tomas.Page, 1);
        await Assertions.Expect(tomas.Page.Locator("main .title .state")).ToHaveTextAsync("Changes requested");
    }

    [Fact]
    public async Task ChangesRequested_OnRevisionOne_AreReadWhereRevisionTwoIsWrittenAndReviewed()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        Guid id = await WriteClosedTubeAsync(mira);
        await mira.SubmitAsync(revision: 1);
        await using Visitor tomas = await Visitor.ArriveAsync(app, browser, DemoGroup.Tomas);
        await tomas.Page.GotoAsync($"/procedures/{id}/review");
        await tomas.Page.GetByLabel("To the author").FillAsync("Please take the larger tube.");
        await tomas.Page.Locator("input[name=answer-0][value=send-back]").CheckAsync();
        await tomas.Page.Locator("textarea[name=text-0]").FillAsync("Half full at most.");
        await tomas.Page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
        await tomas.Page.GetByRole(AriaRole.Button, new() { Name = "Request changes" }).ClickAsync();
        await Visitor.RevisionShownAsync(tomas.Page, 1);

        await mira.Page.GotoAsync($"/procedures/{id}/edit");
        await mira.EditorOpenedAsync();
        await AssertAskedAsync(mira);
        await mira.AssertSoundAsync("the editor with what was asked");
        await mira.Field("/vessels/0/volume").FillAsync("50");
        await mira.SavedAsync();
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Check answers and submit" }).ClickAsync();
        await AssertAskedAsync(mira);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" }).ClickAsync();
        await Visitor.RevisionShownAsync(mira.Page, 2);
        await tomas.Page.GotoAsync($"/procedures/{id}/review");
        await AssertAskedAsync(tomas);
    }

    private static async Task AssertAskedAsync(Visitor visitor)
    {
        ILocator asked = visitor.Page.Locator("#earlier");
        await Assertions.Expect(asked).ToContainTextAsync($"{DemoGroup.Tomas.Name} requested changes to revision 1");
        await Assertions.Expect(asked).ToContainTextAsync("Please take the larger tube.");
        await Assertions.Expect(asked).ToContainTextAsync("Half full at most.");
    }

    [Fact]
    public async Task Withdraw_ByTheAuthor_NeedsAReasonAndIsShown()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await WriteClosedTubeAsync(mira);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Check answers and submit" }).ClickAsync();
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" }).ClickAsync();
        await Visitor.RevisionShownAsync(mira.Page, 1);
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Withdraw revision 1" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator(".error-summary")).ToContainTextAsync("Say why you take it back.");
        await mira.Page.GetByLabel("Why you take it back").FillAsync("Wrong tube");
        await mira.Page.GetByRole(AriaRole.Button, new() { Name = "Withdraw revision 1" }).ClickAsync();
        await Assertions.Expect(mira.Page.Locator("main .title .state")).ToHaveTextAsync("Withdrawn");
    }

    /// <summary>Acetonitrile (boils at 82 °C, NIST WebBook) at 130 °C in a closed tube rated for 1 bar(g): above 4 bar absolute whatever the model, so a danger.</summary>
    private static async Task<Guid> WriteClosedTubeAsync(Visitor author)
    {
        Guid id = await author.StartEmptyAsync(Title);
        IPage page = author.Page;
        await author.Field("/attendance").SelectOptionAsync("attended");
        await author.Field("/lone").SelectOptionAsync("no");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a material" }).ClickAsync();
        await author.Field("/materials/0/substance").FillAsync("75-05-8");
        await author.Field("/materials/0/amount").FillAsync("10");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a vessel" }).ClickAsync();
        await author.Field("/vessels/0/kind").FillAsync("thick-walled glass tube");
        await author.Field("/vessels/0/volume").FillAsync("35");
        await author.Field("/vessels/0/rating").FillAsync("1");
        await author.Field("/vessels/0/ratingEvidence").FillAsync("engraved");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await author.Field("/steps/0/action").SelectOptionAsync("charge");
        await author.Field("/steps/0/materials/m1").CheckAsync();
        await author.Field("/steps/0/temperature").FillAsync("20");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await author.Field("/steps/1/action").SelectOptionAsync("seal");
        await author.Field("/steps/1/headspace").SelectOptionAsync("nitrogen");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a step" }).ClickAsync();
        await author.Field("/steps/2/action").SelectOptionAsync("heat");
        await author.Field("/steps/2/temperature").FillAsync("130");
        await author.Field("/steps/2/duration").FillAsync("120");
        await author.Field("/steps/2/heatSource").SelectOptionAsync("metal block");
        await Assertions.Expect(page.Locator("aside .signal.danger").First).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Img, new() { NameRegex = new Regex("^Pressure in v1 over temperature, step 3: .* rating 1 bar gauge", RegexOptions.None, TimeSpan.FromSeconds(1)) })).ToBeVisibleAsync();
        await author.SavedAsync();
        return id;
    }

    /// <summary>Answers everything and signs, when something waits for this reviewer. The first answer is a condition.</summary>
    private static async Task<bool> ApproveIfAskedAsync(Visitor reviewer, Guid id)
    {
        IPage page = reviewer.Page;
        await page.GotoAsync("/review");
        ILocator link = page.Locator($"a[href=\"/procedures/{id}/review\"]");
        if (await link.CountAsync() == 0)
        {
            return false;
        }

        await link.ClickAsync();
        int answers = await page.Locator("textarea[name^=text-]").CountAsync();
        for (int i = 0; i < answers; i++)
        {
            await page.Locator($"input[name=answer-{i}][value={(i == 0 ? "condition" : "accept")}]").CheckAsync();
            await page.Locator($"textarea[name=text-{i}]").FillAsync(i == 0 ? "Shield in front, set temperature at most 60 °C." : "Accepted for this run only.");
        }

        await page.GetByLabel("Your password, to sign").FillAsync(DemoGroup.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign and approve" }).ClickAsync();
        await Visitor.RevisionShownAsync(page, 1);
        await Assertions.Expect(page.Locator(".signature").First).ToContainTextAsync("Approved");
        return true;
    }

    [GeneratedRegex("[0-9a-f]{64}", RegexOptions.None, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Digest();
}
