using System.Text.Json.Nodes;
using PreApproval.Documents.Comparing;

namespace PreApproval.Documents.Tests.Comparing;

/// <summary>What is said of two documents that state the work otherwise.</summary>
public sealed class PlanComparisonTests
{
    [Fact]
    public void Between_TheSameDocument_IsNoChange() => Assert.Empty(Changes(static _ => { }));

    [Fact]
    public void Between_OtherTemperature_IsOneLineOfTheStep() =>
        Assert.Equal(["changed: step 6 (heat), temperature: 30 °C → 45 °C"], Changes(static d => d["steps"]![5]!["temperature"]!["value"] = 45));

    /// <summary>303.15 K are 30 °C, 360 min are 6 h, 200 000 µL are 200 mL.</summary>
    [Fact]
    public void Between_OtherUnitsOfTheSame_IsNoChange() => Assert.Empty(Changes(static d =>
    {
        d["steps"]![5]!["temperature"] = Quantity(303.15, "K");
        d["steps"]![5]!["duration"] = Quantity(360, "min");
        d["materials"]![3]!["amount"] = Quantity(200_000, "µL");
    }));

    [Fact]
    public void Between_OtherAmounts_AreTheMaterialAndTheStepThatTakesThem() => Assert.Equal(
        ["changed: material “ether”, amount: 12 mL → 20 mL", "changed: step 1 (charge), “ether”: 8 mL → all that is left"],
        Changes(static d =>
        {
            d["materials"]![1]!["amount"]!["value"] = 20;
            d["steps"]![0]!["materials"]![1] = "ether";
        }));

    [Fact]
    public void Between_AnotherSubstanceUnderTheName_IsTold() => Assert.Equal(
        ["changed: material “ether”, substance: diethyl ether (60-29-7) → tetrahydrofuran (109-99-9)"],
        Changes(static d => d["materials"]![1]!["substance"] = new JsonObject { ["cas"] = "109-99-9" }));

    [Fact]
    public void Between_SynonymOfTheSubstance_IsNoChange() =>
        Assert.Empty(Changes(static d => d["materials"]![1]!["substance"] = new JsonObject { ["name"] = "diethyl ether" }));

    [Fact]
    public void Between_MaterialAddedAndRemoved_AreDescribed() => Assert.Equal(
        [
            "added: material “base”: - → triethylamine (121-44-8), amount 1 mL, role reagent",
            "removed: material “salt”: sodium chloride (7647-14-5), amount 5 mmol, role reagent, form powder → -",
            "changed: step 1 (charge), “salt”: all that is left → -",
            "changed: step 1 (charge), “base”: - → all that is left",
            "changed: reaction in step 6, consumes: 1 salt → 1 base",
            "changed: scale: 5 mmol of salt → 5 mmol of base",
        ],
        Changes(static d =>
        {
            d["materials"]![0] = new JsonObject { ["id"] = "base", ["substance"] = new JsonObject { ["cas"] = "121-44-8" }, ["amount"] = Quantity(1, "mL"), ["role"] = "reagent" };
            d["steps"]![0]!["materials"]![0] = "base";
            d["reactions"]![0]!["consumes"]![0]!["material"] = "base";
            d["scale"]!["limiting"] = "base";
        }));

    [Fact]
    public void Between_StepAddedInFront_RenumbersTheOthersWithoutAChange() => Assert.Equal(
        ["added: step 6 (purge): - → purge, vessel tube, gas over the contents nitrogen"],
        Changes(static d =>
        {
            Renumber(d, 6);
            d["steps"]!.AsArray().Insert(5, JsonNode.Parse("""{ "id": "6", "action": "purge", "vessel": "tube", "headspace": "nitrogen" }"""));
        }));

    [Fact]
    public void Between_StepLeftOut_IsRemovedAndWhatIsStillThereIsNot() => Assert.Equal(
        ["removed: step 7 (cool): cool, vessel tube, temperature 20 °C → -"],
        Changes(static d => d["steps"]!.AsArray().RemoveAt(6)));

    [Fact]
    public void Between_StepElsewhere_IsMoved() => Assert.Equal(
        ["moved: step 2 (evacuate), place in the order: 2 of 11 → 4 of 11"],
        Changes(static d =>
        {
            JsonNode evacuate = d["steps"]![1]!;
            d["steps"]!.AsArray().RemoveAt(1);
            d["steps"]!.AsArray().Insert(3, evacuate);
        }));

