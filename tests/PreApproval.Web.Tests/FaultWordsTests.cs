using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Web.Drafting;

namespace PreApproval.Web.Tests;

/// <summary>Faults as the form says them: rows by their number, fields by their labels, nothing of JSON.</summary>
public class FaultWordsTests
{
    [Theory]
    [InlineData("""{"vessels":[{"id":"v1"},{"kind":"flask"}]}""", "Vessel 2: short name is missing")]
    [InlineData("""{"vessels":[{"id":"tube","rating":{"value":"two","unit":"bar(g)"}}]}""", "Vessel 1 (tube): rated pressure: “two” is no number; write the number with a point, for instance 1.5")]
    [InlineData("""{"materials":[{"id":"m1","amount":{"value":"1,000","unit":"mL"}}]}""", "Material 1: amount: “1,000” is no number")]
    [InlineData("""{"vessels":[{"id":"  ","kind":"flask"}]}""", "Vessel 1: short name is missing: give it one, by which the rest of the procedure can name it")]
    [InlineData("""{"materials":[{"id":"m1"}]}""", "Material 1: substance is missing: give its name or its CAS number")]
    [InlineData("""{"materials":[{"id":"m1","substance":{"name":"water"},"solution":{}}]}""", "Material 1: solution, solvent is missing")]
    [InlineData("""{"materials":[{"id":"m1","openedOn":"yesterday"}]}""", "Material 1: opened on is no date of the calendar")]
    [InlineData("""{"schema":"preapproval/procedure/1","title":"t","materials":[{"id":"acid","substance":{"cas":"7732-18-5"},"amount":{"value":1,"unit":"g"}},{"id":"acid","substance":{"cas":"7732-18-5"},"amount":{"value":1,"unit":"g"}}],"vessels":[{"id":"v","kind":"flask","volume":{"value":50,"unit":"mL"}}],"steps":[{"id":"1","action":"charge","vessel":"v","materials":["acid"]}]}""", "Material 2 (acid): short name: “acid” is already the short name of row 1; give each its own")]
    [InlineData("""{"steps":[{"id":"1","action":"heat","vessel":"pot"}],"vessels":[{"id":"tube"}]}""", "no vessel has the short name “pot”")]
    public void Of_AFaultOfADraft_SpeaksTheFormsWords(string json, string expected)
    {
        var document = (JsonObject)JsonNode.Parse(json)!;
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(Encoding.UTF8.GetBytes(json));
        Assert.False(read.IsOk);
        string[] words = [.. read.Error.Faults.Select(f => FaultWords.Of(f, document))];
        Assert.Contains(words, w => w.Contains(expected, StringComparison.Ordinal));
        Assert.All(words, w => Assert.DoesNotContain("\"", w, StringComparison.Ordinal));
        Assert.All(words, w => Assert.DoesNotContain("{", w, StringComparison.Ordinal));
        Assert.All(words, w => Assert.DoesNotContain("quotes", w, StringComparison.Ordinal));
    }
}
