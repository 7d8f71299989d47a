using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Forms of the pages: a double click, and a page that was shown before things changed.</summary>
public sealed class FormTests(TestApp test)
{
    [Fact]
    public async Task NewProcedure_SentTwice_IsOneProcedureAndTheSameAddress()
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> form = await author.FormAsync("/procedures/new", "create");
        form["title"] = "clicked twice";
        long before = await test.EventsAsync("procedure.created");
        HttpResponseMessage[] answers = await Task.WhenAll(author.SendAsync("/procedures/new", form), author.SendAsync("/procedures/new", form));
        using HttpResponseMessage late = await author.SendAsync("/procedures/new", form);
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        Assert.Equal(answers[0].Headers.Location, answers[1].Headers.Location);
        Assert.Equal(answers[0].Headers.Location, late.Headers.Location);
        Assert.Equal(before + 1, await test.EventsAsync("procedure.created"));
    }

    [Fact]
    public async Task NewProcedure_SentAgainWithAnotherTitle_IsRefusedAndNothingIsMade()
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> form = await author.FormAsync("/procedures/new", "create");
        form["title"] = "this";
        (await author.SendAsync("/procedures/new", form)).Dispose();
        long before = await test.EventsAsync("procedure.created");
        form["title"] = "that";
        using HttpResponseMessage answer = await author.SendAsync("/procedures/new", form);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal(before, await test.EventsAsync("procedure.created"));
    }

    [Fact]
    public async Task Submit_SentTwice_IsOneRevisionAndTheSameAddress()
    {
        string page = Page(await test.DraftAsync("submitted by two clicks")) + "/check";
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> form = await author.FormAsync(page, "submit");
        HttpResponseMessage[] answers = await Task.WhenAll(author.SendAsync(page, form), author.SendAsync(page, form));
        using HttpResponseMessage late = await author.SendAsync(page, form);
        Assert.All(answers.Append(late), a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        Assert.Single(answers.Append(late).Select(a => a.Headers.Location).Distinct());
    }

    [Fact]
    public async Task Decide_SentTwice_IsOneDecisionAndTheSameAddress()
    {
        string page = Page(await test.SubmittedAsync("a fire warning")) + "/review";
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "fire-reviewer");
        Dictionary<string, string> form = await ApprovalAsync(reviewer, page);
        long before = await test.EventsAsync("decision.%");
        HttpResponseMessage[] answers = await Task.WhenAll(reviewer.SendAsync(page, form), reviewer.SendAsync(page, form));
        using HttpResponseMessage late = await reviewer.SendAsync(page, form);
        Assert.All(answers.Append(late), a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        Assert.Single(answers.Append(late).Select(a => a.Headers.Location).Distinct());
        Assert.Equal(before + 1, await test.EventsAsync("decision.%"));
    }

    [Fact]
    public async Task Decide_ForAnotherSlotThanTheOpenOne_IsRefusedAndNothingIsSigned()
    {
        string page = Page(await test.SubmittedAsync("a fire warning")) + "/review";
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "fire-reviewer");
        Dictionary<string, string> form = await ApprovalAsync(reviewer, page);
        Assert.True(form.ContainsKey("slot"));
        form["slot"] = "countersign";
        long before = await test.EventsAsync("decision.%");
        using HttpResponseMessage answer = await reviewer.SendAsync(page, form);
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.Equal(before, await test.EventsAsync("decision.%"));
    }

    [Fact]
    public async Task PostDecisions_NamedSlot_IsTheOneMeantOr409()
    {
        string address = await test.SubmittedAsync("a fire warning");
        using HttpClient reviewer = test.As("fire-reviewer");
        using HttpResponseMessage read = await reviewer.GetAsync($"{address}/revisions/1");
        string slot = (string)(await Read.ObjectAsync(read))["slots"]![0]!["slot"]!;
        var body = new JsonObject { ["revision"] = 1, ["decision"] = "decline", ["reason"] = "not here", ["password"] = TestApp.Password, ["slot"] = "review-99" };
        using HttpResponseMessage other = await SendAsync(reviewer, address, body);
        await Read.ProblemAsync(other, HttpStatusCode.Conflict);
        body["slot"] = slot;
        using HttpResponseMessage right = await SendAsync(reviewer, address, body);
        Assert.Equal(HttpStatusCode.OK, right.StatusCode);
    }

    private static Task<HttpResponseMessage> SendAsync(HttpClient client, string address, JsonObject body) =>
        client.PostAsync($"{address}/decisions", new StringContent(body.ToJsonString(), System.Text.Encoding.UTF8, "application/json"));

    private static async Task<Dictionary<string, string>> ApprovalAsync(Browsing reviewer, string page)
    {
        Dictionary<string, string> form = await reviewer.FormAsync(page, "decide");
        form["answer-0"] = "accept";
        form["text-0"] = "the bath is cold";
        form["password"] = TestApp.Password;
        form["decision"] = "approve";
        return form;
    }

    private static string Page(string apiAddress) => apiAddress["/api/v1".Length..];
}
