using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Web.Drafting.Editing;
using PreApproval.Web.Shared.Components;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Relief device and glass wall of vessels of the inventory, from form, API and file to the pages. All vessels are invented.</summary>
public sealed class InventoryFittingsTests(TestApp test)
{
    [Fact]
    public async Task Form_ReliefAndGlassWall_AreKeptShownAndChanged()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        (form["label"], form["kind"]) = ("F-kept", "thick-walled glass tube");
        (form["relief-device"], form["relief-set"], form["relief-set-unit"]) = ("bursting disc", "3,5", "bar(g)");
        (form["glassTube-outsideDiameterMm"], form["glassTube-wallMm"], form["glassTube-annealed"]) = ("25.4", "3 mm", "no");
        using HttpResponseMessage kept = await member.SendAsync("/inventory/vessels/new", form);
        Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
        string address = kept.Headers.Location!.ToString();
        string page = await PageAsync(member, address);
        Assert.Contains("<dt>Relief device</dt><dd>bursting disc, opens at 3.5 bar(g)</dd>", page, StringComparison.Ordinal);
        Assert.Contains("<dt>Glass tube</dt><dd>25.4 mm outside, wall 3 mm, not annealed</dd>", page, StringComparison.Ordinal);

        string edit = await PageAsync(member, address + "/edit");
        Assert.Contains("<option value=\"bursting disc\" selected", edit, StringComparison.Ordinal);
        Assert.Contains("<option value=\"no\" selected", edit, StringComparison.Ordinal);
        Assert.Contains("name=\"glassTube-wallMm\" type=\"text\" value=\"3\"", edit, StringComparison.Ordinal);
        Assert.Contains("name=\"relief-set\" value=\"3.5\"", edit, StringComparison.Ordinal);

