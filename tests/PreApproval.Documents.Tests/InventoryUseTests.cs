using System.Text;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Tests;

/// <summary>What a group's inventory does to a document that names its vessels and places. All invented.</summary>
public sealed class InventoryUseTests
{
    private static readonly DateOnly Today = new(2031, 3, 4);

    [Fact]
    public void Complete_VesselNamedByItsLabel_IsFilledInAndSaysWhereFrom()
    {
        InventoryCompletion completed = InventoryUse.Complete(Document("""{ "id": "t 07", "kind": "Glass tube" }"""), Inventory(), Today);
        Assert.Empty(completed.Faults);
        VesselEntry vessel = completed.Document.Vessels[0];
        Assert.Equal(("t 07", 30.0, 4.0, 150.0), (vessel.Id, vessel.Volume!.Value, vessel.Rating!.Value, vessel.MaximumTemperature!.Value));
        Assert.Equal("the group's inventory, T-07, version 3 by Mia Member: engraved", vessel.RatingEvidence);
        Assert.Equal(new DateOnly(2031, 2, 10), vessel.InspectedOn);
        Assert.Equal("seal", Assert.Single(vessel.Parts!).Part);
    }

    [Theory]
    [InlineData("""{ "id": "T-08", "kind": "glass tube" }""")]
    [InlineData("""{ "id": "T-07", "kind": "beaker" }""")]
    public void Complete_OtherLabelOrKind_LeavesTheDocumentAsItIs(string vessel)
    {
        ProcedureDocument document = Document(vessel);
        Assert.Same(document, InventoryUse.Complete(document, Inventory(), Today).Document);
    }

    [Theory]
    [InlineData("""{ "id": "T-07", "kind": "glass tube", "rating": { "value": 20, "unit": "bar(g)" } }""", "/vessels/0/rating")]
    [InlineData("""{ "id": "T-07", "kind": "glass tube", "volume": { "value": 35, "unit": "mL" } }""", "/vessels/0/volume")]
    [InlineData("""{ "id": "T-07", "kind": "glass tube", "maximumTemperature": { "value": 200, "unit": "°C" } }""", "/vessels/0/maximumTemperature")]
    [InlineData("""{ "id": "T-07", "kind": "glass tube", "inspectedOn": "2030-02-10" }""", "/vessels/0/inspectedOn")]
    [InlineData("""{ "id": "T-07", "kind": "glass tube", "parts": [ { "part": "gauge" } ] }""", "/vessels/0/parts")]
    [InlineData("""{ "id": "T-03", "kind": "glass tube" }""", "/vessels/0")]
    [InlineData("""{ "id": "T-01", "kind": "glass tube" }""", "/vessels/0")]
    public void Complete_ContradictedOutOfServiceOrTakenOut_IsAFaultAtItsPlace(string vessel, string path)
    {
        Assert.Equal(path, Assert.Single(InventoryUse.Complete(Document(vessel), Inventory(), Today).Faults).Path);
    }

    [Fact]
    public void Complete_SameValuesInOtherUnits_AreNoContradiction()
    {
        // 30 mL = 0.03 L; 150 °C = 423.15 K; 4 bar(g) = 501.325 kPa absolute.
        const string Vessel = """{ "id": "T-07", "kind": "glass tube", "volume": { "value": 0.03, "unit": "L" }, "rating": { "value": 501.325, "unit": "kPa" }, "maximumTemperature": { "value": 423.15, "unit": "K" } }""";
        InventoryCompletion completed = InventoryUse.Complete(Document(Vessel), Inventory(), Today);
        Assert.Empty(completed.Faults);
        Assert.Equal("kPa", completed.Document.Vessels[0].Rating!.Unit);
    }

    [Fact]
    public void Complete_ReliefAndGlassWallLeftOpen_AreFilledIn()
    {
        InventoryCompletion completed = InventoryUse.Complete(Document("""{ "id": "F-01", "kind": "glass tube" }"""), Inventory(), Today);
        Assert.Empty(completed.Faults);
        Assert.Equal(new ReliefEntry(ReliefKind.Valve, new Quantity(3.5, "bar(g)")), completed.Document.Vessels[0].Relief);
        Assert.Equal(new GlassTubeEntry(20, 2.2, true), completed.Document.Vessels[0].GlassTube);
    }

    /// <summary>1 atm = 1.01325 bar exactly (CGPM 1954), so that 3.5 bar(g) are 451.325 kPa; 2.2 mm in another sum of the same number.</summary>
    [Fact]
    public void Complete_SameReliefAndGlassWall_AreNoContradictionAndOnlyAnnealedIsFilledIn()
    {
        const string Vessel = """{ "id": "F-01", "kind": "glass tube", "relief": { "device": "valve", "set": { "value": 451.325, "unit": "kPa" } }, "glassTube": { "outsideDiameterMm": 20, "wallMm": 2.2000000000000002 } }""";
        InventoryCompletion completed = InventoryUse.Complete(Document(Vessel), Inventory(), Today);
        Assert.Empty(completed.Faults);
        Assert.Equal("kPa", completed.Document.Vessels[0].Relief!.Set!.Unit);
        Assert.True(completed.Document.Vessels[0].GlassTube!.Annealed);
    }

