using System.Net;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Procedures that name what the inventory has. All of it is invented.</summary>
public sealed class InventorySubmissionTests(TestApp test)
{
    [Fact]
    public async Task Submission_NamingVesselAndPlace_CopiesThemAndKeepsTheCopyWhenTheInventoryChanges()
    {
        (string vessel, _) = await test.AddEntryAsync("vessels", Entries.Vessel("W-sub").With(v => v["inspectedOn"] = "2024-02-10"));
        (_, JsonObject place) = await test.AddEntryAsync("places", new JsonObject { ["name"] = "W hood", ["kind"] = "hood", ["airFlow"] = new JsonObject { ["value"] = 700, ["unit"] = "m³/h" } });
        await test.AddEntryAsync("agents", new JsonObject { ["place"] = (string)place["id"]!, ["agent"] = "dry powder" });
        using HttpClient author = test.As("author");
        string procedure = await DraftAsync(author, "W-sub", d => (d["place"], d["plannedOn"]) = (new JsonObject { ["name"] = "w-Hood" }, "2024-05-28"));
        using HttpResponseMessage submitted = await author.PostAsync($"{procedure}/submissions", content: null);
        Assert.Equal(HttpStatusCode.Created, submitted.StatusCode);
        using HttpResponseMessage changed = await author.SendJsonAsync(HttpMethod.Put, vessel, Entries.Vessel("W-sub", bar: 2), "\"1\"");
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);

        using HttpResponseMessage kept = await author.GetAsync($"{procedure}/revisions/1/document");
        JsonObject document = await Read.ObjectAsync(kept);
        Assert.Equal((10.0, "2024-02-10"), ((double)document["vessels"]![0]!["rating"]!["value"]!, (string)document["vessels"]![0]!["inspectedOn"]!));
        Assert.StartsWith("the group's inventory, W-sub, version 1 by Invented author: ", (string)document["vessels"]![0]!["ratingEvidence"]!, StringComparison.Ordinal);
        Assert.Equal(("hood", 700.0), ((string)document["place"]!["kind"]!, (double)document["place"]!["airFlow"]!["value"]!));
        Assert.Equal("dry powder", (string?)document["fireResponse"]!["agents"]![0]);

        // The draft stays as typed.
        using HttpResponseMessage draft = await author.GetAsync($"{procedure}/draft");
        Assert.Null((await Read.ObjectAsync(draft))["document"]!["vessels"]![0]!["rating"]);
    }

    [Fact]
    public async Task Submission_VesselOutOfServiceOrContradicted_IsRefusedWithItsPath()
    {
        await test.AddEntryAsync("vessels", Entries.Vessel("W-out").With(v => v["outOfService"] = "a star crack"));
        await test.AddEntryAsync("vessels", Entries.Vessel("W-less"));
        using HttpClient author = test.As("author");
        string broken = await DraftAsync(author, "W-out", _ => { });
        using HttpResponseMessage refused = await author.PostAsync($"{broken}/submissions", content: null);
        JsonObject problem = await Read.ProblemAsync(refused, HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["/vessels/0"], Read.Paths(problem));
        Assert.Contains("a star crack", problem.ToJsonString(), StringComparison.Ordinal);
        string more = await DraftAsync(author, "W-less", d => d["vessels"]![0]!["rating"] = new JsonObject { ["value"] = 20, ["unit"] = "bar(g)" });
        using HttpResponseMessage contradicted = await author.PostAsync($"{more}/submissions", content: null);
        Assert.Equal(["/vessels/0/rating"], Read.Paths(await Read.ProblemAsync(contradicted, HttpStatusCode.UnprocessableEntity)));
    }

    /// <summary>A draft whose only vessel is the tube of that label; its address.</summary>
    private static async Task<string> DraftAsync(HttpClient author, string label, Action<JsonObject> change)
    {
        JsonObject document = Sample.Document("uses " + label).With(d =>
        {
            d["vessels"] = new JsonArray(new JsonObject { ["id"] = label, ["kind"] = "thick-walled glass tube" });
            d["steps"] = new JsonArray(new JsonObject { ["id"] = "1", ["action"] = "charge", ["vessel"] = label, ["materials"] = new JsonArray("water", "salt") });
        }).With(change);
        using HttpResponseMessage created = await author.SendJsonAsync(HttpMethod.Post, "/api/v1/procedures", new JsonObject { ["document"] = document });
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        return created.Headers.Location!.ToString();
    }
}
