using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents.Policies;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>Reads and sets a group's thresholds.</summary>
internal static class Policies
{
    public const string Address = "/api/v1/policy";

    public static JsonObject Body(Policy policy, string reason = "A test.") => new() { ["policy"] = PolicyWriter.ToJson(policy), ["reason"] = reason };

    public static Task<HttpResponseMessage> PutAsync(HttpClient client, JsonObject body, string? tag, string query = "", string? key = null) =>
        client.SendJsonAsync(HttpMethod.Put, Address + query, body, tag, key);

    public static async Task<(Policy Policy, string Tag)> NowAsync(HttpClient client)
    {
        using HttpResponseMessage answer = await client.GetAsync(Address);
        JsonObject read = await Read.ObjectAsync(answer);
        return (PolicyReader.Parse(Encoding.UTF8.GetBytes(read["policy"]!.ToJsonString())), answer.Headers.ETag!.Tag);
    }

    /// <summary>The policy in use with one more degree of overshoot, and the tag of the one in use.</summary>
    public static async Task<(Policy Policy, string Tag)> NextAsync(HttpClient client)
    {
        (Policy policy, string tag) = await NowAsync(client);
        return (policy with { OvershootK = policy.OvershootK + 1 }, tag);
    }
}
