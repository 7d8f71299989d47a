using System.Text.Json.Nodes;
using PreApproval.Audit;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Reporting;

/// <summary>A policy as JSON, for its digest and for the record: members named as in the engine, in SI units.</summary>
public static class PolicyWriter
{
    /// <summary>Every threshold of the policy.</summary>
    public static JsonObject ToJson(Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        var json = new JsonObject();
        foreach (System.Reflection.PropertyInfo property in typeof(Policy).GetProperties(System.Reflection.BindingFlags.Public | System.Reflection.BindingFlags.Instance))
        {
            string name = char.ToLowerInvariant(property.Name[0]) + property.Name[1..];
            json[name] = property.GetValue(policy) switch
            {
                double number => number,
                int number => number,
                bool truth => truth,
                string text => text,
                Severity severity => ReportWords.Of(severity),
                _ => throw new NotSupportedException($"Policy.{property.Name} has a type that the digest does not cover."),
            };
        }

        return json;
    }

    /// <summary><c>sha256:</c> and the SHA-256 of the policy's canonical bytes.</summary>
    public static string Digest(Policy policy) => CanonicalJson.Digest(CanonicalJson.Serialize(ToJson(policy)));
}
