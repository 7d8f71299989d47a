using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Exploring;
using PreApproval.Web.Shared.Components;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>What is tried, as a document, as numbers and as drawings.</summary>
public sealed class ExplorationTests
{
    [Fact]
    public void Begin_NothingAsked_TakesTheHottestClosedStep() => Assert.Equal("3", Begin().Step.StepId);

    /// <summary>
    /// By hand: saturated steam at 120 °C 1.987 bar (IAPWS-IF97 steam tables); 40 mL of dry air closed at 20 °C and 1.01325 bar in the 39.4 mL that
    /// water of 943.1 kg/m³ (same tables) leaves: 1.01325·393.15/293.15·40/39.4 = 1.379 bar. Together 3.366 bar, 2.353 bar(g).
    /// </summary>
    [Fact]
    public void Planned_WaterAt120Degrees_IsSteamAndAir() =>
        Assert.Equal(2.353, Begin().Planned.Point.ExpectedPaGauge!.Value / 1e5, 0.01 * 2.353);

    [Fact]
    public void Try_LowerTemperature_LowersTheSurfaceByAsMuchAndNothingElse()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { TemperatureC = 90 });
        Assert.Equal("/steps/2 temperature 90 °C; /steps/2 surfaceTemperature 100 °C", Lines(at));
        Assert.Equal(90, at.Tried.State.TemperatureK - 273.15, 1e-6);
        Assert.True(at.Tried.Point.GoverningPaGauge < at.Planned.Point.GoverningPaGauge);
    }

    [Fact]
    public void Try_HigherThanTheSurface_TakesTheSurfaceAlong()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { TemperatureC = 150 });
        Assert.Contains("/steps/2 surfaceTemperature 150 °C", Lines(at), StringComparison.Ordinal);
    }

    [Fact]
    public void Try_AnotherTemperature_KeepsTheCurveThatItMovesAlong()
    {
        Exploration at = Begin();
        var curve = at.OverTemperature;
        at.Try(new ExploredValues { TemperatureC = 100 });
        Assert.Same(curve, at.OverTemperature);
        at.Try(new ExploredValues { TemperatureC = 100, VolumeML = 80 });
        Assert.NotSame(curve, at.OverTemperature);
    }

    /// <summary>The point as tried lies on the curve: the pressure at 100 °C is that of the curve's own point there.</summary>
    [Fact]
    public void Try_AnotherTemperature_LiesOnTheCurve()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { TemperatureC = 100 });
        var there = at.OverTemperature!.Points.Single(p => Math.Abs(p.At - 373.15) < 1e-6);
        Assert.Equal(there.GoverningPaGauge!.Value, at.Tried.Point.GoverningPaGauge!.Value, 1.0);
        Assert.Equal(there.SurfaceMarginK, at.Tried.Point.SurfaceMarginK);
    }

    [Fact]
    public void Try_DoubleFill_DoublesEveryAmountOfTheProcedure()
    {
        Exploration at = Begin();
        double planned = at.Planned.Fill!.Value;
        at.Try(new ExploredValues { Fill = 2 * planned });
        Assert.Equal("/scale amount 40 mmol; /materials/0 amount 20 mL; /materials/1 amount 1 g", Lines(at));
        Assert.Equal(2 * planned, at.Tried.Fill!.Value, 1e-3);
    }

    [Fact]
    public void Try_HalfTheAmountsWhereTheFillIsNotKnown_HalvesThem()
    {
        Exploration at = Begin(d => d["materials"]![1]!["substance"] = new JsonObject { ["name"] = "an own substance of ours" });
        Assert.Null(at.Planned.Fill);
        Assert.Contains("an own substance of ours", ExplorerWords.WhyNoFill(at.Planned.State), StringComparison.Ordinal);
        at.Try(new ExploredValues { Amounts = 0.5 });
        Assert.Equal("/scale amount 10 mmol; /materials/0 amount 5 mL; /materials/1 amount 0.25 g", Lines(at));
    }

    [Fact]
    public void Try_AnotherKind_StartsWithoutWhatBelongedToTheOldVessel()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { Kind = "stirred metal autoclave" });
        Assert.Equal("/vessels/0 kind stirred metal autoclave; /vessels/0 rating removed; /vessels/0 ratingEvidence removed; /vessels/0 closure removed", Lines(at));
        Assert.Null(at.Tried.Rating);
        Assert.Null(at.OverTemperature!.SafeFrom is { } from && from > 350 ? from : null);
    }

    /// <summary>The inventory's vessel is not another one because somebody tries numbers on it; what only the inventory gave goes along, its inspection does not.</summary>
    [Fact]
    public void Try_AnotherVolumeOfAnInventoryVessel_MakesAVesselOfItsOwn()
    {
        Exploration at = InInventory();
        Assert.Equal("T-07", at.Listed!.Entry.Label);
        at.Try(new ExploredValues { TemperatureC = 90 });
        Assert.Null(at.Draft.Unlisted);
        at.Try(new ExploredValues { VolumeML = 80 });
        Assert.Empty(at.Faults);
        Assert.Equal("T-07-other", at.Draft.Unlisted);
        Assert.Equal(("T-07-other", 80.0), (at.Tried.State.Vessel.Id, Math.Round(at.Tried.State.Vessel.VolumeM3!.Value * 1e6, 6)));
        Assert.Equal(10e5, at.Tried.Rating!.Value, 1.0);
        JsonObject root = at.ToKeep().Root;
        Assert.Equal("10 bar(g)", DocumentText.Quantity(root, "vessels/0/rating"));
        Assert.Null(DocumentText.At(root, "vessels/0/ratingEvidence"));
        Assert.Null(DocumentText.At(root, "vessels/0/inspectedOn"));
        Assert.Equal("relief valve opens at 8 bar(g)", DocumentText.Relief(DocumentText.At(root, "vessels/0/relief")));
        Assert.Equal("glass 20 mm outside, wall 2.5 mm, annealed", DocumentText.GlassTube(DocumentText.At(root, "vessels/0/glassTube")));
        Assert.Contains("/vessels/0 relief relief valve opens at 8 bar(g); /vessels/0 glassTube glass 20 mm outside, wall 2.5 mm, annealed", Lines(at), StringComparison.Ordinal);
        Assert.All(DocumentText.Rows(root, "steps"), step => Assert.Equal("T-07-other", DocumentText.Text(step, "vessel")));
    }

    [Fact]
    public void Try_AnotherRatingOfAnInventoryVessel_IsScreenedAndNotAContradiction()
    {
        Exploration at = InInventory();
        at.Try(new ExploredValues { RatingBarGauge = 4 });
        Assert.Empty(at.Faults);
        Assert.Equal(4e5, at.Tried.Rating!.Value, 1.0);
        at.Try(new ExploredValues { RatingBarGauge = 10 });
        Assert.Null(at.Draft.Unlisted);
        at.Try(new ExploredValues { Kind = "stirred metal autoclave" });
        Assert.Empty(at.Faults);
        Assert.Null(at.Tried.Rating);
    }

    /// <summary>Steps that the newer draft has beside those that were explored would be left with a vessel that is not there.</summary>
    [Fact]
    public void Onto_AnotherStepWithTheRenamedVessel_IsRefused()
    {
        Exploration at = InInventory();
        at.Try(new ExploredValues { VolumeML = 80 });
        var newer = (JsonObject)at.Plan.Root.DeepClone();
        Assert.True(at.ToKeep().Onto(newer).IsOk);
        newer["steps"]!.AsArray().Add((JsonNode)new JsonObject { ["id"] = "new", ["action"] = "hold", ["vessel"] = "T-07" });
        Assert.Contains("another step that uses T-07", at.ToKeep().Onto(newer).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void ToKeep_TypicalRating_IsTriedAndNotWritten()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { Kind = "stirred metal autoclave", RatingBarGauge = 100, RatingIsTypical = true });
        // no temperature stands beside it: between 100 and 150 °C steel keeps 42.2 to 38.5 of its cold 49.6 bar (ASME B16.5, class 300, group 2.2, from memory)
        Assert.InRange(at.Tried.Rating!.Value, 100e5 * 38.5 / 49.6, 100e5 * 42.2 / 49.6);
        Assert.Null(DocumentText.At(at.ToKeep().Root, "vessels/0/rating"));
        at.Try(at.Values with { RatingIsTypical = false });
        Assert.Equal("100 bar(g)", DocumentText.Quantity(at.ToKeep().Root, "vessels/0/rating"));
    }

    /// <summary>Density of acetonitrile 0.7857 g/mL at 20 °C and 0.776 at 25 °C (CRC Handbook of Chemistry and Physics, from memory): 10 g are 12.7 to 12.9 mL.</summary>
    [Fact]
    public void Try_AnotherSolvent_TakesTheSameVolume()
    {
        Exploration at = Begin(d => d["materials"]![0] = JsonNode.Parse("""{ "id": "water", "substance": { "cas": "75-05-8" }, "role": "solvent", "amount": { "value": 10, "unit": "g" }, "openedOn": "2031-01-01" }"""));
        Assert.True(Catalog.Default.TryFindByCas("108-88-3", out Substance? toluene));
        Assert.Equal("acetonitrile", at.Liquids[0].Substance.Identity.Name);
        at.Try(new ExploredValues { Solvent = new SolventSwap(at.Liquids[0].Material, toluene) });
        Assert.Equal("108-88-3", DocumentText.Text(at.Draft.Root, "materials/0/substance/cas"));
        Assert.InRange(double.Parse(DocumentText.Text(at.Draft.Root, "materials/0/amount/value"), CultureInfo.InvariantCulture), 12.6, 12.95);
        Assert.Equal("mL", DocumentText.Text(at.Draft.Root, "materials/0/amount/unit"));
        Assert.Null(DocumentText.At(at.Draft.Root, "materials/0/openedOn"));

        // Toluene boils at 110.6 °C, acetonitrile at 81.6 °C: less pressure, and it burns.
        Assert.True(at.Tried.Point.GoverningPaGauge < at.Planned.Point.GoverningPaGauge);
    }

    [Fact]
    public void Try_SolventOfASolution_ChangesTheSolventAndKeepsTheStrength()
    {
        Exploration at = Begin(d => d["materials"]![0] = JsonNode.Parse("""{ "id": "water", "substance": { "cas": "7647-14-5" }, "solution": { "solvent": { "cas": "7732-18-5" }, "concentration": { "value": 1, "unit": "mol/L" } }, "amount": { "value": 10, "unit": "mL" } }"""));
        Assert.True(Catalog.Default.TryFindByCas("67-56-1", out Substance? methanol));
        at.Try(new ExploredValues { Solvent = new SolventSwap(at.Liquids[0].Material, methanol) });
        Assert.Equal("/materials/0/solution solvent methanol (67-56-1)", Lines(at));
        Assert.Empty(at.Faults);
    }

    [Fact]
    public void Onto_AnotherPlaceChangedMeanwhile_KeepsBothChanges()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { TemperatureC = 90 });
        JsonObject newer = ClosedTube.Document("renamed elsewhere");
        Result<JsonObject, string> changed = at.ToKeep().Onto(newer);
        Assert.True(changed.IsOk);
        Assert.Equal("renamed elsewhere", DocumentText.Text(changed.Value, "title"));
        Assert.Equal("90 °C", DocumentText.Quantity(changed.Value, "steps/2/temperature"));
    }

    [Fact]
    public void Onto_TheSamePlaceOrAnotherRowThere_IsRefused()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { TemperatureC = 90 });
        Assert.False(at.ToKeep().Onto(ClosedTube.Document("t").With(d => d["steps"]![2]!["temperature"]!["value"] = 80)).IsOk);
        Assert.False(at.ToKeep().Onto(ClosedTube.Document("t").With(d => d["steps"]![2]!["id"] = "3a")).IsOk);
        Assert.False(at.ToKeep().Onto([]).IsOk);
    }

    [Fact]
    public void Try_MoreThanTheVesselHolds_StaysDrawnOrSaysWhy()
    {
        Exploration at = Begin();
        at.Try(new ExploredValues { VolumeML = 10.3 });
        Assert.NotNull(at.OverTemperature);
        Assert.Contains("fills the vessel", ExplorerWords.Window(at.OverTemperature, at.Tried.Point, at.Tried.State), StringComparison.Ordinal);
    }

    [Fact]
    public void ListedSolvents_All_HaveWhatTheChartsNeed()
    {
        Assert.True(ListedSolvents.All.Count > 100, $"{ListedSolvents.All.Count}");
        Assert.Contains(ListedSolvents.All, s => s.Identity.Cas is "108-88-3");
        Assert.DoesNotContain(ListedSolvents.All, s => s.Identity.Cas is "7782-44-7" or "7647-14-5");
        Assert.Equal("7732-18-5", ListedSolvents.Find("water")?.Identity.Cas);
        Assert.Null(ListedSolvents.Find("sodium chloride"));
    }

    [Theory]
    [InlineData("74", 74.0)]
    [InlineData("74,5", 74.5)]
    [InlineData("−10 °C", -10.0)]
    [InlineData("hot", null)]
    [InlineData("4000", null)]
    public void Query_Temperature_IsReadAsTyped(string typed, double? expected) =>
        Assert.Equal(expected, new ExplorerQuery { Temperature = typed }.ValuesFor([]).TemperatureC);

    private static Exploration InInventory()
    {
        JsonObject document = ClosedTube.Document("explored");
        JsonObject vessel = document["vessels"]![0]!.AsObject();
        string kind = (string)vessel["kind"]!;
        foreach (string member in (string[])["volume", "rating", "ratingEvidence", "maximumTemperature"])
        {
            vessel.Remove(member);
        }

        vessel["id"] = "T-07";
        foreach (JsonNode? step in document["steps"]!.AsArray())
        {
            step!["vessel"] = "T-07";
        }

        var entry = new VesselEntry
        {
            Id = "T-07",
            Kind = kind,
            Volume = new Quantity(50, "mL"),
            Rating = new Quantity(10, "bar(g)"),
            RatingEvidence = "engraved",
            InspectedOn = new DateOnly(2031, 2, 10),
            Relief = new ReliefEntry(ReliefKind.Valve, new Quantity(8, "bar(g)")),
            GlassTube = new GlassTubeEntry(20, 2.5, true),
        };
        GroupGround ground = GroupGround.Bare with { Inventory = new GroupInventory([new ListedVessel(Guid.Empty, 1, "Somebody", null, new InventoryVessel { Vessel = entry })], []), Today = new DateOnly(2031, 5, 28) };
        ExploredPlan plan = ExploredPlan.Read(document, DocumentScreener.Engine, ground);
        Assert.Empty(plan.Faults);
        return Exploration.Begin(plan, null, DocumentScreener.Engine, ground)!;
    }

    private static Exploration Begin(Action<JsonObject>? change = null)
    {
        JsonObject document = ClosedTube.Document("explored").With(change ?? (static _ => { }));
        ExploredPlan plan = ExploredPlan.Read(document, DocumentScreener.Engine, GroupGround.Bare);
        Assert.True(plan.Faults.Count == 0, string.Join("; ", plan.Faults.Select(f => f.Path + " " + f.Message)));
        return Exploration.Begin(plan, null, DocumentScreener.Engine, GroupGround.Bare)!;
    }

    private static string Lines(Exploration at) => string.Join("; ", at.Draft.Edits.Select(static e => $"{e.Row} {e.Member} {e.AfterWords}"));
}
