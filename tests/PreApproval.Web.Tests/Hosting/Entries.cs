using System.Net;
using System.Text.Json.Nodes;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>Entries of the inventory. Invented.</summary>
internal static class Entries
{
    public static JsonObject Vessel(string label, double bar = 10) => new()
    {
        ["label"] = label,
        ["kind"] = "thick-walled glass tube",
        ["volume"] = new JsonObject { ["value"] = 35, ["unit"] = "mL" },
        ["rating"] = new JsonObject { ["value"] = bar, ["unit"] = "bar(g)" },
        ["ratingEvidence"] = "engraved on the tube (invented)",
    };

    /// <summary>Adds an entry as <c>author</c>; its address and the answer.</summary>
    public static async Task<(string Address, JsonObject Answer)> AddEntryAsync(this TestApp test, string kind, JsonObject entry)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.SendJsonAsync(HttpMethod.Post, $"/api/v1/{kind}", entry);
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return (answer.Headers.Location!.ToString(), JsonNode.Parse(text)!.AsObject());
    }
}