    [Theory]
    [InlineData("F-01", """ "relief": { "device": "bursting disc", "set": { "value": 3.5, "unit": "bar(g)" } } """, "/vessels/0/relief/device", "is bursting disc here and valve in the group's inventory (F-01, version 3)")]
    [InlineData("F-01", """ "relief": { "device": "valve", "set": { "value": 3, "unit": "bar(g)" } } """, "/vessels/0/relief/set", "is 3 bar(g) here and 3.5 bar(g) in the group's inventory")]
    [InlineData("F-01", """ "glassTube": { "outsideDiameterMm": 19, "wallMm": 2.2 } """, "/vessels/0/glassTube/outsideDiameterMm", "is 19 mm here and 20 mm in the group's inventory")]
    [InlineData("F-01", """ "glassTube": { "outsideDiameterMm": 20, "wallMm": 3 } """, "/vessels/0/glassTube/wallMm", "is 3 mm here and 2.2 mm in the group's inventory")]
    [InlineData("F-01", """ "glassTube": { "outsideDiameterMm": 20, "wallMm": 2.2, "annealed": false } """, "/vessels/0/glassTube/annealed", "is not annealed here and annealed in the group's inventory")]
    [InlineData("F-02", """ "glassTube": { "outsideDiameterMm": 20, "wallMm": 2.2, "annealed": true } """, "/vessels/0/glassTube/annealed", "is annealed here and not given in the group's inventory (F-02, version 3)")]
    [InlineData("T-07", """ "relief": { "device": "valve", "set": { "value": 3.5, "unit": "bar(g)" } } """, "/vessels/0/relief/device /vessels/0/relief/set", "is valve here and not given in the group's inventory")]
    [InlineData("T-07", """ "glassTube": { "outsideDiameterMm": 20, "wallMm": 2.2 } """, "/vessels/0/glassTube/outsideDiameterMm /vessels/0/glassTube/wallMm", "is 20 mm here and not given in the group's inventory")]
    public void Complete_OtherReliefOrGlassWall_IsAFaultAtItsMember(string label, string members, string paths, string words)
    {
        InventoryCompletion completed = InventoryUse.Complete(Document($$"""{ "id": "{{label}}", "kind": "glass tube", {{members}} }"""), Inventory(), Today);
        Assert.Equal(paths, string.Join(' ', completed.Faults.Select(fault => fault.Path)));
        Assert.StartsWith(words, completed.Faults[0].Message, StringComparison.Ordinal);
    }

    /// <summary>A stated wall that is another one stays without what the inventory says of its own.</summary>
    [Fact]
    public void Complete_OtherWall_IsNotSaidToBeAnnealed()
    {
        InventoryCompletion completed = InventoryUse.Complete(Document("""{ "id": "F-01", "kind": "glass tube", "glassTube": { "outsideDiameterMm": 20, "wallMm": 3 } }"""), Inventory(), Today);
        Assert.Null(completed.Document.Vessels[0].GlassTube!.Annealed);
    }

