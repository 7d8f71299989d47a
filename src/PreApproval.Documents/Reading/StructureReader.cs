using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Reading;

/// <summary>
/// Tree to records: member names, types, words, units, lengths. Faulty parts become placeholders (an empty identifier, an
/// absent quantity), so that the rest can still be judged; see <see cref="Rules.DocumentRules"/>.
/// </summary>
internal sealed partial class StructureReader(FaultList faults)
{
    /// <summary>Most entries of each list; far above what one procedure needs, and few enough to be screened in a second or two.</summary>
    public const int MostMaterials = 100;
    public const int MostVessels = 50;
    public const int MostSteps = 200;
    public const int MostOthers = 100;

    public ProcedureDocument Document(JsonTree root)
    {
        var reader = new ObjectReader(root, "", "a procedure document as an object", faults);
        if (reader.Take("schema", $"write \"{ProcedureDocument.SchemaName}\"") is { } schema
            && schema is not JsonTree.Text { Value: ProcedureDocument.SchemaName })
        {
            faults.Invalid("/schema", $"must be \"{ProcedureDocument.SchemaName}\"");
        }

        var document = new ProcedureDocument
        {
            Title = reader.Text("title", TextLimit.Line, "every procedure has a title") ?? "",
            Purpose = reader.Text("purpose", TextLimit.Paragraphs),
            Source = reader.Object("source", Source),
            Scale = reader.Object("scale", Scale),
            Materials = reader.List("materials", MostMaterials, Material, "list what is used, with amounts", least: 1) ?? [],
            Attendance = reader.Word("attendance", Words.Attendances),
            Lone = reader.Truth("lone"),
            People = reader.Object("people", People),
            Protection = reader.Object("protection", Protection),
            Place = reader.Object("place", Place),
            PlannedOn = reader.Date("plannedOn"),
            Vessels = reader.List("vessels", MostVessels, Vessel, "list the vessels", least: 1) ?? [],
            Steps = reader.List("steps", MostSteps, Step, "list what is done, step by step", least: 1) ?? [],
            Reactions = reader.List("reactions", MostOthers, Reaction),
            Safeguards = reader.List("safeguards", MostOthers, Safeguard),
            FireResponse = reader.Object("fireResponse", FireResponse),
            Waste = reader.List("waste", MostOthers, Waste),
        };
        reader.End();
        return document;
    }

    private SourceEntry Source(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "the source as an object", faults);
        var source = new SourceEntry(reader.Text("citation", TextLimit.Paragraphs), reader.Text("changes", TextLimit.Paragraphs));
        reader.End();
        return source;
    }

    private ScaleEntry Scale(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "the scale as an object", faults);
        var scale = new ScaleEntry(
            reader.Text("limiting", TextLimit.Identifier, "name the limiting material by its id"),
            reader.Quantity("amount", MemberUnits.Amount));
        reader.End();
        return scale;
    }

    private PeopleEntry People(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "people as an object", faults);
        var people = new PeopleEntry(reader.Word("experience", Words.Experiences));
        reader.End();
        return people;
    }

    private ProtectionEntry Protection(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "protection as an object", faults);
        var protection = new ProtectionEntry(reader.Text("gloves", TextLimit.Line), reader.Text("eyes", TextLimit.Line), reader.Text("coat", TextLimit.Line));
        reader.End();
        return protection;
    }

    private PlaceEntry Place(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "the place as an object", faults);
        var place = new PlaceEntry(
            reader.Text("name", TextLimit.Line),
            reader.Word("kind", Words.PlaceKinds),
            reader.Quantity("roomVolume", MemberUnits.RoomVolume),
            reader.Quantity("airFlow", MemberUnits.AirFlow))
        {
            Agents = Agents(reader),
        };
        reader.End();
        return place;
    }

    private IReadOnlyList<Agent>? Agents(ObjectReader reader) =>
        reader.List("agents", MostOthers, (item, itemPath) => ObjectReader.WordOf(item, itemPath, Words.Agents, faults)) is { } agents ? [.. agents.OfType<Agent>()] : null;

    private SafeguardEntry Safeguard(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a safeguard as an object", faults);
        var safeguard = new SafeguardEntry(
            reader.Text("control", TextLimit.Line, "name the control, for instance \"blast shield\"") ?? "",
            reader.List("steps", MostSteps, Identifier),
            reader.Text("detail", TextLimit.Paragraphs));
        reader.End();
        return safeguard;
    }

    private FireResponseEntry FireResponse(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "the fire response as an object", faults);
        var response = new FireResponseEntry(Agents(reader), reader.Text("plan", TextLimit.Paragraphs));
        reader.End();
        return response;
    }

    private WasteEntry Waste(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a waste container as an object", faults);
        var waste = new WasteEntry(
            reader.List("materials", MostMaterials, Identifier, "name what goes in by material id", least: 1) ?? [],
            reader.Text("container", TextLimit.Line, "say which container") ?? "");
        reader.End();
        return waste;
    }

    private string Identifier(JsonTree value, string path) => ObjectReader.TextOf(value, path, TextLimit.Identifier, faults) ?? "";
}
