using System.Globalization;
using System.Text.Json.Nodes;

namespace PreApproval.Documents.Tests.Reading;

/// <summary>How large a procedure may be. The limits are this project's own: they bound the cost of a screening.</summary>
public sealed class LimitTests
{
    [Theory]
    [InlineData(100, null)]
    [InlineData(101, "/materials")]
    public void Read_ManyMaterials_HundredAtMost(int count, string? path) => AssertFault(Document(count, componentsEach: 1, steps: count), path, "at most 100");

    [Theory]
    [InlineData(200, null)]
    [InlineData(201, "/steps")]
    public void Read_ManySteps_TwoHundredAtMost(int count, string? path) => AssertFault(Document(materials: 1, componentsEach: 1, steps: count), path, "at most 200");

    [Theory]
    [InlineData(40, null)]
    [InlineData(41, "/steps/0/materials")]
    public void Read_ManyComponentsInOneVessel_FortyAtMost(int count, string? path) => AssertFault(Document(1, count, 1), path, "41 different components; at most 40");

    [Fact]
    public void Read_ComponentsGatheredOverSteps_AreCountedTogether() =>
        AssertFault(Document(3, 20, 3, oneVessel: true), "/steps/2/materials", "60 different components; at most 40");

    [Theory]
    [InlineData(10, 20, null)]
    [InlineData(11, 19, "/materials")]
    public void Read_ManyComponentsInAll_TwoHundredAtMost(int materials, int each, string? path) =>
        AssertFault(Document(materials, each, materials), path, "209 different components; at most 200");

    [Fact]
    public void Read_ThousandsOfFaults_ListsTwoHundred()
    {
        JsonObject document = Document(100, 1, 100);
        foreach (JsonNode? material in document["materials"]!.AsArray())
        {
            material!["amount"]!["value"] = -1;
            material["role"] = "no role";
        }

        foreach (JsonNode? step in document["steps"]!.AsArray())
        {
            step!["temperature"]!["value"] = -1000;
            step["heatSource"] = "the sun";
        }

        Assert.InRange(DocumentReader.Read(Samples.Utf8(document.ToJsonString())).Error!.Faults.Count, 150, 200);
    }

    private static void AssertFault(JsonObject document, string? path, string words)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(Samples.Utf8(document.ToJsonString()));
        if (path is null)
        {
            Assert.True(read.IsOk, read.IsOk ? "" : string.Join("; ", read.Error.Faults.Take(3)));
            return;
        }

        Assert.False(read.IsOk);
        Assert.Contains(read.Error.Faults, f => string.Equals(f.Path, path, StringComparison.Ordinal) && f.Message.Contains(words, StringComparison.Ordinal));
    }

    /// <summary>Mixtures of named substances, each charged into a vessel of its own or all into one.</summary>
    private static JsonObject Document(int materials, int componentsEach, int steps, bool oneVessel = false)
    {
        int vessels = oneVessel ? 1 : Math.Min(50, steps);
        return new JsonObject
        {
            ["schema"] = "preapproval/procedure/1",
            ["title"] = "Large (invented)",
            ["materials"] = new JsonArray([.. Enumerable.Range(0, materials).Select(m => new JsonObject
            {
                ["id"] = $"m{m}",
                ["mixture"] = new JsonArray([.. Enumerable.Range(0, componentsEach).Select(c => new JsonObject
                {
                    ["substance"] = new JsonObject { ["name"] = $"substance {m} {c}" },
                    ["fraction"] = new JsonObject { ["value"] = 100.0 / componentsEach, ["unit"] = "wt%" },
                })]),
                ["amount"] = new JsonObject { ["value"] = 1000, ["unit"] = "g" },
            })]),
            ["vessels"] = new JsonArray([.. Enumerable.Range(0, vessels).Select(v => new JsonObject
            {
                ["id"] = $"v{v}", ["kind"] = "beaker", ["volume"] = new JsonObject { ["value"] = 100, ["unit"] = "mL" },
            })]),
            ["steps"] = new JsonArray([.. Enumerable.Range(0, steps).Select(s => new JsonObject
            {
                ["id"] = (s + 1).ToString(CultureInfo.InvariantCulture),
                ["action"] = "charge",
                ["vessel"] = $"v{s % vessels}",
                ["materials"] = new JsonArray(new JsonObject { ["id"] = $"m{s % materials}", ["amount"] = new JsonObject { ["value"] = 1, ["unit"] = "g" } }),
                ["temperature"] = new JsonObject { ["value"] = 20, ["unit"] = "°C" },
            })]),
        };
    }
}
