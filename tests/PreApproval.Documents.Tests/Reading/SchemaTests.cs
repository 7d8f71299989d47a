using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Json.Schema;
using PreApproval.Documents.Reading;

namespace PreApproval.Documents.Tests.Reading;

/// <summary>The published schema and the reader judge form alike.</summary>
public sealed class SchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Folders.Docs, "procedure.schema.json")));

    [Theory]
    [InlineData(Samples.Full)]
    [InlineData(Samples.Small)]
    public void Schema_ValidSample_Accepts(string json) => Assert.True(Accepts(Samples.Parsed(json)));

    [Fact]
    public void Schema_Examples_AreAccepted() =>
        Assert.All(Directory.GetFiles(Folders.Examples, "*.json"), file => Assert.True(Accepts(JsonNode.Parse(File.ReadAllBytes(file))!), file));

    [Fact]
    public void Schema_accepts_exactly_what_the_reader_finds_well_formed() =>
        Mutations.One.Sample(root =>
        {
            IReadOnlyList<Fault> faults = DocumentReader.FormFaults(Samples.Utf8(root.ToJsonString()));

            // A pattern cannot know the calendar: 29 February of a common year.
            if (faults.Count > 0 && faults.All(fault => fault.Message.StartsWith("must be a date of the calendar", StringComparison.Ordinal)))
            {
                return;
            }

            bool accepted = Accepts(root);
            Assert.True(accepted == (faults.Count == 0), $"schema {(accepted ? "accepts" : "refuses")}, reader: {string.Join("; ", faults)}\n{root.ToJsonString()}");
        }, iter: 1_000);

    /// <summary>Every spelling of every unit at every member: allowed by both or by none.</summary>
    [Fact]
    public void Schema_UnitsOfEachMember_AreThoseOfTheReader()
    {
        JsonObject definitions = JsonNode.Parse(File.ReadAllText(Path.Combine(Folders.Docs, "procedure.schema.json")))!["$defs"]!.AsObject();
        Dictionary<string, MemberUnits> members = new(StringComparer.Ordinal)
        {
            ["amount"] = MemberUnits.Amount,
            ["volume"] = MemberUnits.VesselVolume,
            ["roomVolume"] = MemberUnits.RoomVolume,
            ["airFlow"] = MemberUnits.AirFlow,
            ["temperature"] = MemberUnits.Temperature,
            ["pressure"] = MemberUnits.Pressure,
            ["time"] = MemberUnits.Time,
            ["concentration"] = MemberUnits.Concentration,
            ["fraction"] = MemberUnits.Fraction,
            ["volumeFraction"] = MemberUnits.VolumeFraction,
            ["molarHeat"] = MemberUnits.MolarHeat,
            ["molarMass"] = MemberUnits.MolarMass,
            ["density"] = MemberUnits.Density,
        };
        foreach ((string name, MemberUnits units) in members)
        {
            IEnumerable<string> published = definitions[name]!["properties"]!["unit"]!["enum"]!.AsArray().Select(unit => unit!.GetValue<string>());
            Assert.Equal(string.Join(' ', units.Spellings.Order(StringComparer.Ordinal)), string.Join(' ', published.Order(StringComparer.Ordinal)));
        }
    }

    [Fact]
    public void Schema_Words_AreThoseOfTheReader()
    {
        JsonNode schema = JsonNode.Parse(File.ReadAllText(Path.Combine(Folders.Docs, "procedure.schema.json")))!;
        Dictionary<string, IReadOnlyList<string>> words = new(StringComparer.Ordinal)
        {
            ["$defs/step/properties/action"] = Words.Actions.All,
            ["$defs/step/properties/heatSource"] = Words.HeatSources.All,
            ["$defs/step/properties/closure"] = Words.Closures.All,
            ["$defs/material/properties/role"] = Words.Roles.All,
            ["$defs/state"] = Words.States.All,
            ["$defs/antoine/properties/pressureUnit"] = Words.AntoinePressureUnits.All,
            ["$defs/antoine/properties/temperatureUnit"] = Words.AntoineTemperatureUnits.All,
            ["properties/attendance"] = Words.Attendances.All,
            ["properties/people/properties/experience"] = Words.Experiences.All,
            ["properties/place/properties/kind"] = Words.PlaceKinds.All,
            ["$defs/agents/items"] = Words.Agents.All,
        };
        foreach ((string path, IReadOnlyList<string> expected) in words)
        {
            JsonNode place = path.Split('/').Aggregate(schema, (node, name) => node[name]!);
            Assert.Equal(string.Join('|', expected), string.Join('|', place["enum"]!.AsArray().Select(word => word!.GetValue<string>())));
        }
    }

    private static bool Accepts(JsonNode document)
    {
        using JsonDocument parsed = JsonDocument.Parse(document.ToJsonString());
        return Schema.Evaluate(parsed.RootElement).IsValid;
    }
}
