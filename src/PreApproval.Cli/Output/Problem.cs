using System.Text.Json.Nodes;
using PreApproval.Documents;

namespace PreApproval.Cli.Output;

/// <summary>Why input is unusable: a problem of RFC 9457 with a fault per place.</summary>
internal sealed record Problem(string Title, string Detail, IReadOnlyList<Fault> Faults)
{
    public JsonObject ToJson() => new()
    {
        ["type"] = "about:blank",
        ["title"] = Title,
        ["detail"] = Detail,
        ["errors"] = new JsonArray([.. Faults.Select(fault => new JsonObject { ["path"] = fault.Path, ["message"] = fault.Message })]),
    };

    public void Write(TextWriter error, bool asJson)
    {
        if (asJson)
        {
            error.WriteLine(JsonText.Of(ToJson()));
            return;
        }

        error.WriteLine($"{Title}: {Detail}");
        foreach (Fault fault in Faults)
        {
            error.WriteLine($"  {(fault.Path.Length == 0 ? "(document)" : fault.Path)}: {fault.Message}");
        }
    }

    /// <summary>Writes to standard error and gives the exit code.</summary>
    public int Refuse(Streams streams, bool asJson)
    {
        Write(streams.Error, asJson);
        return ExitCode.Unusable;
    }
}
