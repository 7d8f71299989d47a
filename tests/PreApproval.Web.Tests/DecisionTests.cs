using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class DecisionTests(TestApp test)
{
    [Fact]
    public async Task PostDecisions_ReviewThenCountersignature_ApprovesWithAnEventEach()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        long before = await test.EventsAsync("decision.%");
        using HttpClient reviewer = test.As("pressure-reviewer");
        using HttpResponseMessage reviewed = await reviewer.PostAsJsonAsync($"{address}/decisions", Approve("pressure.sample/beaker/1"));
        Assert.Equal(HttpStatusCode.OK, reviewed.StatusCode);
        Assert.Equal("in-review", (string?)(await Read.ObjectAsync(reviewed))["state"]);

        using HttpClient lead = test.As("lead");
        using HttpResponseMessage signed = await lead.PostAsJsonAsync($"{address}/decisions", Approve());
        Assert.Equal(HttpStatusCode.OK, signed.StatusCode);
        JsonObject revision = await Read.ObjectAsync(signed);
        Assert.Equal("approved", (string?)revision["state"]);
        Assert.All(revision["slots"]!.AsArray(), s => Assert.Equal("approve", (string?)s!["decision"]!["decision"]));
        Assert.True(await test.EventsAsync("decision.%") >= before + 2);
    }

    [Fact]
    public async Task PostDecisions_ByTheAuthor_Is403()
    {
        // A reviewer may write too; only here is the author somebody who could decide for others.
        await test.AddPersonAsync(test.Group, "writing-reviewer", [GroupRole.Reviewer], [Hazard.Peroxide]);
        await test.AddPersonAsync(test.Group, "other-reviewer", [GroupRole.Reviewer], [Hazard.Peroxide]);
        string address = await test.SubmittedAsync("a peroxide danger", person: "writing-reviewer");
        using HttpClient author = test.As("writing-reviewer");
        using HttpResponseMessage answer = await author.PostAsJsonAsync($"{address}/decisions", Approve("peroxide.sample/beaker/1"));
        await Read.ProblemAsync(answer, HttpStatusCode.Forbidden);
    }

    [Theory]
    [InlineData("fire-reviewer")]
    [InlineData("member")]
    [InlineData("administrator")]
    [InlineData("auditor")]
    public async Task PostDecisions_BySomebodyItWasNotRoutedTo_Is403(string person)
    {
        string address = await test.SubmittedAsync("a pressure danger");
        using HttpClient other = test.As(person);
        using HttpResponseMessage answer = await other.PostAsJsonAsync($"{address}/decisions", Approve("pressure.sample/beaker/1"));
        await Read.ProblemAsync(answer, HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task PostDecisions_LeadBeforeTheReview_Is409()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage answer = await lead.PostAsJsonAsync($"{address}/decisions", Approve());
        await Read.ProblemAsync(answer, HttpStatusCode.Conflict);
    }

    [Fact]
    public async Task PostDecisions_WithoutAnswers_Is422AndNothingStored()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        string before = await test.RowsAsync();
        using HttpClient reviewer = test.As("pressure-reviewer");
        using HttpResponseMessage answer = await reviewer.PostAsJsonAsync($"{address}/decisions", Approve());
        Assert.Equal(["/answers"], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)));
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task PostDecisions_WrongPassword_Is401AndOnlyTheFailedSignatureIsInTheHistory()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        long decided = await test.EventsAsync("decision.%");
        long failed = await test.EventsAsync("sign.refused");
        using HttpClient reviewer = test.As("pressure-reviewer");
        using HttpResponseMessage answer = await reviewer.PostAsJsonAsync($"{address}/decisions", Approve("pressure.sample/beaker/1").With(b => b["password"] = "not the right sentence"));
        await Read.ProblemAsync(answer, HttpStatusCode.Unauthorized);
        Assert.Equal(decided, await test.EventsAsync("decision.%"));
        Assert.Equal(failed + 1, await test.EventsAsync("sign.refused"));
        using HttpResponseMessage revision = await reviewer.GetAsync($"{address}/revisions/1");
        Assert.Equal("in-review", (string?)(await Read.ObjectAsync(revision))["state"]);
    }

    [Theory]
    [InlineData("decision", "approved", "/decision")]
    [InlineData("revision", -1, "/revision")]
    [InlineData("password", "", "/password")]
    [InlineData("answers", "all", "/answers")]
    public async Task PostDecisions_BadMember_Is422WithItsPath(string member, object value, string path)
    {
        string address = await test.SubmittedAsync("a pressure danger");
        using HttpClient reviewer = test.As("pressure-reviewer");
        JsonObject body = Approve().With(b => b[member] = value is int number ? JsonValue.Create(number) : JsonValue.Create((string)value));
        using HttpResponseMessage answer = await reviewer.PostAsJsonAsync($"{address}/decisions", body);
        Assert.Equal([path], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)));
    }

    [Fact]
    public async Task PostDecisions_UnknownMemberInAnAnswer_Is400WithItsPath()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        using HttpClient reviewer = test.As("pressure-reviewer");
        JsonObject body = Approve("pressure.sample/beaker/1").With(b => b["answers"]![0]!["severity"] = "notice");
        using HttpResponseMessage answer = await reviewer.PostAsJsonAsync($"{address}/decisions", body);
        Assert.Equal(["/answers/0/severity"], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest)));
    }

    [Fact]
    public async Task PostDecisions_RequestChanges_NeedsAReasonAndSendsBack()
    {
        string address = await test.SubmittedAsync("a fire warning");
        using HttpClient reviewer = test.As("fire-reviewer");
        var body = new JsonObject { ["revision"] = 1, ["decision"] = "request-changes", ["password"] = TestApp.Password };
        using HttpResponseMessage silent = await reviewer.PostAsJsonAsync($"{address}/decisions", body);
        Assert.Equal(["/reason"], Read.Paths(await Read.ProblemAsync(silent, HttpStatusCode.UnprocessableEntity)));

        body["reason"] = "use the metal block";
        using HttpResponseMessage answer = await reviewer.PostAsJsonAsync($"{address}/decisions", body);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("changes-requested", (string?)(await Read.ObjectAsync(answer))["state"]);
    }

    [Fact]
    public async Task PostDecisions_OneReviewerTwiceAtOnce_ExactlyOne200()
    {
        // Fewer than the attempts an account has before it rests: each looks at a password.
        for (int round = 0; round < 8; round++)
        {
            string address = await test.SubmittedAsync("a fire warning");
            using HttpClient reviewer = test.As("fire-reviewer");
            HttpResponseMessage[] answers = await Task.WhenAll(Enumerable.Range(0, 4)
                .Select(_ => reviewer.PostAsJsonAsync($"{address}/decisions", Approve("fire.sample/beaker/1"))));
            Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
            Assert.Equal(3, answers.Count(a => a.StatusCode == HttpStatusCode.Conflict));
        }
    }

    [Fact]
    public async Task PostDecisions_TwoReviewersAtOnce_OneApprovesOrOneSendsBack()
    {
        // Two slots, one each: the one who sends back ends the revision, and then the other comes too late.
        for (int round = 0; round < 5; round++)
        {
            string address = await test.SubmittedAsync("a pressure warning and a fire warning");
            using HttpClient one = test.As("pressure-reviewer");
            using HttpClient two = test.As("fire-reviewer");
            HttpResponseMessage[] answers = await Task.WhenAll(
                one.PostAsJsonAsync($"{address}/decisions", SendBack()),
                two.PostAsJsonAsync($"{address}/decisions", SendBack()));
            Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
            Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.Conflict));
        }
    }

    [Fact]
    public async Task PostDecisions_DeactivatedReviewer_Is401AtOnce()
    {
        await test.AddPersonAsync(test.Group, "leaver", [GroupRole.Reviewer], [Hazard.Energetic]);
        string address = await test.SubmittedAsync("an energetic warning");
        await test.DeactivateAsync("leaver");
        using HttpClient leaver = test.As("leaver");
        using HttpResponseMessage answer = await leaver.PostAsJsonAsync($"{address}/decisions", Approve("energetic.sample/beaker/1"));
        await Read.ProblemAsync(answer, HttpStatusCode.Unauthorized);
    }

    private static JsonObject Approve(params string[] findings) => new()
    {
        ["revision"] = 1,
        ["decision"] = "approve",
        ["reason"] = "",
        ["answers"] = new JsonArray([.. findings.Select(f => new JsonObject { ["finding"] = f, ["answer"] = "accept", ["text"] = "the shield is in place" })]),
        ["password"] = TestApp.Password,
    };

    private static JsonObject SendBack() => new()
    {
        ["revision"] = 1,
        ["decision"] = "request-changes",
        ["reason"] = "please use less",
        ["password"] = TestApp.Password,
    };
}
