using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Structures over the API and on the page. Formulas by hand; textbook chemistry.</summary>
public sealed class StructureTests(TestApp test)
{
    [Theory]
    [InlineData("OCC", "64-17-5", "C2H6O")]
    [InlineData("C1=CC=CC=C1C", "108-88-3", "C7H8")]
    public async Task GetStructure_AnySpellingOfAListedOne_NamesItsKey(string smiles, string key, string formula)
    {
        JsonObject structure = await StructureAsync(smiles);
        Assert.Equal((key, formula), ((string?)structure["listed"], (string?)structure["formula"]));
    }

    [Fact]
    public async Task GetStructure_Unlisted_GivesFamiliesGroupsAndEstimatesWithTheirModel()
    {
        JsonObject structure = await StructureAsync("Nc1ccc(CN=[N+]=[N-])cc1");
        Assert.Null(structure["listed"]);
        Assert.Equal("C7H8N4", (string?)structure["formula"]);
        Assert.Contains("organic azides", structure["families"]!.AsArray().Select(f => (string?)f), StringComparer.Ordinal);
        Assert.Contains("organic azide", structure["energeticGroups"]!.AsArray().Select(f => (string?)f), StringComparer.Ordinal);
        Assert.All(structure["values"]!.AsArray(), v => Assert.False(string.IsNullOrEmpty((string?)v!["model"])));
    }

    [Theory]
    [InlineData("?smiles=CC(C", "Character 3")]
    [InlineData("", "Required")]
    public async Task GetStructure_Unreadable_Is400WithTheCharacter(string query, string words)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/structures{query}");
        JsonObject problem = await Read.ProblemAsync(answer, HttpStatusCode.BadRequest);
        Assert.Equal(["?smiles"], Read.Paths(problem));
        Assert.Contains(words, problem.ToJsonString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/catalogue/structure?smiles=CC(%3DO)%5BO-%5D", "another charge form of acetic acid")]
    [InlineData("/catalogue/structure?smiles=CC(C", "Character 3: this parenthesis is never closed")]
    [InlineData("/catalogue?query=CCc1ccc(cc1)C(C)%3DO", "It can be read as a structure")]
    public async Task StructurePage_SaysWhatItIs(string address, string expected)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(address);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(expected, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    private async Task<JsonObject> StructureAsync(string smiles)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/structures?smiles={Uri.EscapeDataString(smiles)}");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await Read.ObjectAsync(answer);
    }
}
