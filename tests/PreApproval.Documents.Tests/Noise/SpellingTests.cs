using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Tests.Noise;

/// <summary>A listed substance is the same by number and by name: what follows from a procedure does not depend on how its author spells it.</summary>
public sealed class SpellingTests
{
    public static TheoryData<string> All => [.. new[] { "everyday", "deadly" }.SelectMany(static set => Directory.GetFiles(Path.Combine(Folders.Procedures, set), "*.json")).Select(static file => Path.GetRelativePath(Folders.Procedures, file)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(All))]
    public void Screen_NamesInsteadOfNumbers_FindsTheSame(string file)
    {
        JsonNode byNumber = JsonNode.Parse(File.ReadAllBytes(Path.Combine(Folders.Procedures, file)))!;
        JsonNode byName = byNumber.DeepClone();
        DropNumbers(byName);

        Assert.Equal(Screened(byNumber), Screened(byName));
    }

    [Fact]
    public void Screen_WaterByNameMeetsTheWaterOfANamedSolution_IsOneContent()
    {
        Report report = Read(JsonNode.Parse("""
            {
              "schema": "preapproval/procedure/1", "title": "Ethyl acetate and water washed with brine (invented)",
              "materials": [
                { "id": "ester", "substance": { "name": "ethyl acetate" }, "role": "solvent", "amount": { "value": 50, "unit": "mL" } },
                { "id": "water", "substance": { "name": "water" }, "role": "solvent", "amount": { "value": 50, "unit": "mL" } },
                { "id": "brine", "substance": { "name": "brine" }, "role": "reagent", "amount": { "value": 50, "unit": "mL" } }
              ],
              "vessels": [{ "id": "funnel", "kind": "separating funnel", "volume": { "value": 250, "unit": "mL" } }],
              "steps": [
                { "id": "1", "action": "charge", "vessel": "funnel", "materials": ["ester", "water"] },
                { "id": "2", "action": "wash", "vessel": "funnel", "materials": ["brine"] }
              ]
            }
            """)!);

        Assert.DoesNotContain(report.Findings, static finding => finding.Severity == Severity.Danger);
    }

    private static void DropNumbers(JsonNode? node)
    {
        switch (node)
        {
            case JsonObject reference when reference["cas"] is { } cas && reference["name"] is { } name:
                if (Catalog.Default.TryFindByName(name.GetValue<string>(), out Substance? named) && string.Equals(named.Identity.Cas, cas.GetValue<string>(), StringComparison.Ordinal))
                {
                    reference.Remove("cas");
                }

                break;
            case JsonObject members:
                foreach (var member in members)
                {
                    DropNumbers(member.Value);
                }

                break;
            case JsonArray entries:
                foreach (JsonNode? entry in entries)
                {
                    DropNumbers(entry);
                }

                break;
        }
    }

    private static string Screened(JsonNode document)
    {
        Report report = Read(document);
        return string.Join('\n', [$"{report.Verdict}", .. report.Findings.Select(static finding => JsonSerializer.Serialize(finding)), .. report.Encounters.Select(static strip => JsonSerializer.Serialize(strip))]);
    }

    private static Report Read(JsonNode document)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(JsonSerializer.SerializeToUtf8Bytes(document));
        Assert.True(read.IsOk, string.Join('\n', read.Error?.Faults ?? []));
        return DocumentScreening.Screen(read.Value, Policy.Default).Report;
    }
}
