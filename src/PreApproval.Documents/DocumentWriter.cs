using System.Text.Json.Nodes;
using PreApproval.Audit;
using PreApproval.Documents.Inventory;
using PreApproval.Documents.Reading;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents;

/// <summary>Writes documents back to the JSON of the contract: reading what was written gives the same document.</summary>
public static class DocumentWriter
{
    /// <summary>The document as JSON, absent members left out.</summary>
    public static JsonObject ToJson(ProcedureDocument document) => Object(
        ("schema", ProcedureDocument.SchemaName),
        ("title", document.Title),
        ("purpose", document.Purpose),
        ("source", Of(document.Source, source => Object(("citation", source.Citation), ("changes", source.Changes)))),
        ("scale", Of(document.Scale, scale => Object(("limiting", scale.Limiting), ("amount", Quantity(scale.Amount))))),
        ("materials", Array(document.Materials, Material)),
        ("attendance", Word(document.Attendance, Words.Attendances)),
        ("lone", document.Lone),
        ("people", Of(document.People, people => Object(("experience", Word(people.Experience, Words.Experiences))))),
        ("protection", Of(document.Protection, protection => Object(("gloves", protection.Gloves), ("eyes", protection.Eyes), ("coat", protection.Coat)))),
        ("place", Of(document.Place, ToJson)),
        ("plannedOn", Date(document.PlannedOn)),
        ("vessels", Array(document.Vessels, ToJson)),
        ("steps", Array(document.Steps, Step)),
        ("reactions", Array(document.Reactions, Reaction)),
        ("safeguards", Array(document.Safeguards, safeguard => Object(
            ("control", safeguard.Control), ("steps", Texts(safeguard.Steps)), ("detail", safeguard.Detail)))),
        ("fireResponse", Of(document.FireResponse, response => Object(
            ("agents", Array(response.Agents, agent => Word<Agent>(agent, Words.Agents))), ("plan", response.Plan)))),
        ("waste", Array(document.Waste, waste => Object(("materials", Texts(waste.Materials)), ("container", waste.Container)))));

    /// <summary>The document in the canonical form of RFC 8785.</summary>
    public static byte[] Canonical(ProcedureDocument document) => CanonicalJson.Serialize(ToJson(document));

    /// <summary><c>sha256:</c> and the SHA-256 of <see cref="Canonical"/>.</summary>
    public static string Digest(ProcedureDocument document) => CanonicalJson.Digest(Canonical(document));

    /// <summary>A substance of the group's own list as JSON.</summary>
    internal static JsonObject ToJson(Substances.GroupSubstance substance) => Object(
        ("name", substance.Name),
        ("synonyms", Texts(substance.Synonyms)),
        ("cas", substance.Cas),
        ("smiles", substance.Smiles),
        ("properties", Of(substance.Properties, Properties)));

    /// <summary>A vessel of a document as JSON.</summary>
    public static JsonObject ToJson(VesselEntry vessel) => Object(Vessel("id", vessel));

    /// <summary>The place of a document as JSON.</summary>
    public static JsonObject ToJson(PlaceEntry place) => Object(Place(place));

    /// <summary>An entry of the inventory as JSON.</summary>
    internal static JsonObject ToJson(InventoryContent content) => content switch
    {
        InventoryVessel vessel => Object([.. Vessel("label", vessel.Vessel), ("outOfService", vessel.OutOfService), ("note", vessel.Note)]),
        InventoryPlace place => Object([.. Place(place.Place), ("note", place.Note)]),
        InventoryAgent agent => Object(
            ("place", agent.Place.ToString("D")),
            ("agent", Word<Agent>(agent.Agent, Words.Agents)),
            ("size", agent.Size),
            ("checkedOn", Date(agent.CheckedOn)),
            ("note", agent.Note)),
        _ => throw new InvalidOperationException($"{content.GetType().Name} is no entry of an inventory."),
    };

    private static JsonObject Material(MaterialEntry material) => Object(
        ("id", material.Id),
        ("substance", Of(material.Substance, Substance)),
        ("solution", Of(material.Solution, solution => Object(
            ("solvent", Of(solution.Solvent, Substance)), ("concentration", Quantity(solution.Concentration))))),
        ("mixture", Array(material.Mixture, part => Object(("substance", Of(part.Substance, Substance)), ("fraction", Quantity(part.Fraction))))),
        ("role", Word(material.Role, Words.Roles)),
        ("amount", Quantity(material.Amount)),
        ("form", material.Form),
        ("openedOn", Date(material.OpenedOn)),
        ("peroxideTest", Of(material.PeroxideTest, test => Object(("on", Date(test.On)), ("ppm", test.Ppm)))));

    private static JsonObject Substance(SubstanceReference substance) => Object(
        ("cas", substance.Cas),
        ("name", substance.Name),
        ("smiles", substance.Smiles),
        ("properties", Of(substance.Properties, Properties)));