    [Theory]
    [InlineData(""" "glassTube": { "outsideDiameterMm": 20, "wallMm": 10 } """, "/glassTube/wallMm", "must be above 0 and below half the outside diameter")]
    [InlineData(""" "glassTube": { "outsideDiameterMm": 0.5, "wallMm": 0.1 } """, "/glassTube/outsideDiameterMm", "must be from 1 to 500")]
    [InlineData(""" "glassTube": { "wallMm": 2 } """, "/glassTube/outsideDiameterMm", "is missing: give the outside diameter in mm")]
    [InlineData(""" "relief": { "device": "valve", "set": { "value": 0.5, "unit": "bar" } } """, "/relief/set/value", "below the atmosphere")]
    [InlineData(""" "relief": { "device": "valve" } """, "/relief/set", "is missing: give the pressure at which it opens")]
    public void Read_ImpossibleReliefOrGlassWallOfTheInventory_IsRefusedAsInADocument(string members, string path, string words)
    {
        Fault fault = Assert.Single(InventoryDocument.Read(InventoryKind.Vessel, Encoding.UTF8.GetBytes($$"""{ "label": "F-09", "kind": "glass tube", {{members}} }""")).Error!.Faults);
        Assert.Equal(path, fault.Path);
        Assert.Contains(words, fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2032-03-04", null, "/plannedOn")]
    [InlineData("2032-02-10", null, "")]
    [InlineData("2032-03-04", "2032-03-05", "")]
    public void Complete_InspectionOver_AsksForThePlannedDayWhichTheEngineThenJudges(string today, string? plannedOn, string path)
    {
        ProcedureDocument document = Document("""{ "id": "T-07", "kind": "glass tube" }""") with { PlannedOn = plannedOn is null ? null : DateOnly.Parse(plannedOn, System.Globalization.CultureInfo.InvariantCulture) };
        Assert.Equal(path, string.Join(' ', InventoryUse.Complete(document, Inventory(), DateOnly.Parse(today, System.Globalization.CultureInfo.InvariantCulture)).Faults.Select(fault => fault.Path)));
    }

    /// <summary>A day is allowed for places where it is tomorrow already. With a planned day the document's own rule compares the two.</summary>
    [Theory]
    [InlineData("2031-05-29", "")]
    [InlineData("2031-05-30", "/vessels/0/inspectedOn")]
    public void Complete_InspectionAfterToday_IsAFault(string inspectedOn, string path)
    {
        ProcedureDocument document = Document($$"""{ "id": "x", "kind": "beaker", "inspectedOn": "{{inspectedOn}}" }""");
        Assert.Equal(path, string.Join(' ', InventoryUse.Complete(document, Inventory(), new DateOnly(2031, 5, 28)).Faults.Select(fault => fault.Path)));
    }

    [Fact]
    public void Complete_PlaceByName_FillsRoomAirAndTheAgentsOnHand()
    {
        ProcedureDocument document = Document("""{ "id": "x", "kind": "beaker" }""") with { Place = new PlaceEntry("hood-3", null, null, null) };
        ProcedureDocument completed = InventoryUse.Complete(document, Inventory(), Today).Document;
        Assert.Equal((PlaceKind.Hood, 180.0, 700.0), (completed.Place!.Kind!.Value, completed.Place.RoomVolume!.Value, completed.Place.AirFlow!.Value));
        Assert.Equal([Agent.CarbonDioxide, Agent.DryPowder], completed.FireResponse!.Agents!);
        Assert.Equal([Agent.CarbonDioxide, Agent.DryPowder], completed.Place.Agents!);
    }

    [Fact]
    public void Complete_PlaceAndAgentsStated_AreLeftAsStated()
    {
        ProcedureDocument document = Document("""{ "id": "x", "kind": "beaker" }""") with
        {
            Place = new PlaceEntry("Hood 3", PlaceKind.Bench, new Quantity(10, "m³"), new Quantity(5, "m³/h")),
            FireResponse = new FireResponseEntry([Agent.Water], "run"),
        };
        ProcedureDocument completed = InventoryUse.Complete(document, Inventory(), Today).Document;
        Assert.Equal(document.FireResponse, completed.FireResponse);
        Assert.Equal(document.Place, completed.Place! with { Agents = null });
        Assert.Equal([Agent.CarbonDioxide, Agent.DryPowder], completed.Place.Agents!);
    }

    /// <summary>A list that came along from an earlier copy may name what was carried away since.</summary>
    [Fact]
    public void Complete_AgentsAtThePlaceStated_GiveWayToTheInventory()
    {
        ProcedureDocument document = Document("""{ "id": "x", "kind": "beaker" }""") with { Place = new PlaceEntry("Hood 3", null, null, null) { Agents = [Agent.ClassDPowder] } };
        Assert.Equal([Agent.CarbonDioxide, Agent.DryPowder], InventoryUse.Complete(document, Inventory(), Today).Document.Place!.Agents!);
    }

    private static GroupInventory Inventory() => new(
        [
            Listed("T-07", null, """, "volume": { "value": 30, "unit": "mL" }, "rating": { "value": 4, "unit": "bar(g)" }, "ratingEvidence": "engraved", "maximumTemperature": { "value": 150, "unit": "°C" }, "inspectedOn": "2031-02-10", "parts": [ { "part": "seal" } ]"""),
            Listed("F-01", null, """, "relief": { "device": "valve", "set": { "value": 3.5, "unit": "bar(g)" } }, "glassTube": { "outsideDiameterMm": 20, "wallMm": 2.2, "annealed": true }"""),
            Listed("F-02", null, """, "glassTube": { "outsideDiameterMm": 20, "wallMm": 2.2 }"""),
            Listed("T-03", null, """, "outOfService": "a star crack" """),
            Listed("T-01", "broken", ""),
        ],
        [new ListedPlace(Guid.CreateVersion7(), 1, new InventoryPlace { Place = new PlaceEntry("Hood 3", PlaceKind.Hood, new Quantity(180, "m³"), new Quantity(700, "m³/h")) }, [Agent.CarbonDioxide, Agent.DryPowder])]);

    private static ListedVessel Listed(string label, string? retired, string members) => new(
        Guid.CreateVersion7(), 3, "Mia Member", retired,
        (InventoryVessel)InventoryDocument.Read(InventoryKind.Vessel, Encoding.UTF8.GetBytes($$"""{ "label": "{{label}}", "kind": "glass tube"{{members}} }""")).Value!);

    private static ProcedureDocument Document(string vessel)
    {
        string id = System.Text.Json.Nodes.JsonNode.Parse(vessel)!["id"]!.ToJsonString();
        return DocumentReader.Read(Encoding.UTF8.GetBytes($$"""
            { "schema": "preapproval/procedure/1", "title": "x",
              "materials": [ { "id": "w", "substance": { "cas": "7732-18-5" }, "amount": { "value": 10, "unit": "mL" } } ],
              "vessels": [ {{vessel}} ],
              "steps": [ { "id": "1", "action": "charge", "vessel": {{id}}, "materials": ["w"] } ] }
            """)).Value!;
    }
}
