using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The forms of the inventory. All vessels are invented.</summary>
public sealed class InventoryPageTests(TestApp test)
{
    [Fact]
    public async Task Page_FormWithFaults_ComesBackWithWhatWasTypedAndASummary()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        form["label"] = "W-typed";
        form["kind"] = "typed tube";
        form["rating"] = "four";
        form["part-1-rating"] = "3";
        form["part-1-rating-unit"] = "bar(g)";
        using HttpResponseMessage answer = await member.SendAsync("/inventory/vessels/new", form);
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("typed tube", page, StringComparison.Ordinal);
        Assert.Contains("is not a number", page, StringComparison.Ordinal);
        form["rating"] = "4";
        form["key"] = Guid.CreateVersion7().ToString();
        using HttpResponseMessage again = await member.SendAsync("/inventory/vessels/new", form);
        page = await again.Content.ReadAsStringAsync();
        Assert.Contains("#part-1-part", page, StringComparison.Ordinal);
        Assert.Contains("#ratingEvidence", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_NumberThatIsNoneNameThatIsTakenAndInspectionAhead_AreToldAtOnce()
    {
        await test.AddEntryAsync("vessels", Entries.Vessel("W-round"));
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        (form["label"], form["kind"], form["volume"], form["inspectedOn"]) = ("w round", "tube", "lots", "2099-01-31");
        using HttpResponseMessage answer = await member.SendAsync("/inventory/vessels/new", form);
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("The vessel W-round of the inventory goes by this name.", page, StringComparison.Ordinal);
        Assert.Contains("id=\"volume-fault\"", page, StringComparison.Ordinal);
        Assert.Contains("is after today (2099-01-31)", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_NotThere_HasTheHeadOfWhoeverIsSignedIn()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        using HttpResponseMessage answer = await member.Client.GetAsync("/inventory/nothing-here");
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("Invented member", page, StringComparison.Ordinal);
        Assert.DoesNotContain("/account/sign-in", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_FormSentTwice_IsOneVesselAndTheSameAddress()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        form["label"] = "W-twice";
        form["kind"] = "beaker";
        long before = await test.EventsAsync("vessel.added");
        HttpResponseMessage[] answers = await Task.WhenAll(member.SendAsync("/inventory/vessels/new", form), member.SendAsync("/inventory/vessels/new", form));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        Assert.Single(answers.Select(a => a.Headers.Location).Distinct());
        Assert.Equal(before + 1, await test.EventsAsync("vessel.added"));
    }

    [Fact]
    public async Task Page_RetirementForm_IsThereForReviewersAndNotForMembers()
    {
        (_, JsonObject added) = await test.AddEntryAsync("vessels", Entries.Vessel("W-member"));
        string page = $"/inventory/vessels/{(string)added["id"]!}/edit";
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        using HttpResponseMessage shown = await member.Client.GetAsync(page);
        Assert.DoesNotContain("retire-form", await shown.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "fire-reviewer");
        Dictionary<string, string> form = await reviewer.FormAsync(page, "retire");
        form["reason"] = "broken";
        using HttpResponseMessage retired = await reviewer.SendAsync(page, form);
        Assert.Equal(HttpStatusCode.Redirect, retired.StatusCode);
        using HttpResponseMessage after = await member.Client.GetAsync(page);
        Assert.Equal(HttpStatusCode.Conflict, after.StatusCode);
    }
}
