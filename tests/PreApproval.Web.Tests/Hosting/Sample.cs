using System.Text.Json.Nodes;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>Documents for tests. Invented.</summary>
internal static class Sample
{
    /// <summary>Salt in water, open, at room temperature.</summary>
    public static JsonObject Document(string title) => JsonNode.Parse("""
        {
          "schema": "preapproval/procedure/1",
          "title": "",
          "attendance": "attended",
          "lone": false,
          "materials": [
            { "id": "water", "substance": { "cas": "7732-18-5" }, "role": "solvent", "amount": { "value": 50, "unit": "mL" } },
            { "id": "salt", "substance": { "cas": "7647-14-5" }, "role": "reagent", "amount": { "value": 5, "unit": "g" } }
          ],
          "vessels": [ { "id": "beaker", "kind": "beaker", "volume": { "value": 100, "unit": "mL" } } ],
          "steps": [
            { "id": "1", "action": "charge", "vessel": "beaker", "materials": ["water", "salt"], "temperature": { "value": 20, "unit": "°C" } },
            { "id": "2", "action": "stir", "vessel": "beaker", "duration": { "value": 10, "unit": "min" } }
          ]
        }
        """)!.AsObject().With(d => d["title"] = title);

    public static JsonObject With(this JsonObject document, Action<JsonObject> change)
    {
        change(document);
        return document;
    }
}
