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
            json[NameOf(property.Name)] = property.GetValue(policy) switch
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

    /// <summary>Name of a member in JSON.</summary>
    public static string NameOf(string member)
    {
        ArgumentException.ThrowIfNullOrEmpty(member);
        return char.ToLowerInvariant(member[0]) + member[1..];
    }

    /// <summary>The canonical bytes of RFC 8785.</summary>
    public static byte[] Canonical(Policy policy) => CanonicalJson.Serialize(ToJson(policy));

    /// <summary><c>sha256:</c> and the SHA-256 of the policy's canonical bytes.</summary>
    public static string Digest(Policy policy) => CanonicalJson.Digest(Canonical(policy));
}
