using System.Text;
using System.Text.Json.Nodes;

namespace PreApproval.Web.Drafting;

/// <summary>The document a new procedure starts with: it has faults until it is written, and answers no question for its author.</summary>
public static class EmptyProcedure
{
    public static ReadOnlyMemory<byte> WithTitle(string title) => Encoding.UTF8.GetBytes(new JsonObject
    {
        ["schema"] = "preapproval/procedure/1",
        ["title"] = title,
        ["materials"] = new JsonArray(),
        ["vessels"] = new JsonArray(),
        ["steps"] = new JsonArray(),
    }.ToJsonString());
}
