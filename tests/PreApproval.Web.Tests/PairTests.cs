using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>What pairs do by general chemistry, from memory.</summary>
public sealed class PairTests(TestApp test)
{
    [Fact]
    public async Task GetPairs_HydrideWaterToluene_AnswersEveryPair()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(new Uri("/api/v1/pairs?substance=sodium%20hydride&substance=water&substance=toluene", UriKind.Relative));

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        JsonArray pairs = (await Read.ObjectAsync(answer))["pairs"]!.AsArray();
        Assert.Equal(["hazard", "none known", "none known"], pairs.Select(static pair => pair!["assessment"]!.GetValue<string>()), StringComparer.Ordinal);
        Assert.Equal("danger", pairs[0]!["severity"]!.GetValue<string>());
    }

    [Fact]
    public async Task GetPairs_UnknownName_Is422WithItsPlace()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(new Uri("/api/v1/pairs?substance=water&substance=nobody%20knows", UriKind.Relative));

        Assert.Contains("?substance/1", Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task GetPairs_OneName_Is400()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(new Uri("/api/v1/pairs?substance=water", UriKind.Relative));

        Assert.Contains("?substance", Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest)), StringComparer.Ordinal);
    }
}
