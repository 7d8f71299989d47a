using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Comparisons;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class ComparisonTests(TestApp test)
{
    [Fact]
    public async Task PostComparisons_SameDocument_HasNoChanges()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/comparisons", new JsonObject { ["before"] = Sample.Document("one"), ["after"] = Sample.Document("two") });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        JsonObject same = await Read.ObjectAsync(answer);
        Assert.Empty(same["changes"]!.AsArray());
        Assert.False(same.ContainsKey("plan"));
    }

    [Fact]
    public async Task PostComparisons_OtherAmount_IsToldThoughNoHazardDiffers()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/comparisons", new JsonObject { ["before"] = Sample.Document("one"), ["after"] = Sample.Document("two").With(d => d["materials"]![1]!["amount"]!["value"] = 6) });
        JsonNode line = Assert.Single((await Read.ObjectAsync(answer))["plan"]!.AsArray())!;
        Assert.Equal("""{"after":"6 g","before":"5 g","effect":"changed","name":"salt","nameBefore":null,"part":"material","what":"amount"}""", line.ToJsonString());
    }

    [Fact]
    public async Task PostComparisons_FaultInOneDocument_Is422WithItsPlace()
    {
        using HttpClient author = test.As("author");
        JsonObject unfinished = Sample.Document("unfinished").With(d => d.Remove("steps"));
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/comparisons", new JsonObject { ["before"] = Sample.Document("one"), ["after"] = unfinished });
        Assert.Contains(Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)), p => p.StartsWith("/after/steps", StringComparison.Ordinal));
    }

    /// <summary>A report without findings stands for a fault of the engine: the explorer compares in the background, where an exception ends the page.</summary>
    [Fact]
    public void Between_FaultOfTheEngine_IsSaidAndHandedOn()
    {
        ProcedureDocument document = DocumentReader.Read(Encoding.UTF8.GetBytes(ClosedTube.Document("explored").ToJsonString())).Value!;
        var good = new Report { Verdict = Verdict.Clear, Findings = [], Timeline = [], Coverage = [] };
        List<Exception> faults = [];
        Assert.Empty(HazardComparison.Between(document, good, document, good, Policy.Default, faults.Add).Changes!);
        Assert.Empty(faults);
        Assert.Equal(HazardComparison.Failed, HazardComparison.Between(document, good, document, good with { Findings = null! }, Policy.Default, faults.Add));
        Assert.Single(faults);
    }
}
