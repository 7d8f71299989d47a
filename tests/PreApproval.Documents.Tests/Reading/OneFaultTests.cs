using System.Text;

namespace PreApproval.Documents.Tests.Reading;

/// <summary>A temperature that is there and cannot be read, or stands under a misspelt name, is told once and not also as missing.</summary>
public sealed class OneFaultTests
{
    [Theory]
    [InlineData("\"temperature\": { \"value\": 60, \"unit\": \"C\" }", "/steps/1/temperature/unit")]
    [InlineData("\"temperature\": { \"value\": \"60\", \"unit\": \"°C\" }", "/steps/1/temperature/value")]
    [InlineData("\"temperature\": { \"value\": 1e400, \"unit\": \"°C\" }", "/steps/1/temperature/value")]
    [InlineData("\"temprature\": { \"value\": 60, \"unit\": \"°C\" }", "/steps/1/temprature")]
    [InlineData("\"duration\": { \"value\": 1, \"unit\": \"h\" }", "/steps/1/temperature")]
    public void Read_TemperatureThatIsWrong_IsOneFault(string member, string path)
    {
        string text = $$"""
            { "schema": "preapproval/procedure/1", "title": "t", "materials": [{ "id": "a", "substance": { "name": "toluene" }, "amount": { "value": 10, "unit": "mL" } }],
              "vessels": [{ "id": "f", "kind": "round-bottom flask", "volume": { "value": 50, "unit": "mL" } }],
              "steps": [{ "id": "1", "action": "charge", "vessel": "f", "materials": ["a"] }, { "id": "2", "action": "heat", "vessel": "f", {{member}} }] }
            """;

        Assert.Equal([path], FaultsOf(text));
    }

    private static string[] FaultsOf(string text) => DocumentReader.Read(Encoding.UTF8.GetBytes(text)).Error is { } refusal ? [.. refusal.Faults.Select(fault => fault.Path)] : [];
}
