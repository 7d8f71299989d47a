using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Web.Shared;
using PreApproval.Web.Shared.Charts;
using PreApproval.Web.Shared.Components;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>What the pages say of a flame-sealed tube, which its wall rates. By hand (EN 1595): 140 · 2/(20 − 2) = 15.6 bar, half of it where it is not stated to be annealed.</summary>
public sealed class WallRatingTests(TestApp test)
{
    [Theory]
    [InlineData("""{"kind":"flame-sealed glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":2}}""", "7.78 bar(g) by its wall of 2 mm at 20 mm (EN 1595, halved: it is not stated to be annealed)")]
    [InlineData("""{"kind":"flame-sealed glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":2,"annealed":true}}""", "15.6 bar(g) by its wall of 2 mm at 20 mm (EN 1595, annealed)")]
    [InlineData("""{"kind":"flame-sealed glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":2},"rating":{"value":20,"unit":"bar(g)"}}""", "7.78 bar(g) by its wall of 2 mm at 20 mm (EN 1595, halved: it is not stated to be annealed)")]
    [InlineData("""{"kind":"flame-sealed glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":2},"rating":{"value":5,"unit":"bar(g)"}}""", "")]
    [InlineData("""{"kind":"thick-walled glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":2}}""", "")]
    [InlineData("""{"kind":"flame-sealed glass tube","glassTube":{"outsideDiameterMm":20}}""", "")]
    [InlineData("""{"kind":"flame-sealed glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":"thick"}}""", "")]
    [InlineData("""{"kind":"flame-sealed glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":10}}""", "")]
    public void Of_AVesselAsItStands_IsTheWallOnlyWhereNothingLowerIsStated(string vessel, string expected)
    {
        WallRating? rating = WallRating.Of((JsonObject)JsonNode.Parse(vessel)!);
        Assert.Equal(expected, rating is null ? "" : $"{rating.Bar} {rating.Basis}");
    }

    [Fact]
    public void PressureCurve_OfAFlameSealedTube_HasTheRatingOfItsWall()
    {
        JsonObject document = Sealed("charted");
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(Encoding.UTF8.GetBytes(document.ToJsonString()));
        Assert.True(read.IsOk);
        PressureCurve curve = Assert.Single(PressureCurve.From(document, ScreeningView.Read(DocumentScreening.Screen(read.Value, Hazards.Screening.Policy.Default).Json)));
        Assert.Equal(7.78, curve.RatingBarGauge!.Value, 0.005);
        Assert.Contains("by its wall of 2 mm at 20 mm", curve.RatingBasis, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Explorer_OfAFlameSealedTube_NamesTheRatingOfItsWall()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage made = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Sealed("explored") });
        using Browsing browsing = await Browsing.SignInAsync(test.App, "author");
        string page = await browsing.Client.GetStringAsync(made.Headers.Location!.ToString().Replace("/api/v1", "", StringComparison.Ordinal) + "/explore?step=3");
        Assert.Contains("7.78 bar(g) by its wall of 2 mm at 20 mm", page, StringComparison.Ordinal);
        Assert.DoesNotContain("without a rating", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inventory_FlameSealedTube_IsListedWithTheRatingOfItsWall()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        (form["label"], form["kind"], form["glassTube-outsideDiameterMm"], form["glassTube-wallMm"]) = ("WALL-01", "flame-sealed glass tube", "20", "2");
        using HttpResponseMessage kept = await member.SendAsync("/inventory/vessels/new", form);
        Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
        foreach (string address in new[] { "/inventory", kept.Headers.Location!.ToString() })
        {
            string page = await member.Client.GetStringAsync(address);
            Assert.Contains("7.78 bar(g)<span class=\"sub\">by its wall of 2 mm at 20 mm (EN 1595, halved: it is not stated to be annealed)</span>", page, StringComparison.Ordinal);
        }
    }

    private static JsonObject Sealed(string title) => ClosedTube.Document(title).With(d => d["vessels"]![0] = new JsonObject
    {
        ["id"] = "tube",
        ["kind"] = "flame-sealed glass tube",
        ["volume"] = new JsonObject { ["value"] = 50, ["unit"] = "mL" },
        ["glassTube"] = new JsonObject { ["outsideDiameterMm"] = 20, ["wallMm"] = 2 },
    });
}
