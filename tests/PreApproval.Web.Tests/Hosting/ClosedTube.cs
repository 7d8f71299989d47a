using System.Text.Json.Nodes;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>10 mL of water shut with air into a tube of 50 mL at 20 °C and heated in an oil bath to 120 °C. Invented.</summary>
internal static class ClosedTube
{
    public static JsonObject Document(string title) => JsonNode.Parse("""
        {
          "schema": "preapproval/procedure/1",
          "title": "",
          "attendance": "attended",
          "lone": false,
          "scale": { "limiting": "salt", "amount": { "value": 20, "unit": "mmol" } },
          "materials": [
            { "id": "water", "substance": { "cas": "7732-18-5" }, "role": "solvent", "amount": { "value": 10, "unit": "mL" }, "openedOn": "2031-01-01" },
            { "id": "salt", "substance": { "cas": "7647-14-5" }, "role": "reagent", "amount": { "value": 0.5, "unit": "g" } }
          ],
          "vessels": [ { "id": "tube", "kind": "thick-walled glass tube", "volume": { "value": 50, "unit": "mL" }, "rating": { "value": 4, "unit": "bar(g)" }, "ratingEvidence": "engraved (invented)", "closure": "screw plug" } ],
          "steps": [
            { "id": "1", "action": "charge", "vessel": "tube", "materials": ["water", "salt"], "temperature": { "value": 20, "unit": "°C" } },
            { "id": "2", "action": "seal", "vessel": "tube", "headspace": "air" },
            { "id": "3", "action": "heat", "vessel": "tube", "temperature": { "value": 120, "unit": "°C" }, "duration": { "value": 2, "unit": "h" }, "heatSource": "oil bath", "surfaceTemperature": { "value": 130, "unit": "°C" } },
            { "id": "4", "action": "cool", "vessel": "tube", "temperature": { "value": 20, "unit": "°C" } },
            { "id": "5", "action": "open", "vessel": "tube" }
          ]
        }
        """)!.AsObject().With(d => d["title"] = title);
}
