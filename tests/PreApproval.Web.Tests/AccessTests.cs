using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Every endpoint of the API with everybody the rules distinguish.</summary>
public sealed class AccessTests(TestApp test)
{
    private static readonly string[] People = ["nobody", "author", "member", "pressure-reviewer", "fire-reviewer", "lead", "administrator", "auditor", "foreign-lead"];

    /// <summary>
    /// What each person gets, in the order of <see cref="People"/>, on a procedure of <c>author</c> whose revision 1 has a pressure danger and waits
    /// for <c>pressure-reviewer</c>. 404 to the foreign lead: what belongs to another group is not there.
    /// </summary>
    private static readonly Dictionary<string, int[]> Expected = new(StringComparer.Ordinal)
    {
        ["POST /api/v1/tokens"] = [422, 422, 422, 422, 422, 422, 422, 422, 422],
        ["GET /api/v1/tokens"] = [401, 200, 200, 200, 200, 200, 200, 200, 200],
        ["DELETE /api/v1/tokens/current"] = [401, 204, 204, 204, 204, 204, 204, 204, 204],
        ["DELETE /api/v1/tokens/{id}"] = [401, 404, 404, 404, 404, 404, 404, 404, 404],
        ["GET /api/v1/members"] = [401, 200, 200, 200, 200, 200, 200, 200, 200],
        ["GET /api/v1/substances"] = [401, 200, 200, 200, 200, 200, 200, 200, 200],
        ["GET /api/v1/substances/{key}"] = [401, 200, 200, 200, 200, 200, 200, 200, 200],
        ["GET /api/v1/own-substances"] = [401, 200, 200, 200, 200, 200, 403, 200, 200],
        ["POST /api/v1/substances"] = [401, 403, 403, 422, 422, 422, 403, 403, 422],
        ["PUT /api/v1/substances/{id}"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["POST /api/v1/substances/{id}/retirement"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["GET /api/v1/substances/{id}/versions"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["POST /api/v1/screenings"] = [401, 400, 400, 400, 400, 400, 400, 400, 400],
        ["POST /api/v1/comparisons"] = [401, 422, 422, 422, 422, 422, 422, 422, 422],
        ["POST /api/v1/procedures"] = [401, 422, 422, 422, 422, 422, 422, 422, 422],
        ["GET /api/v1/procedures"] = [401, 200, 200, 200, 200, 200, 403, 200, 200],
        ["GET /api/v1/procedures/{id}"] = [401, 200, 200, 200, 200, 200, 403, 200, 404],
        ["GET /api/v1/procedures/{id}/draft"] = [401, 200, 403, 403, 403, 403, 403, 403, 404],
        ["PUT /api/v1/procedures/{id}/draft"] = [401, 428, 403, 403, 403, 403, 403, 403, 404],
        ["POST /api/v1/procedures/{id}/submissions"] = [401, 409, 403, 403, 403, 403, 403, 403, 404],
        ["POST /api/v1/procedures/{id}/withdrawal"] = [401, 409, 403, 403, 403, 403, 403, 403, 404],
        ["GET /api/v1/procedures/{id}/revisions/{number}"] = [401, 200, 200, 200, 200, 200, 403, 200, 404],
        ["GET /api/v1/procedures/{id}/revisions/{number}/document"] = [401, 200, 200, 200, 200, 200, 403, 200, 404],
        ["GET /api/v1/procedures/{id}/revisions/{number}/screening"] = [401, 200, 200, 200, 200, 200, 403, 200, 404],
        ["POST /api/v1/procedures/{id}/decisions"] = [401, 403, 403, 409, 409, 409, 403, 403, 404],
        ["GET /api/v1/policy"] = [401, 200, 200, 200, 200, 200, 200, 200, 200],
        ["PUT /api/v1/policy"] = [401, 403, 403, 403, 403, 428, 403, 403, 428],
        ["GET /api/v1/policy/versions"] = [401, 200, 200, 200, 200, 200, 200, 200, 200],
        ["GET /api/v1/structures"] = [401, 400, 400, 400, 400, 400, 400, 400, 400],
        ["GET /api/v1/pairs"] = [401, 400, 400, 400, 400, 400, 400, 400, 400],
        ["GET /api/v1/vessels"] = [401, 200, 200, 200, 200, 200, 403, 200, 200],
        ["POST /api/v1/vessels"] = [401, 422, 422, 422, 422, 422, 403, 403, 422],
        ["GET /api/v1/vessels/{id}"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["PUT /api/v1/vessels/{id}"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["POST /api/v1/vessels/{id}/retirement"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["GET /api/v1/vessels/{id}/versions"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["GET /api/v1/places"] = [401, 200, 200, 200, 200, 200, 403, 200, 200],
        ["POST /api/v1/places"] = [401, 422, 422, 422, 422, 422, 403, 403, 422],
        ["GET /api/v1/places/{id}"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["PUT /api/v1/places/{id}"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["POST /api/v1/places/{id}/retirement"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["GET /api/v1/places/{id}/versions"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["GET /api/v1/agents"] = [401, 200, 200, 200, 200, 200, 403, 200, 200],
        ["POST /api/v1/agents"] = [401, 422, 422, 422, 422, 422, 403, 403, 422],
        ["GET /api/v1/agents/{id}"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["PUT /api/v1/agents/{id}"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["POST /api/v1/agents/{id}/retirement"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["GET /api/v1/agents/{id}/versions"] = [401, 404, 404, 404, 404, 404, 403, 404, 404],
        ["GET /api/v1/vessels/export"] = [401, 200, 200, 200, 200, 200, 403, 200, 200],
        ["POST /api/v1/vessels/import"] = [401, 422, 422, 422, 422, 422, 403, 403, 422],
        ["GET /api/v1/history"] = [401, 200, 200, 200, 200, 200, 200, 200, 200],
    };

    [Fact]
    public async Task EveryEndpoint_EveryPerson_GetsWhatTheRulesSay()
    {
        Assert.Equal(Expected.Keys.Order(StringComparer.Ordinal), Endpoints().Order(StringComparer.Ordinal));

        // A revision that is not in review any more: an allowed decision or withdrawal shows as 409 and changes nothing for the next person.
        string address = await test.SubmittedAsync("a pressure danger");
        string body = await RequestChangesAsync(address);
        List<string> wrong = [];
        foreach ((string endpoint, int[] statuses) in Expected)
        {
            for (int i = 0; i < People.Length; i++)
            {
                using HttpClient client = i > 0 && endpoint.EndsWith("/current", StringComparison.Ordinal) ? await test.AsWithANewTokenAsync(People[i]) : test.As(i == 0 ? null : People[i]);
                using HttpRequestMessage request = Request(endpoint, address, body);
                using HttpResponseMessage answer = await client.SendAsync(request);
                if ((int)answer.StatusCode != statuses[i])
                {
                    wrong.Add($"{endpoint} as {People[i]}: {(int)answer.StatusCode} instead of {statuses[i]}");
                }
            }
        }

        Assert.Empty(wrong);
    }

    [Fact]
    public async Task ForeignObject_AnswersExactlyAsOneThatIsNotThere()
    {
        string address = await test.SubmittedAsync("seen by nobody else");
        using HttpClient foreign = test.As("foreign-lead");
        foreach (string suffix in new[] { "", "/draft", "/revisions/1", "/revisions/1/document", "/revisions/1/screening" })
        {
            using HttpResponseMessage there = await foreign.GetAsync(address + suffix);
            using HttpResponseMessage nowhere = await foreign.GetAsync($"/api/v1/procedures/{Guid.CreateVersion7()}{suffix}");
            JsonObject one = await Read.ProblemAsync(there, HttpStatusCode.NotFound);
            JsonObject two = await Read.ProblemAsync(nowhere, HttpStatusCode.NotFound);
            one.Remove("requestId");
            two.Remove("requestId");
            Assert.Equal(two.ToJsonString(), one.ToJsonString());
        }
    }

    [Fact]
    public async Task DraftOfSomebodyElse_IsNotThere()
    {
        string address = await test.DraftAsync("only mine");
        foreach (string person in new[] { "member", "pressure-reviewer", "lead" })
        {
            using HttpClient client = test.As(person);
            using HttpResponseMessage read = await client.GetAsync(address);
            await Read.ProblemAsync(read, HttpStatusCode.NotFound);
            using HttpResponseMessage list = await client.GetAsync("/api/v1/procedures?state=draft&limit=200");
            Assert.DoesNotContain(address[(address.LastIndexOf('/') + 1)..], await list.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("/api/v1/procedures?group=")]
    [InlineData("/api/v1/history?group=")]
    [InlineData("/api/v1/members?group=")]
    public async Task ForeignGroupNamed_Is404(string address)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(address + test.OtherGroup);
        await Read.ProblemAsync(answer, HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task PostProcedures_ForeignGroup_Is404AndNothingStored()
    {
        string before = await test.RowsAsync();
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/procedures",
            new JsonObject { ["group"] = test.OtherGroup.ToString(), ["document"] = Sample.Document("elsewhere") });
        await Read.ProblemAsync(answer, HttpStatusCode.NotFound);
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task GetHistory_OfTheGroup_HasEventsOfNoOtherGroup()
    {
        string address = await test.SubmittedAsync("a secret of group one");
        using HttpClient foreign = test.As("foreign-lead");
        string text = await foreign.GetStringAsync("/api/v1/history?limit=200");
        Assert.DoesNotContain(address[(address.LastIndexOf('/') + 1)..], text, StringComparison.Ordinal);
        using HttpClient lead = test.As("lead");
        Assert.Contains(address[(address.LastIndexOf('/') + 1)..], await lead.GetStringAsync("/api/v1/history?limit=200"), StringComparison.Ordinal);
    }

    private async Task<string> RequestChangesAsync(string address)
    {
        var decision = new JsonObject { ["revision"] = 1, ["decision"] = "request-changes", ["reason"] = "smaller, please", ["password"] = TestApp.Password };
        using HttpClient reviewer = test.As("pressure-reviewer");
        using HttpResponseMessage answer = await reviewer.PostAsJsonAsync($"{address}/decisions", decision);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return decision.ToJsonString();
    }

    private static HttpRequestMessage Request(string endpoint, string address, string decision)
    {
        string[] parts = endpoint.Split(' ');
        string path = parts[1].Replace("/api/v1/procedures/{id}", address, StringComparison.Ordinal).Replace("{number}", "1", StringComparison.Ordinal)
            .Replace("{id}", "0198c0de-0000-7000-8000-000000000000", StringComparison.Ordinal).Replace("{key}", "108-88-3", StringComparison.Ordinal);
        if (path.EndsWith("/substances", StringComparison.Ordinal))
        {
            path += "?q=water";
        }

        var request = new HttpRequestMessage(new HttpMethod(parts[0]), path);
        if (parts[0] is not "GET" && !path.EndsWith("/submissions", StringComparison.Ordinal))
        {
            string body = path.EndsWith("/decisions", StringComparison.Ordinal) ? decision
                : path.EndsWith("/withdrawal", StringComparison.Ordinal) ? """{ "revision": 1, "reason": "no" }"""
                : path.EndsWith("/screenings", StringComparison.Ordinal) ? """{ "unknown": 1 }""" : "{}";
            request.Content = path.EndsWith("/import", StringComparison.Ordinal)
                ? new StringContent("no such column\n", System.Text.Encoding.UTF8, "text/csv")
                : new StringContent(body, System.Text.Encoding.UTF8, "application/json");
        }

        return request;
    }

    /// <summary>Method and address of every endpoint under /api, as mapped.</summary>
    private IEnumerable<string> Endpoints() => test.App.Services.GetServices<EndpointDataSource>()
        .SelectMany(s => s.Endpoints).OfType<RouteEndpoint>().Distinct()
        .Where(e => e.RoutePattern.RawText?.StartsWith("/api/", StringComparison.Ordinal) == true)
        .SelectMany(e => e.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods
            .Select(m => $"{m} {System.Text.RegularExpressions.Regex.Replace(e.RoutePattern.RawText!, ":[^}]+}", "}", System.Text.RegularExpressions.RegexOptions.NonBacktracking)}"));
}