    [Fact]
    public void Between_WeakerVesselWithoutItsRelief_SaysBoth() => Assert.Equal(
        ["changed: vessel “tube”, rating: 10 bar(g) → 4 bar(g)", "changed: vessel “tube”, relief device: bursting disc, set to 6 bar(g) → -"],
        Changes(static d =>
        {
            d["vessels"]![0]!["rating"]!["value"] = 4;
            d["vessels"]![0]!.AsObject().Remove("relief");
        }));

    /// <summary>The vessel that the same steps happen in is the one that was exchanged.</summary>
    [Fact]
    public void Between_AnotherVesselForTheSameSteps_IsComparedWithTheOldOne() => Assert.Equal(
        ["changed: vessel “bulb”, was “flask”, kind: round-bottom flask → two-necked flask", "changed: vessel “bulb”, was “flask”, volume: 0.25 L → 0.5 L"],
        Changes(static d =>
        {
            d["vessels"]![1] = JsonNode.Parse("""{ "id": "bulb", "kind": "two-necked flask", "volume": { "value": 0.5, "unit": "L" } }""");
            d["steps"]![9]!["to"] = "bulb";
            d["steps"]![10]!["vessel"] = "bulb";
        }));

    [Fact]
    public void Between_SafeguardsAndAgents_AreToldOneByOne() => Assert.Equal(
        [
            "changed: safeguard “blast shield”, steps: step 6 → steps 6, 7",
            "added: safeguard “face shield”: - → all steps",
            "removed: safeguard “fume hood”: all steps → -",
            "changed: extinguishing agents: dry sand, carbon dioxide, class D powder → carbon dioxide",
            "changed: attendance: unattended → attended",
        ],
        Changes(static d =>
        {
            d["safeguards"]![0]!["steps"]!.AsArray().Add("7");
            d["safeguards"]![1]!["control"] = "face shield";
            d["fireResponse"]!["agents"] = new JsonArray("carbon dioxide");
            d["attendance"] = "attended";
        }));

    /// <summary>Agents stand there in no order.</summary>
    [Fact]
    public void Between_AgentsInAnotherOrder_IsNoChange() => Assert.Empty(Changes(static d => d["fireResponse"]!["agents"] = new JsonArray("class D powder", "carbon dioxide", "dry sand")));

    [Fact]
    public void Between_RenamedEverywhere_IsNoChange()
    {
        string renamed = Samples.Full.Replace("\"tube\"", "\"T-07\"", StringComparison.Ordinal).Replace("\"ether\"", "\"solvent-1\"", StringComparison.Ordinal).Replace("\"6\"", "\"six\"", StringComparison.Ordinal);

        Assert.Empty(PlanComparison.Between(Read(Samples.Parsed(Samples.Full)), Read(Samples.Parsed(renamed))));
    }

    /// <summary>Title, purpose and source are words about the plan.</summary>
    [Fact]
    public void Between_OtherWordsAboutThePlan_IsNoChange() => Assert.Empty(Changes(static d =>
    {
        d["title"] = "another";
        d["purpose"] = "another";
        d["source"]!["changes"] = "another";
    }));

    private static string[] Changes(Action<JsonObject> change)
    {
        JsonObject later = Samples.Parsed(Samples.Full);
        change(later);
        return [.. PlanComparison.Between(Read(Samples.Parsed(Samples.Full)), Read(later)).Select(static one => $"{PlanChange.WordOf(one.Effect)}: {one.Where}: {one.Before ?? "-"} → {one.After ?? "-"}")];
    }

    private static ProcedureDocument Read(JsonObject document)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(Samples.Utf8(document.ToJsonString()));
        Assert.True(read.IsOk, read.IsOk ? "" : string.Join(' ', read.Error.Faults.Select(static fault => $"{fault.Path} {fault.Message}")));
        return read.Value;
    }

    private static JsonObject Quantity(double value, string unit) => new() { ["value"] = value, ["unit"] = unit };

    /// <summary>Makes room for a step with this number.</summary>
    private static void Renumber(JsonObject document, int from)
    {
        foreach (JsonNode? step in document["steps"]!.AsArray())
        {
            step!["id"] = Later(step["id"]!);
        }

        document["reactions"]![0]!["step"] = Later(document["reactions"]![0]!["step"]!);
        document["safeguards"]![0]!["steps"]![0] = Later(document["safeguards"]![0]!["steps"]![0]!);

        string Later(JsonNode id) => int.Parse(id.GetValue<string>(), System.Globalization.CultureInfo.InvariantCulture) is var number && number >= from
            ? (number + 1).ToString(System.Globalization.CultureInfo.InvariantCulture)
            : id.GetValue<string>();
    }
}
