using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Web.Drafting;
using PreApproval.Web.Shared.Components;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>What messages say and what is right, in the words of the form. Common practice, no source.</summary>
public sealed class MessageTests(TestApp test)
{
    [Theory]
    [InlineData("label,rating (psig)", "for instance \"rating (bar(g))\"")]
    [InlineData("label,part 1 rating", "for instance \"part 1 rating (bar(g))\"")]
    [InlineData("label,volume", "for instance \"volume (mL)\"")]
    [InlineData("label\tkind", "apart by tabs; save the file with commas")]
    [InlineData("label;kind", "apart by semicolons; save the file with commas")]
    public void VesselTable_Header_SaysWhatWouldBeRight(string header, string expected) =>
        Assert.Contains(expected, Assert.Single(VesselTable.Read(Encoding.UTF8.GetBytes(header + "\r\n")).Error!.Faults).Message, StringComparison.Ordinal);

    [Fact]
    public void VesselTable_LineWithSeveralFaults_TellsThemAtOnce()
    {
        VesselTable table = VesselTable.Read(Encoding.UTF8.GetBytes("label,kind,volume (mL),inspected on\r\nT-1,,many,yesterday\r\n")).Value!;
        IReadOnlyList<string> paths = [.. table.Read(table.Lines[0], null).Error!.Faults.Select(static fault => fault.Path).Order(StringComparer.Ordinal)];
        Assert.Equal(["/2/inspected on", "/2/kind", "/2/volume (mL)"], paths);
    }

    [Fact]
    public async Task VesselForm_NumberThatIsNoneAndWhatElseIsWrong_AreToldAtOnce()
    {
        using Browsing browsing = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> form = await browsing.FormAsync("/inventory/vessels/new", "keep");
        (form["label"], form["kind"], form["volume"], form["rating"]) = ("M-1", "", "many", "-5");
        using HttpResponseMessage answer = await browsing.SendAsync("/inventory/vessels/new", form);
        string page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains("Inner volume: “many” is not a number; write for instance 63 or 12.5.", page, StringComparison.Ordinal);
        Assert.Contains("What it is: say what it is, for instance “round-bottom flask”.", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AgentForm_WithoutPlace_AsksToChooseOne()
    {
        using HttpClient client = test.As("author");
        (await client.PostAsJsonAsync("/api/v1/places", new JsonObject { ["name"] = "Hood of the messages", ["kind"] = "hood" })).EnsureSuccessStatusCode();
        using Browsing browsing = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> form = await browsing.FormAsync("/inventory/agents/new", "keep");
        form["agent"] = "water";
        using HttpResponseMessage answer = await browsing.SendAsync("/inventory/agents/new", form);
        Assert.Contains("Place: choose a place.", WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task PostVessels_LabelInAnotherSpelling_NamesTheVesselThatHasIt()
    {
        using HttpClient client = test.As("author");
        (await client.PostAsJsonAsync("/api/v1/vessels", Vessel("M-07"))).EnsureSuccessStatusCode();
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/vessels", Vessel("m 07"));
        Assert.Contains("M-07", (await Read.ProblemAsync(answer, HttpStatusCode.Conflict)).ToJsonString(), StringComparison.Ordinal);

        static JsonObject Vessel(string label) => new() { ["label"] = label, ["kind"] = "beaker", ["volume"] = new JsonObject { ["value"] = 100, ["unit"] = "mL" } };
    }

    [Fact]
    public void FaultWords_NumberWithAUnitThatIsNone_NamesTheUnits()
    {
        JsonObject document = JsonNode.Parse("""{ "steps": [ { "id": "1", "temperature": { "value": "212 °F", "unit": "°C" } } ] }""")!.AsObject();
        Assert.Equal(
            "“212 °F” is no number; write the number with a point, for instance 1.5, in °C, K",
            FaultWords.Message(new Fault("/steps/0/temperature/value", "must be written as a number"), document));
    }

    [Theory]
    [InlineData("cool", "tube, to 20 °C")]
    [InlineData("hold", "tube, at 20 °C")]
    public void Step_OfATemperature_SaysWhetherItIsReachedOrKept(string action, string expected) =>
        Assert.Equal(expected, DocumentText.Step(JsonNode.Parse("""{ "action": "", "vessel": "tube", "temperature": { "value": 20, "unit": "°C" } }""")!.AsObject().With(step => step["action"] = action)));

    [Fact]
    public async Task Procedure_SafeguardOfOneStepAndPlannedDay_ReadAsTheRestOfThePage()
    {
        using HttpClient client = test.As("author");
        JsonObject document = Sample.Document("one step").With(d =>
        {
            d["plannedOn"] = "2026-12-02";
            d["safeguards"] = new JsonArray(new JsonObject { ["control"] = "blast shield", ["steps"] = new JsonArray("2") });
        });
        using HttpResponseMessage created = await client.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = document });
        string address = created.Headers.Location!.ToString()["/api/v1".Length..];
        using Browsing browsing = await Browsing.SignInAsync(test.App, "author");
        string page = await browsing.Client.GetStringAsync(address + "/check");
        Assert.Contains("(step 2)", page, StringComparison.Ordinal);
        Assert.Contains("2 Dec 2026", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Review_OfARevisionThatIsNotInReview_IsNoRace()
    {
        string address = (await test.SubmittedAsync("nothing flagged"))["/api/v1".Length..];
        using Browsing browsing = await Browsing.SignInAsync(test.App, "lead");
        using HttpResponseMessage answer = await browsing.Client.GetAsync(address + "/review");
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.DoesNotContain("Somebody was faster", page, StringComparison.Ordinal);
        Assert.Contains("There is nothing to decide here", page, StringComparison.Ordinal);
    }
}
