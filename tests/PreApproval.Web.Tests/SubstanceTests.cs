using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Search and reading.</summary>
public sealed class SubstanceTests(TestApp test)
{
    [Theory]
    [InlineData("108-88-3", "toluene")]
    [InlineData("tolu", "toluene")]
    [InlineData("PhMe", "toluene")]
    [InlineData("DIETHYL-ETHER", "diethyl ether")]
    public async Task GetSubstances_NumberBeginningSynonymOrSpelling_PutsTheSubstanceFirst(string query, string name)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances?query={Uri.EscapeDataString(query)}");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(name, (string?)(await Read.ObjectAsync(answer))["items"]![0]!["name"]);
    }

    [Fact]
    public async Task GetSubstances_Order_IsExactThenBeginningThenWordInside()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances?query=acetone&limit=50");
        string[] names = [.. (await Read.ObjectAsync(answer))["items"]!.AsArray().Select(i => (string)i!["name"]!)];
        Assert.Equal("acetone", names[0]);
        int inside = Array.FindIndex(names, n => !n.StartsWith("acetone", StringComparison.Ordinal));
        Assert.All(names.Skip(inside < 0 ? names.Length : inside), n => Assert.False(n.StartsWith("acetone", StringComparison.Ordinal), n));
    }

    [Theory]
    [InlineData("", "?query")]
    [InlineData("query=%20", "?query")]
    [InlineData("query=a&limit=0", "?limit")]
    [InlineData("query=a&limit=51", "?limit")]
    public async Task GetSubstances_BadQuery_Is400WithTheParameter(string query, string path)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances?{query}");
        Assert.Equal([path], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest)));
    }

    [Fact]
    public async Task GetSubstance_Toluene_GivesValuesWithQualityAndSourceTheGoverningFirst()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances/108-88-3");
        JsonObject toluene = await Read.ObjectAsync(answer);
        Assert.Equal("C7H8", (string?)toluene["identity"]!["formula"]);
        JsonNode boiling = toluene["values"]!.AsArray().Single(v => (string?)v!["name"] is "boiling point")!;

        // CRC Handbook of Chemistry and Physics, 95th ed., section 3: toluene, 110.63 °C.
        Assert.Equal(110.6, (double)boiling["value"]!, 0.2);
        JsonArray flash = toluene["values"]!.AsArray().Single(v => (string?)v!["name"] is "flash point")!["published"]!.AsArray();
        Assert.True((bool)flash[0]!["governs"]!);
        Assert.Equal(flash.Min(p => (double)p!["value"]!), (double)flash[0]!["value"]!);
        Assert.All(toluene["values"]!.AsArray().SelectMany(v => v!["published"]!.AsArray()), p => Assert.NotEmpty(p!["source"]!.AsArray()));
        Assert.All(toluene["correlations"]!.AsArray(), c => Assert.True((double)c!["fromC"]! < (double)c["toC"]!));
        Assert.Contains(toluene["vapourPressure"]!.AsArray(), p => (string?)p!["mark"] is "critical point");
    }

    [Theory]
    [InlineData("conc HCl", "7647-01-0")]
    [InlineData("hydrochloric acid", "7647-01-0")]
    [InlineData("bleach", "7782-50-5")]
    [InlineData("formalin", "50-00-0")]
    public async Task GetSubstances_NameOfASolution_PutsItFirstAndNeverFindsTheGas(string query, string gas)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances?query={Uri.EscapeDataString(query)}&limit=50");
        JsonArray items = (await Read.ObjectAsync(answer))["items"]!.AsArray();
        Assert.NotNull(items[0]!["solution"]);
        Assert.DoesNotContain(items, i => string.Equals((string?)i!["key"], gas, StringComparison.Ordinal));
        using HttpResponseMessage card = await author.GetAsync($"/api/v1/substances/{Uri.EscapeDataString((string)items[0]!["key"]!)}");
        Assert.Equal((string?)items[0]!["name"], (string?)(await Read.ObjectAsync(card))["identity"]!["name"]);
    }

    [Fact]
    public async Task GetSubstance_HydrochloricAcid37Percent_GivesPartsDensityAndPartialPressures()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances/{Uri.EscapeDataString("hydrochloric acid, 37 %")}");
        JsonNode acid = (await Read.ObjectAsync(answer))["solution"]!;
        Assert.Equal("7647-01-0 7732-18-5", string.Join(' ', acid["parts"]!.AsArray().Select(p => (string?)p!["key"])));

        // From memory: concentrated hydrochloric acid has 1.18 to 1.19 g/mL and 12 mol/L.
        Assert.Equal(1185, (double)acid["densityKgPerM3"]!, 10.0);
        Assert.Equal(12, (double)acid["soluteMolPerL"]!, 0.2);
        double[] pressures = [.. acid["partialPressures"]!.AsArray().Select(p => (double)p!["soluteBar"]!)];
        Assert.Equal(pressures.Order(), pressures);

        // 42 bar is the vapour pressure of the pure gas at 20 °C.
        Assert.InRange((double)acid["partialPressures"]!.AsArray().Single(p => (double)p!["temperatureC"]! == 20)!["soluteBar"]!, 0.05, 1);
    }

    [Theory]
    [InlineData("/catalogue/hydrochloric%20acid%2C%2037%20%25", "Partial pressures")]
    [InlineData("/catalogue?query=bleach", "solution: ")]
    public async Task CataloguePage_Solution_IsShown(string address, string expected)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(address);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(expected, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task GetSubstance_Benzene_CarriesHealthValuesWithTheirOrigin()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances/71-43-2");
        JsonNode health = (await Read.ObjectAsync(answer))["health"]!;
        Assert.Contains(health["hazardStatements"]!["items"]!.AsArray(), s => (string?)s!["code"] is "H350");
        Assert.All(health["exposureLimits"]!.AsArray(), l => Assert.False(string.IsNullOrEmpty((string?)l!["jurisdiction"])));

        // IARC Monographs: benzene is in group 1. NIOSH: immediately dangerous at 500 ppm.
        Assert.Equal("1", (string?)health["carcinogen"]!["group"]);
        Assert.Equal(500, (double)health["idlh"]!["ppm"]!);
    }

    [Fact]
    public async Task GetSubstance_AgainWithItsTag_Is304()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage first = await author.GetAsync("/api/v1/substances/67-64-1");
        Assert.Equal("no-cache, private", string.Join(", ", first.Headers.CacheControl!.ToString().Split(", ").Order(StringComparer.Ordinal)));
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/v1/substances/67-64-1");
        request.Headers.IfNoneMatch.Add(first.Headers.ETag!);
        using HttpResponseMessage again = await author.SendAsync(request);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Empty(await again.Content.ReadAsByteArrayAsync());
    }

    [Fact]
    public async Task GetSubstance_NobodyKnowsIt_Is404()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances/no-such-substance");
        await Read.ProblemAsync(answer, HttpStatusCode.NotFound);
    }
}
