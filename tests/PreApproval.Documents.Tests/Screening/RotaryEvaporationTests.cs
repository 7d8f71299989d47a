using System.Text.Json.Nodes;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Tests.Screening;

/// <summary>A rotary evaporation as a document states it. Flat and conical glass is not evacuated (Prudent Practices in the Laboratory, 2011).</summary>
public sealed class RotaryEvaporationTests
{
    private const string Evaporation = """
        {
          "schema": "preapproval/procedure/1",
          "title": "Toluene taken off benzoic acid (invented)",
          "materials": [
            { "id": "toluene", "substance": { "cas": "108-88-3" }, "role": "solvent", "amount": { "value": 200, "unit": "mL" } },
            { "id": "acid", "substance": { "cas": "65-85-0" }, "role": "product", "amount": { "value": 5, "unit": "g" } }
          ],
          "vessels": [ { "id": "flask", "kind": "conical flask", "volume": { "value": 1, "unit": "L" } } ],
          "steps": [
            { "id": "1", "action": "charge", "vessel": "flask", "materials": ["toluene", "acid"], "temperature": { "value": 20, "unit": "°C" } },
            { "id": "2", "action": "concentrate", "vessel": "flask", "temperature": { "value": 40, "unit": "°C" }, "heatSource": "water bath" }
          ]
        }
        """;

    [Theory]
    [InlineData("concentrate", 80, "mbar")]
    [InlineData("concentrate", 0.08, "bar")]
    [InlineData("concentrate", -0.93325, "bar(g)")]
    [InlineData("distil", 8, "kPa")]
    public void Screen_VacuumInAConicalFlask_IsAnImplosion(string action, double pressure, string unit)
    {
        Finding finding = Assert.Single(Screened("conical flask", action, pressure, unit).Findings, static finding => finding.Code is "vessel.implosion");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(["2"], finding.Steps, StringComparer.Ordinal);
        // (101 325 − 8000) Pa in 1 L
        Assert.Equal(93.325, finding.Evidence[0].Value, 1e-6);
    }

    [Fact]
    public void Screen_VacuumInARoundBottomFlask_IsNone() =>
        Assert.DoesNotContain(Screened("round-bottom flask", "concentrate", 80, "mbar").Findings, static finding => finding.Code.StartsWith("vessel.implosion", StringComparison.Ordinal));

    /// <summary>At 40 °C toluene has 79 mbar (CRC Handbook, from memory): at 200 mbar it stays where it is, at 80 mbar it goes (half of the pressure suffices: common practice, no source).</summary>
    [Theory]
    [InlineData(200, true)]
    [InlineData(80, false)]
    [InlineData(70, false)]
    public void Screen_PressureAboveTheVapourPressure_TakesNothingAway(double pressure, bool stays) =>
        Assert.Equal(stays, Screened("round-bottom flask", "concentrate", pressure, "mbar").Findings.Any(static finding => finding.Code is "data.nothing-to-concentrate"));

    private static Report Screened(string kind, string action, double pressure, string unit)
    {
        JsonObject document = Samples.Parsed(Evaporation);
        document["vessels"]![0]!["kind"] = kind;
        document["steps"]![1]!["action"] = action;
        document["steps"]![1]!["pressure"] = new JsonObject { ["value"] = pressure, ["unit"] = unit };
        return DocumentScreening.Screen(DocumentReader.Read(Samples.Utf8(document.ToJsonString())).Value!, Policy.Default).Report;
    }
}
