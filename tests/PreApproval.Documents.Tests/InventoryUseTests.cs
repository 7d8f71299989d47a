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