        Dictionary<string, string> change = Browsing.HiddenOf(edit, "keep");
        (change["label"], change["kind"]) = ("F-kept", "thick-walled glass tube");
        (change["glassTube-outsideDiameterMm"], change["glassTube-wallMm"], change["glassTube-annealed"]) = ("25.4", "2.8", "");
        using HttpResponseMessage changed = await member.SendAsync(address + "/edit", change);
        Assert.Equal(HttpStatusCode.Redirect, changed.StatusCode);
        page = await PageAsync(member, address);
        Assert.DoesNotContain("<dt>Relief device</dt>", page, StringComparison.Ordinal);
        Assert.Contains("25.4 mm outside, wall 2.8 mm, not known to be annealed", page, StringComparison.Ordinal);
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "fire-reviewer");
        string history = await PageAsync(reviewer, "/history?text=F-kept");
        Assert.Contains("relief device bursting disc → (none), relief set 3.5 bar(g) → (none), wall 3 mm → 2.8 mm, annealed no → (none)", history, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("relief-device=valve", "relief-set", "Opens at: give the pressure at which it opens.")]
    [InlineData("relief-set=5", "relief-device", "Relief device: choose valve or bursting disc, or leave open where it opens.")]
    [InlineData("relief-device=valve&relief-set=five", "relief-set", "Opens at: “five” is not a number; write for instance 63 or 12.5.")]
    [InlineData("relief-device=valve&relief-set=0.5&relief-set-unit=bar", "relief-set", "below the atmosphere")]
    [InlineData("glassTube-outsideDiameterMm=20", "glassTube-wallMm", "Glass tube: wall, mm: give the thickness of the wall in mm.")]
    [InlineData("glassTube-wallMm=2", "glassTube-outsideDiameterMm", "Glass tube: outside diameter, mm: give the outside diameter in mm.")]
    [InlineData("glassTube-outsideDiameterMm=20&glassTube-wallMm=10", "glassTube-wallMm", "Glass tube: wall, mm: must be above 0 and below half the outside diameter.")]
    [InlineData("glassTube-outsideDiameterMm=20&glassTube-wallMm=thick", "glassTube-wallMm", "Glass tube: wall, mm: “thick” is not a number")]
    [InlineData("glassTube-annealed=yes", "glassTube-outsideDiameterMm", "Glass tube: outside diameter, mm: give the outside diameter in mm.")]
    [InlineData("glassTube-outsideDiameterMm=20&glassTube-wallMm=2&glassTube-annealed=perhaps", "glassTube-annealed", "Glass tube: annealed: choose yes or no, or leave it open where it is not known.")]
    public async Task Form_HalfFilledOrImpossible_IsToldAtItsFieldAndNothingTypedIsLost(string typed, string field, string words)
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        Dictionary<string, string> form = await member.FormAsync("/inventory/vessels/new", "keep");
        (form["label"], form["kind"]) = ("F-fault", "thick-walled glass tube");
        foreach (string[] pair in typed.Split('&').Select(static pair => pair.Split('=')))
        {
            form[pair[0]] = pair[1];
        }

        using HttpResponseMessage answer = await member.SendAsync("/inventory/vessels/new", form);
        string page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(words, page, StringComparison.Ordinal);
        Assert.Contains($"#{field}\"", page, StringComparison.Ordinal);
        Assert.Contains($"id=\"{field}-fault\"", page, StringComparison.Ordinal);
        Assert.All(typed.Split('&').Select(static pair => pair.Split('=')[1]).Where(static value => value is not "perhaps"), value => Assert.Matches($"value=\"{value}\"( selected)?", page));
    }

    [Fact]
    public async Task Post_ReliefAndGlassWall_AreKeptAndCopiedIntoAProcedureThatNamesTheVessel()
    {
        JsonObject relief = new() { ["device"] = "valve", ["set"] = new JsonObject { ["value"] = 8, ["unit"] = "bar(g)" } };
        JsonObject tube = new() { ["outsideDiameterMm"] = 20, ["wallMm"] = 2.5, ["annealed"] = true };
        (string address, _) = await test.AddEntryAsync("vessels", Entries.Vessel("F-api").With(v => (v["relief"], v["glassTube"]) = (relief, tube)));
        using HttpClient author = test.As("author");
        using HttpResponseMessage read = await author.GetAsync(address);
        JsonNode entry = (await Read.ObjectAsync(read))["entry"]!;
        Assert.True(JsonNode.DeepEquals(relief, entry["relief"]) && JsonNode.DeepEquals(tube, entry["glassTube"]), entry.ToJsonString());

        string procedure = await DraftAsync(author, "F-api", null);
        using HttpResponseMessage submitted = await author.PostAsync($"{procedure}/submissions", content: null);
        Assert.Equal(HttpStatusCode.Created, submitted.StatusCode);
        using HttpResponseMessage kept = await author.GetAsync($"{procedure}/revisions/1/document");
        JsonNode vessel = (await Read.ObjectAsync(kept))["vessels"]![0]!;
        Assert.True(JsonNode.DeepEquals(relief, vessel["relief"]) && JsonNode.DeepEquals(tube, vessel["glassTube"]), vessel.ToJsonString());

        string other = await DraftAsync(author, "F-api", new JsonObject { ["outsideDiameterMm"] = 20, ["wallMm"] = 4 });
        using HttpResponseMessage contradicted = await author.PostAsync($"{other}/submissions", content: null);
        Assert.Equal(["/vessels/0/glassTube/wallMm"], Read.Paths(await Read.ProblemAsync(contradicted, HttpStatusCode.UnprocessableEntity)));
    }

    [Theory]
    [InlineData("""{ "glassTube": { "outsideDiameterMm": 20, "wallMm": 12 } }""", "/glassTube/wallMm")]
    [InlineData("""{ "relief": { "device": "tap", "set": { "value": 8, "unit": "bar(g)" } } }""", "/relief/device")]
    [InlineData("""{ "relief": { "device": "valve" } }""", "/relief/set")]
    public async Task Post_ImpossibleFitting_IsRefusedWithItsPath(string members, string path)
    {
        using HttpClient author = test.As("author");
        JsonObject vessel = Entries.Vessel("F-bad");
        foreach ((string name, JsonNode? value) in JsonNode.Parse(members)!.AsObject())
        {
            vessel[name] = value!.DeepClone();
        }

        using HttpResponseMessage answer = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/vessels", vessel);
        Assert.Equal([path], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)));
    }

    [Fact]
    public async Task OpenApi_Vessel_HasBothMembers()
    {
        using HttpClient client = test.App.CreateClient();
        JsonNode call = JsonNode.Parse(await client.GetStringAsync("/openapi/v1.json"))!["paths"]!["/api/v1/vessels"]!["post"]!;
        JsonNode members = call["requestBody"]!["content"]!["application/json"]!["schema"]!["properties"]!;
        Assert.Equal("valve, bursting disc", string.Join(", ", members["relief"]!["properties"]!["device"]!["enum"]!.AsArray().Select(word => (string)word!)));
        Assert.Equal("outsideDiameterMm, wallMm, annealed", string.Join(", ", members["glassTube"]!["properties"]!.AsObject().Select(static member => member.Key)));
    }

    /// <summary>The button of the editor takes what the inventory has, and takes away what it has not.</summary>
    [Fact]
    public void Filling_OfTheEditor_ReplacesBothMembers()
    {
        var entry = new VesselEntry { Id = "F-1", Kind = "glass tube", GlassTube = new GlassTubeEntry(20, 2.5, true) };
        EditedDocument document = EditedDocument.Read(Encoding.UTF8.GetBytes("""{ "vessels": [ { "id": "f 1", "kind": "glass tube", "relief": { "device": "valve", "set": { "value": 8, "unit": "bar(g)" } }, "glassTube": { "outsideDiameterMm": 19, "wallMm": 1 } } ] }"""));
        InventoryFilling.Vessel(document, new ListedVessel(Guid.Empty, 1, "Somebody", null, new InventoryVessel { Vessel = entry }));
        JsonObject vessel = Assert.Single(DocumentText.Rows(document.Root, "vessels"));
        Assert.Equal("""{"id":"f 1","kind":"glass tube","glassTube":{"outsideDiameterMm":20,"wallMm":2.5,"annealed":true}}""", vessel.ToJsonString());
    }

    [Theory]
    [InlineData("""{ "outsideDiameterMm": 20, "wallMm": 2.5, "annealed": true }""", "glass 20 mm outside, wall 2.5 mm, annealed")]
    [InlineData("""{ "outsideDiameterMm": 20, "wallMm": 2.5, "annealed": false }""", "glass 20 mm outside, wall 2.5 mm, not annealed")]
    [InlineData("""{ "outsideDiameterMm": 20, "wallMm": 2.5 }""", "glass 20 mm outside, wall 2.5 mm, not known to be annealed")]
    public void GlassTube_InWords_SaysWhetherItIsAnnealed(string tube, string words) => Assert.Equal(words, DocumentText.GlassTube(JsonNode.Parse(tube)));

    private static async Task<string> PageAsync(Browsing member, string address) => WebUtility.HtmlDecode(await member.Client.GetStringAsync(address));

    /// <summary>A draft whose only vessel is the tube of that label; its address.</summary>
    private static async Task<string> DraftAsync(HttpClient author, string label, JsonObject? glassTube)
    {
        JsonObject document = Sample.Document("uses " + label).With(d =>
        {
            var vessel = new JsonObject { ["id"] = label, ["kind"] = "thick-walled glass tube" };
            if (glassTube is not null)
            {
                vessel["glassTube"] = glassTube;
            }

            d["vessels"] = new JsonArray(vessel);
            d["steps"] = new JsonArray(new JsonObject { ["id"] = "1", ["action"] = "charge", ["vessel"] = label, ["materials"] = new JsonArray("water", "salt") });
        });
        using HttpResponseMessage created = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/procedures", new JsonObject { ["document"] = document });
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        return created.Headers.Location!.ToString();
    }
}
