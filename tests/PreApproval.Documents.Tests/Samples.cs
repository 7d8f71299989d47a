using System.Text;
using System.Text.Json.Nodes;

namespace PreApproval.Documents.Tests;

/// <summary>Documents for tests. Invented.</summary>
internal static class Samples
{
    /// <summary>Uses every member of the contract at least once.</summary>
    public const string Full = """
        {
          "schema": "preapproval/procedure/1",
          "title": "Every member once (invented)",
          "purpose": "Invented for tests.\nTwo lines.",
          "source": { "citation": "none", "changes": "all of it" },
          "scale": { "limiting": "salt", "amount": { "value": 5, "unit": "mmol" } },
          "materials": [
            { "id": "salt", "substance": { "cas": "7647-14-5", "name": "sodium chloride" }, "role": "reagent", "amount": { "value": 5, "unit": "mmol" }, "form": "powder" },
            { "id": "ether", "substance": { "cas": "60-29-7" }, "role": "solvent", "amount": { "value": 12, "unit": "mL" },
              "openedOn": "2031-01-15", "peroxideTest": { "on": "2031-05-01", "ppm": 5 } },
            { "id": "acid", "substance": { "cas": "7647-01-0" }, "role": "quench", "amount": { "value": 2.5, "unit": "mL" },
              "solution": { "solvent": { "cas": "7732-18-5" }, "concentration": { "value": 2.0, "unit": "mol/L" } } },
            { "id": "eluent", "mixture": [ { "substance": { "cas": "110-54-3" }, "fraction": { "value": 80, "unit": "vol%" } },
              { "substance": { "cas": "141-78-6" }, "fraction": { "value": 20, "unit": "vol%" } } ], "role": "solvent", "amount": { "value": 200, "unit": "mL" } },
            { "id": "own", "substance": { "name": "own compound 1", "smiles": "CCOC(=O)CCl", "properties": { "formula": "C4H7ClO2", "molarMass": { "value": 122.55, "unit": "g/mol" },
              "state": "liquid", "density": { "value": 1.15, "unit": "g/mL" }, "meltingPoint": { "value": -26, "unit": "°C" }, "boilingPoint": { "value": 143, "unit": "°C" },
              "flashPoint": { "value": 54, "unit": "degC" }, "autoignition": { "value": 723, "unit": "K" }, "lowerFlammableLimit": { "value": 2, "unit": "vol%" },
              "upperFlammableLimit": { "value": 12, "unit": "vol%" },
              "vapourPressure": { "a": 4.2, "b": 1500, "c": 214, "pressureUnit": "bar", "temperatureUnit": "°C", "from": { "value": 20, "unit": "°C" }, "to": { "value": 150, "unit": "°C" } },
              "source": "own notebook (invented)", "sources": { "flashPoint": "another notebook (invented)", "vapourPressure": "a third (invented)" } } }, "role": "reagent", "amount": { "value": 10, "unit": "umol" } }
          ],
          "attendance": "unattended", "lone": false,
          "people": { "experience": "first time" },
          "protection": { "gloves": "nitrile", "eyes": "safety glasses", "coat": "flame-resistant" },
          "place": { "name": "room 12 (invented)", "kind": "hood with scrubber", "roomVolume": { "value": 120, "unit": "m³" }, "airFlow": { "value": 600, "unit": "m3/h" } },
          "plannedOn": "2031-05-28",
          "vessels": [
            { "id": "tube", "kind": "thick-walled glass tube", "volume": { "value": 35, "unit": "mL" }, "rating": { "value": 10, "unit": "bar(g)" },
              "ratingEvidence": "engraved on the vessel", "maximumTemperature": { "value": 180, "unit": "°C" }, "closure": "screw plug, PTFE seal", "inspectedOn": "2031-02-01",
              "glassTube": { "outsideDiameterMm": 25.4, "wallMm": 3, "annealed": false },
              "relief": { "device": "bursting disc", "set": { "value": 6, "unit": "bar(g)" } },
              "parts": [ { "part": "PTFE seal", "rating": { "value": 100, "unit": "psi(g)" }, "maximumTemperature": { "value": 453.15, "unit": "K" } } ] },
            { "id": "flask", "kind": "round-bottom flask", "volume": { "value": 0.25, "unit": "L" } }
          ],
          "steps": [
            { "id": "1", "action": "charge", "vessel": "tube", "materials": [ "salt", { "id": "ether", "amount": { "value": 8, "unit": "mL" } }, "own" ], "temperature": { "value": 20, "unit": "°C" } },
            { "id": "2", "action": "evacuate", "vessel": "tube", "pressure": { "value": 5, "unit": "kPa" } },
            { "id": "3", "action": "pressurise", "vessel": "tube", "gas": "nitrogen", "pressure": { "value": 0.2, "unit": "bar(g)" } },
            { "id": "4", "action": "vent", "vessel": "tube", "headspace": { "cas": "7440-37-1" } },
            { "id": "5", "action": "seal", "vessel": "tube", "headspace": "nitrogen", "closure": "plug" },
            { "id": "6", "action": "heat", "vessel": "tube", "temperature": { "value": 30, "unit": "°C" }, "duration": { "value": 6, "unit": "h" },
              "heatSource": "metal block", "independentCutOut": true, "surfaceTemperature": { "value": 35, "unit": "°C" } },
            { "id": "7", "action": "cool", "vessel": "tube", "temperature": { "value": 20, "unit": "°C" } },
            { "id": "8", "action": "open", "vessel": "tube" },
            { "id": "9", "action": "quench", "vessel": "tube", "materials": ["acid"], "over": { "value": 20, "unit": "min" } },
            { "id": "10", "action": "transfer", "vessel": "tube", "to": "flask" },
            { "id": "11", "action": "chromatograph", "vessel": "flask", "materials": [ { "id": "eluent" } ] }
          ],
          "reactions": [ { "step": "6", "consumes": [ { "material": "salt", "equivalents": 1 } ],
            "produces": [ { "substance": { "cas": "7727-37-9" }, "equivalents": 0.01, "state": "gas" } ], "heat": { "value": -15, "unit": "kJ/mol" },
            "accumulation": 0.4, "decompositionOnset": { "value": 200, "unit": "°C" } } ],
          "safeguards": [ { "control": "blast shield", "steps": ["6"], "detail": "free-standing" }, { "control": "fume hood" } ],
          "fireResponse": { "agents": ["dry sand", "carbon dioxide", "class D powder"], "plan": "close the sash" },
          "waste": [ { "materials": ["ether", "eluent"], "container": "non-halogenated solvent" } ]
        }
        """;

    /// <summary>The least a document needs.</summary>
    public const string Small = """
        {
          "schema": "preapproval/procedure/1",
          "title": "Salt in water (invented)",
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
        """;

    public static byte[] Utf8(string json) => Encoding.UTF8.GetBytes(json);

    public static JsonObject Parsed(string json) => JsonNode.Parse(json)!.AsObject();

    /// <summary>The small document with one piece of its text replaced.</summary>
    public static byte[] SmallWith(string old, string replacement)
    {
        Assert.Contains(old, Small, StringComparison.Ordinal);
        return Utf8(Small.Replace(old, replacement, StringComparison.Ordinal));
    }
}