    private static JsonObject Properties(SubstanceProperties properties) => Object(
        ("formula", properties.Formula),
        ("molarMass", Quantity(properties.MolarMass)),
        ("state", Word(properties.State, Words.States)),
        ("density", Quantity(properties.Density)),
        ("meltingPoint", Quantity(properties.MeltingPoint)),
        ("boilingPoint", Quantity(properties.BoilingPoint)),
        ("flashPoint", Quantity(properties.FlashPoint)),
        ("autoignition", Quantity(properties.Autoignition)),
        ("lowerFlammableLimit", Quantity(properties.LowerFlammableLimit)),
        ("upperFlammableLimit", Quantity(properties.UpperFlammableLimit)),
        ("vapourPressure", Of(properties.VapourPressure, antoine => Object(
            ("a", antoine.A),
            ("b", antoine.B),
            ("c", antoine.C),
            ("pressureUnit", Word(antoine.PressureUnit, Words.AntoinePressureUnits)),
            ("temperatureUnit", Word(antoine.TemperatureUnit, Words.AntoineTemperatureUnits)),
            ("from", Quantity(antoine.From)),
            ("to", Quantity(antoine.To))))),
        ("source", properties.Source),
        ("sources", Of(properties.Sources, sources => new JsonObject(sources.Select(source => KeyValuePair.Create<string, JsonNode?>(source.Key, JsonValue.Create(source.Value)))))));

    private static (string Name, JsonNode? Value)[] Place(PlaceEntry place) =>
    [
        ("name", place.Name),
        ("kind", Word(place.Kind, Words.PlaceKinds)),
        ("roomVolume", Quantity(place.RoomVolume)),
        ("airFlow", Quantity(place.AirFlow)),
        ("agents", Array(place.Agents, agent => Word<Agent>(agent, Words.Agents))),
    ];

    private static (string Name, JsonNode? Value)[] Vessel(string identifier, VesselEntry vessel) =>
    [
        (identifier, vessel.Id),
        ("kind", vessel.Kind),
        ("volume", Quantity(vessel.Volume)),
        ("rating", Quantity(vessel.Rating)),
        ("ratingEvidence", vessel.RatingEvidence),
        ("maximumTemperature", Quantity(vessel.MaximumTemperature)),
        ("closure", vessel.Closure),
        ("inspectedOn", Date(vessel.InspectedOn)),
        ("relief", Of(vessel.Relief, relief => Object(("device", Word(relief.Device, Words.ReliefKinds)), ("set", Quantity(relief.Set))))),
        ("glassTube", Of(vessel.GlassTube, tube => Object(("outsideDiameterMm", tube.OutsideDiameterMm), ("wallMm", tube.WallMm), ("annealed", tube.Annealed)))),
        ("parts", Array(vessel.Parts, part => Object(
            ("part", part.Part), ("rating", Quantity(part.Rating)), ("maximumTemperature", Quantity(part.MaximumTemperature))))),
    ];

    private static JsonObject Step(StepEntry step) => Object(
        ("id", step.Id),
        ("action", Word(step.Action, Words.Actions)),
        ("vessel", step.Vessel),
        ("materials", Array(step.Materials, use => use.IsBare
            ? JsonValue.Create(use.Id)
            : Object(("id", use.Id), ("amount", Quantity(use.Amount))))),
        ("temperature", Quantity(step.Temperature)),
        ("duration", Quantity(step.Duration)),
        ("over", Quantity(step.Over)),
        ("heatSource", Word(step.HeatSource, Words.HeatSources)),
        ("independentCutOut", step.IndependentCutOut),
        ("surfaceTemperature", Quantity(step.SurfaceTemperature)),
        ("headspace", Gas(step.Headspace)),
        ("closure", Word(step.Closure, Words.Closures)),
        ("to", step.To),
        ("gas", Gas(step.Gas)),
        ("pressure", Quantity(step.Pressure)));

    private static JsonObject Reaction(ReactionEntry reaction) => Object(
        ("step", reaction.Step),
        ("consumes", Array(reaction.Consumes, consumption => Object(("material", consumption.Material), ("equivalents", consumption.Equivalents)))),
        ("produces", Array(reaction.Produces, production => Object(
            ("substance", Of(production.Substance, Substance)), ("equivalents", production.Equivalents), ("state", Word(production.State, Words.States))))),
        ("heat", Quantity(reaction.Heat)),
        ("accumulation", reaction.Accumulation),
        ("decompositionOnset", Quantity(reaction.DecompositionOnset)));

    private static JsonNode? Gas(GasEntry? gas) => gas switch
    {
        null => null,
        { Substance: { } substance } => Substance(substance),
        { Word: var word } => word,
    };

    private static JsonObject? Quantity(Quantity? quantity) =>
        quantity is null ? null : new JsonObject { ["value"] = quantity.Value, ["unit"] = quantity.Unit };

    private static JsonNode? Word<T>(T? value, WordTable<T> words)
        where T : struct, Enum
    {
        return value is { } given ? words.WordOf(given) : null;
    }

    private static JsonNode? Date(DateOnly? date) => date?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static JsonArray? Texts(IReadOnlyList<string>? texts) => Array(texts, text => JsonValue.Create(text));

    private static JsonArray? Array<T>(IReadOnlyList<T>? items, Func<T, JsonNode?> write) =>
        items is null ? null : [.. items.Select(write)];

    private static JsonNode? Of<T>(T? value, Func<T, JsonNode> write)
        where T : class
    {
        return value is null ? null : write(value);
    }

    private static JsonObject Object(params ReadOnlySpan<(string Name, JsonNode? Value)> members)
    {
        var json = new JsonObject();
        foreach ((string name, JsonNode? value) in members)
        {
            if (value is not null)
            {
                json[name] = value;
            }
        }

        return json;
    }
}
