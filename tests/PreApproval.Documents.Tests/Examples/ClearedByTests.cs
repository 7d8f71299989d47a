using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Tests.Examples;

/// <summary>Every offer of the report, taken as it stands in the JSON, clears its finding.</summary>
public sealed class ClearedByTests
{
    /// <summary>Calls forth every kind of offer. Invented.</summary>
    private const string EveryKind = """
        {
          "schema": "preapproval/procedure/1",
          "title": "Every kind of offer (invented)",
          "materials": [
            { "id": "ethanol", "substance": { "cas": "64-17-5" }, "role": "solvent", "amount": { "value": 5, "unit": "mL" } },
            { "id": "ether", "substance": { "cas": "60-29-7" }, "role": "solvent", "amount": { "value": 50, "unit": "mL" }, "openedOn": "2031-05-01" },
            { "id": "sodium", "substance": { "cas": "7440-23-5" }, "role": "reagent", "amount": { "value": 1, "unit": "g" } },
            { "id": "azo", "substance": { "cas": "78-67-1" }, "role": "reagent", "amount": { "value": 1, "unit": "g" } },
            { "id": "toluene", "substance": { "cas": "108-88-3" }, "role": "solvent", "amount": { "value": 5, "unit": "mL" } }
          ],
          "attendance": "overnight", "lone": false, "plannedOn": "2031-05-28",
          "vessels": [
            { "id": "tube", "kind": "thick-walled glass tube", "volume": { "value": 20, "unit": "mL" }, "rating": { "value": 1, "unit": "bar(g)" }, "maximumTemperature": { "value": 90, "unit": "°C" } },
            { "id": "flask", "kind": "round-bottom flask", "volume": { "value": 100, "unit": "mL" } },
            { "id": "jar", "kind": "glass jar", "volume": { "value": 100, "unit": "mL" } },
            { "id": "autoclave", "kind": "steel autoclave", "volume": { "value": 25, "unit": "mL" }, "rating": { "value": 10, "unit": "bar(g)" } }
          ],
          "steps": [
            { "id": "1", "action": "charge", "vessel": "tube", "materials": ["ethanol"] },
            { "id": "2", "action": "seal", "vessel": "tube" },
            { "id": "3", "action": "heat", "vessel": "tube", "temperature": { "value": 80, "unit": "°C" }, "heatSource": "metal block" },
            { "id": "4", "action": "charge", "vessel": "flask", "materials": ["ether"] },
            { "id": "5", "action": "reflux", "vessel": "flask", "temperature": { "value": 34, "unit": "°C" }, "heatSource": "hotplate", "surfaceTemperature": { "value": 200, "unit": "°C" } },
            { "id": "6", "action": "charge", "vessel": "jar", "materials": ["sodium"], "headspace": "argon" },
            { "id": "7", "action": "charge", "vessel": "autoclave", "materials": ["azo", "toluene"] },
            { "id": "8", "action": "seal", "vessel": "autoclave" },
            { "id": "9", "action": "heat", "vessel": "autoclave", "temperature": { "value": 70, "unit": "°C" }, "heatSource": "oil bath" }
          ],
          "reactions": [ { "step": "9", "consumes": [ { "material": "azo", "equivalents": 1 } ], "produces": [ { "substance": { "cas": "7727-37-9" }, "equivalents": 1, "state": "gas" } ] } ],
          "fireResponse": { "agents": ["water"] }
        }
        """;

    [Fact]
    public void ClearedBy_EveryKindAppliedToTheJson_ClearsTheFinding()
    {
        IReadOnlySet<string> kinds = CheckEveryOffer(Encoding.UTF8.GetBytes(EveryKind));

        string[] expected =
            ["attendance", "extinguishing agents", "rating", "set temperature", "surface temperature", "temperature limit", "vessel volume"];
        Assert.Equal(expected, kinds.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public void ClearedBy_Agents_IsAnArrayAsInTheDocument()
    {
        JsonNode report = Report(Encoding.UTF8.GetBytes(EveryKind));

        JsonNode offer = report["findings"]!.AsArray().SelectMany(finding => finding!["clearedBy"]!.AsArray()).First(offer => offer!["path"]!.GetValue<string>() is "/fireResponse/agents")!;

        Assert.Contains("dry sand", offer["to"]!.AsArray().Select(agent => agent!.GetValue<string>()), StringComparer.Ordinal);
    }

    /// <summary>Applies every offer alone and screens again; gives the kinds of change seen.</summary>
    internal static IReadOnlySet<string> CheckEveryOffer(byte[] document)
    {
        var kinds = new HashSet<string>(StringComparer.Ordinal);
        foreach (JsonNode? finding in Report(document)["findings"]!.AsArray())
        {
            foreach (JsonNode? offer in finding!["clearedBy"]!.AsArray())
            {
                JsonObject changed = JsonNode.Parse(document)!.AsObject();
                ClearingChange.Apply(changed, offer!.AsObject());

                JsonNode after = Report(Encoding.UTF8.GetBytes(changed.ToJsonString()));

                Assert.DoesNotContain(after["findings"]!.AsArray(), other => IsSame(other!, finding));
                kinds.Add(offer["change"]!.GetValue<string>());
            }
        }

        return kinds;
    }

    private static bool IsSame(JsonNode one, JsonNode other) =>
        string.Equals(one["code"]!.GetValue<string>(), other["code"]!.GetValue<string>(), StringComparison.Ordinal)
        && string.Equals(one["vessel"]?.GetValue<string>(), other["vessel"]?.GetValue<string>(), StringComparison.Ordinal)
        && Steps(one).Intersect(Steps(other), StringComparer.Ordinal).Any();

    private static IEnumerable<string> Steps(JsonNode finding) => finding["steps"]!.AsArray().Select(step => step!.GetValue<string>());

    private static JsonNode Report(byte[] document)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(document);
        Assert.True(read.IsOk);
        return JsonNode.Parse(DocumentScreening.Screen(read.Value, Policy.Default).Json.Span)!;
    }
}
