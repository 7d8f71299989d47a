using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Fire;
using PreApproval.Web.Drafting.Editing;
using PreApproval.Web.Shared;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Inventory;

/// <summary>The forms of the inventory: fields to JSON, faults of the JSON back to fields.</summary>
public static partial class InventoryForm
{
    /// <summary>Rows for parts that are not there yet.</summary>
    private const int FreeParts = 2;

    /// <summary>Lengths are plain numbers in mm; the unit may be typed behind them.</summary>
    private static readonly string[] Millimetres = ["mm"];

    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["label"] = "Label",
        ["kind"] = "What it is",
        ["volume"] = "Inner volume",
        ["rating"] = "Rated pressure",
        ["ratingEvidence"] = "Where the rating is written",
        ["maximumTemperature"] = "Highest temperature",
        ["closure"] = "Closure",
        ["inspectedOn"] = "Inspected on",
        ["relief-device"] = "Relief device",
        ["relief-set"] = "Opens at",
        ["glassTube-outsideDiameterMm"] = "Glass tube: outside diameter, mm",
        ["glassTube-wallMm"] = "Glass tube: wall, mm",
        ["glassTube-annealed"] = "Glass tube: annealed",
        ["outOfService"] = "Out of service, because",
        ["note"] = "Note",
        ["name"] = "Name",
        ["roomVolume"] = "Room volume",
        ["airFlow"] = "Air flow",
        ["place"] = "Place",
        ["agent"] = "Extinguishing agent",
        ["size"] = "Count and size",
        ["checkedOn"] = "Last checked on",
        ["reason"] = "Why",
    };

    private const string Missing = "is missing: ";

    /// <summary>Words of a choice that may be left open.</summary>
    public static IReadOnlyList<string> YesOrNo { get; } = ["yes", "no"];

    /// <summary>The fields of an entry that is there.</summary>
    public static IReadOnlyDictionary<string, string> Filled(InventoryContent content)
    {
        var fields = new Dictionary<string, string>(StringComparer.Ordinal);
        switch (content)
        {
            case InventoryVessel vessel:
                Fill(fields, vessel);
                break;
            case InventoryPlace place:
                fields["name"] = place.Name;
                fields["kind"] = place.KindWord;
                FormValues.Fill(fields, "roomVolume", place.Place.RoomVolume);
                FormValues.Fill(fields, "airFlow", place.Place.AirFlow);
                fields["note"] = place.Note ?? "";
                break;
            case InventoryAgent agent:
                fields["place"] = agent.Place.ToString();
                fields["agent"] = ExtinguishingAgents.Name(agent.Agent);
                fields["size"] = agent.Size ?? "";
                fields["checkedOn"] = Date(agent.CheckedOn);
                fields["note"] = agent.Note ?? "";
                break;
        }

        return fields;
    }

    /// <summary>Rows for parts in the form of a vessel.</summary>
    public static int PartRows(InventoryVessel? vessel) => Math.Min((vessel?.Vessel.Parts?.Count ?? 0) + FreeParts, InventoryVessel.MostParts);

    public static string PartField(int row, string member) => string.Create(CultureInfo.InvariantCulture, $"part-{row}-{member}");

    /// <summary>A posted vessel, as the API takes it. Numbers that are none are noted in <paramref name="faults"/>; <paramref name="rows"/> are those of its parts.</summary>
    public static byte[] Vessel(Func<string, string> posted, ICollection<FormError> faults, out IReadOnlyList<int> rows)
    {
        ArgumentNullException.ThrowIfNull(posted);
        var vessel = new JsonObject();
        Texts(vessel, posted, "label", "kind", "ratingEvidence", "closure", "inspectedOn", "outOfService", "note");
        Set(vessel, "volume", FormValues.Quantity(posted, "volume", Labels["volume"], Choices.Volumes, faults));
        Set(vessel, "rating", FormValues.Quantity(posted, "rating", Labels["rating"], Choices.Ratings, faults));
        Set(vessel, "maximumTemperature", FormValues.Quantity(posted, "maximumTemperature", Labels["maximumTemperature"], Choices.Temperatures, faults));
        PutFittings(vessel, posted, faults);
        JsonArray parts = [];
        List<int> given = [];
        for (int row = 0; row < InventoryVessel.MostParts; row++)
        {
            string rating = PartField(row, "rating");
            string temperature = PartField(row, "maximumTemperature");
            if (posted(PartField(row, "part")).Length + posted(rating).Length + posted(temperature).Length == 0)
            {
                continue;
            }

            var part = new JsonObject();
            FormValues.Put(part, "part", posted(PartField(row, "part")));
            Set(part, "rating", FormValues.Quantity(posted, rating, LabelOf(rating), Choices.Ratings, faults));
            Set(part, "maximumTemperature", FormValues.Quantity(posted, temperature, LabelOf(temperature), Choices.Temperatures, faults));
            parts.Add((JsonNode)part);
            given.Add(row);
        }

        if (parts.Count > 0)
        {
            vessel["parts"] = parts;
        }

        rows = given;
        return Bytes(vessel);
    }

    /// <summary>A posted place, as the API takes it.</summary>
    public static byte[] Place(Func<string, string> posted, ICollection<FormError> faults)
    {
        ArgumentNullException.ThrowIfNull(posted);
        var place = new JsonObject();
        Texts(place, posted, "name", "kind", "note");
        Set(place, "roomVolume", FormValues.Quantity(posted, "roomVolume", Labels["roomVolume"], Choices.RoomVolumes, faults));
        Set(place, "airFlow", FormValues.Quantity(posted, "airFlow", Labels["airFlow"], Choices.AirFlows, faults));
        return Bytes(place);
    }

    /// <summary>A posted agent, as the API takes it.</summary>
    public static byte[] Agent(Func<string, string> posted)
    {
        ArgumentNullException.ThrowIfNull(posted);
        var agent = new JsonObject();
        Texts(agent, posted, "place", "agent", "size", "checkedOn", "note");
        return Bytes(agent);
    }

    /// <summary>The field of a fault, and the fault in words that name it.</summary>
    /// <param name="fault">As the handler gave it.</param>
    /// <param name="rows">Rows of the form that the parts come from.</param>
    public static FormError Of(Fault fault, IReadOnlyList<int> rows)
    {
        ArgumentNullException.ThrowIfNull(fault);
        ArgumentNullException.ThrowIfNull(rows);
        string field = fault.Path.Split('/', StringSplitOptions.RemoveEmptyEntries) switch
        {
            ["parts", var index, var member, ..] when int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out int at) && at < rows.Count => PartField(rows[at], member),
            ["parts", ..] => PartField(0, "part"),
            [("relief" or "glassTube") and var around, var member, ..] => $"{around}-{member}",
            [var member, ..] => member,
            [] => "",
        };
        string message = (field, fault.Message.StartsWith(Missing, StringComparison.Ordinal)) switch
        {
            ("place", true) => "choose a place",
            ("relief-device", true) => $"choose {string.Join(" or ", Choices.ReliefDevices)}, or leave open where it opens",
            ("glassTube-annealed", _) => "choose yes or no, or leave it open where it is not known",
            _ => FormValues.Asked(fault),
        };
        return new FormError(field, $"{LabelOf(field)}: {Quoted.Replace(message, "“${text}”").TrimEnd('.')}.");
    }

    public static string LabelOf(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        return field.Split('-') is ["part", var row, var member] && int.TryParse(row, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            ? string.Create(CultureInfo.InvariantCulture, $"Part {number + 1}{(member is "part" ? "" : ", " + Labels[member].ToLowerInvariant())}")
            : Labels.GetValueOrDefault(field, field);
    }

    private static void Fill(Dictionary<string, string> fields, InventoryVessel vessel)
    {
        VesselEntry entry = vessel.Vessel;
        fields["label"] = vessel.Label;
        fields["kind"] = entry.Kind;
        fields["ratingEvidence"] = entry.RatingEvidence ?? "";
        fields["closure"] = entry.Closure ?? "";
        fields["inspectedOn"] = Date(entry.InspectedOn);
        fields["outOfService"] = vessel.OutOfService ?? "";
        fields["note"] = vessel.Note ?? "";
        FormValues.Fill(fields, "volume", entry.Volume);
        FormValues.Fill(fields, "rating", entry.Rating);
        FormValues.Fill(fields, "maximumTemperature", entry.MaximumTemperature);
        fields["relief-device"] = entry.Relief?.DeviceWord ?? "";
        FormValues.Fill(fields, "relief-set", entry.Relief?.Set);
        fields["glassTube-outsideDiameterMm"] = FormValues.Text(entry.GlassTube?.OutsideDiameterMm);
        fields["glassTube-wallMm"] = FormValues.Text(entry.GlassTube?.WallMm);
        fields["glassTube-annealed"] = entry.GlassTube?.Annealed is { } annealed ? YesOrNo[annealed ? 0 : 1] : "";
        foreach ((int row, VesselPartEntry part) in (entry.Parts ?? []).Index())
        {
            fields[PartField(row, "part")] = part.Part;
            FormValues.Fill(fields, PartField(row, "rating"), part.Rating);
            FormValues.Fill(fields, PartField(row, "maximumTemperature"), part.MaximumTemperature);
        }
    }

    /// <summary>Relief device and glass wall, each where anything of it was given: what is missing of one is then told.</summary>
    private static void PutFittings(JsonObject vessel, Func<string, string> posted, ICollection<FormError> faults)
    {
        var relief = new JsonObject();
        FormValues.Put(relief, "device", posted("relief-device"));
        Set(relief, "set", FormValues.Quantity(posted, "relief-set", Labels["relief-set"], Choices.Ratings, faults));
        Set(vessel, "relief", relief.Count > 0 ? relief : null);

        var tube = new JsonObject();
        foreach (string member in (string[])["outsideDiameterMm", "wallMm"])
        {
            if (FormValues.Quantity(posted, $"glassTube-{member}", Labels[$"glassTube-{member}"], Millimetres, faults) is { } length)
            {
                tube[member] = length["value"]!.DeepClone();
            }
        }

        switch (posted("glassTube-annealed"))
        {
            case "":
                break;
            case "yes":
                tube["annealed"] = true;
                break;
            case "no":
                tube["annealed"] = false;
                break;
            case var other:
                // Nothing that the page offers: refused as what it is.
                tube["annealed"] = other;
                break;
        }

        Set(vessel, "glassTube", tube.Count > 0 ? tube : null);
    }

    private static void Texts(JsonObject on, Func<string, string> posted, params ReadOnlySpan<string> members)
    {
        foreach (string member in members)
        {
            FormValues.Put(on, member, posted(member));
        }
    }

    private static void Set(JsonObject on, string member, JsonObject? quantity)
    {
        if (quantity is not null)
        {
            on[member] = quantity;
        }
    }

    private static string Date(DateOnly? date) => date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    private static byte[] Bytes(JsonObject json) => Encoding.UTF8.GetBytes(json.ToJsonString());

    [GeneratedRegex("\"(?<text>[^\"]*)\"", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Quoted { get; }
}
