using System.Text;
using System.Text.Json.Nodes;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>Sends to the API.</summary>
internal static class Sending
{
    /// <summary>A call with a JSON body, or with none, and the headers that its caller names.</summary>
    public static async Task<HttpResponseMessage> SendJsonAsync(this HttpClient client, HttpMethod method, string address, JsonObject? body, string? ifMatch = null, string? key = null)
    {
        using var request = new HttpRequestMessage(method, address);
        if (body is not null)
        {
            request.Content = new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json");
        }

        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        if (key is not null)
        {
            request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
        }

        return await client.SendAsync(request);
    }
}
