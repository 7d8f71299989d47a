using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Plans;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>
/// The document with what is tried written into it, and the list of what differs. The charts, the verdict and the draft all come from this one
/// document, so that what was seen is what is carried back.
/// </summary>
public sealed partial class ExploredDraft
{
    private readonly JsonObject _planned;
    private readonly List<(string Row, string Member, string Label)> _touched = [];

    private ExploredDraft(JsonObject planned)
    {
        _planned = planned;
        Root = (JsonObject)planned.DeepClone();
    }

    /// <summary>The changed document.</summary>
    public JsonObject Root { get; }

    /// <summary>What differs from the plan, in the order of the controls.</summary>
    public IReadOnlyList<DraftEdit> Edits => [.. _touched.Distinct()
        .Select(t => new DraftEdit(t.Row, t.Member, t.Label, At(_planned, t.Row)?[t.Member], At(Root, t.Row)?[t.Member]))
        .Where(static e => !JsonNode.DeepEquals(e.Before, e.After))];

    /// <summary>Temperature, vessel and solvent. The fill comes last, with <see cref="ScaleAmounts"/>, because it depends on these.</summary>
    /// <param name="planned">The plan, followed to its steps.</param>
    /// <param name="state">The step as planned.</param>
    /// <param name="values">What is tried.</param>
    /// <param name="toKeep">True for the draft: a rating that is only typical of a kind of vessel is left out, because only the mark on the vessel counts.</param>
    /// <param name="inventory">The group's: another vessel than one of these is none of these.</param>
    public static ExploredDraft Of(ExploredPlan planned, StepState state, ExploredValues values, bool toKeep, GroupInventory inventory)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(values);
        var draft = new ExploredDraft(planned.Root);
        if (values.TemperatureC is { } celsius)
        {
            draft.SetTemperature(state, celsius);
        }

        if (ListedVessels.Find(planned, state, inventory) is not null && ListedVessels.IsAnother(state, values))
        {
            draft.Unlist(planned.Document!, state, inventory);
        }

        draft.SetVessel(state, values, toKeep);
        if (values.Solvent is { } swap && planned.Document is { } document)
        {
            draft.Exchange(document, swap, planned.Plan!.Materials[swap.Material].Composition is Composition.Solution);
        }

        return draft;
    }

    /// <summary>All amounts of the procedure times a factor, to four figures: a batch of another size.</summary>
    public void ScaleAmounts(double factor)
    {
        Scale(Root["scale"] as JsonObject, "/scale", "scale of the procedure", factor);
        foreach ((JsonObject material, int i) in Numbered(DocumentText.Rows(Root, "materials")))
        {
            Scale(material, Pointer("materials", i), $"amount of {DocumentText.Text(material, "id")}", factor);
        }

        foreach ((JsonObject step, int s) in Numbered(DocumentText.Rows(Root, "steps")))
        {
            JsonArray uses = step["materials"] as JsonArray ?? [];
            for (int u = 0; u < uses.Count; u++)
            {
                Scale(uses[u] as JsonObject, $"{Pointer("steps", s)}/materials/{u.ToString(CultureInfo.InvariantCulture)}", $"amount of {DocumentText.Text(uses[u], "id")} in step {DocumentText.Text(step, "id")}", factor);
            }
        }
    }

    /// <summary>
    /// The same changes in another version of the draft. Refused, with the place in words, where that version has something else there or where the
    /// rows are not the same ones any more.
    /// </summary>
    public Result<JsonObject, string> Onto(JsonObject other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var changed = (JsonObject)other.DeepClone();
        foreach (DraftEdit edit in Edits)
        {
            if (At(changed, edit.Row) is not { } row || !IsSameRow(edit.Row, other) || !JsonNode.DeepEquals(row[edit.Member], edit.Before))
            {
                return $"{edit.Label} (here {edit.BeforeWords})";
            }

            Write(row, edit.Member, edit.After?.DeepClone());
        }

        return Edits.FirstOrDefault(edit => Unlisted is not null && edit.Member is "id" && DocumentText.Rows(changed, "steps").Any(step => Uses(step, edit.BeforeWords))) is { } renamed
            ? $"another step that uses {renamed.BeforeWords}"
            : changed;
    }

    private bool IsSameRow(string pointer, JsonObject other)
    {
        string[] parts = pointer.Split('/');
        string row = string.Join('/', parts.Take(3));
        return parts.Length < 3 || string.Equals(DocumentText.Text(At(_planned, row), "id"), DocumentText.Text(At(other, row), "id"), StringComparison.Ordinal);
    }

    private static bool Uses(JsonObject step, string vessel) =>
        string.Equals(DocumentText.Text(step, "vessel"), vessel, StringComparison.Ordinal) || string.Equals(DocumentText.Text(step, "to"), vessel, StringComparison.Ordinal);

    private void SetTemperature(StepState state, double celsius)
    {
        // The step that set the temperature; where none has, this one.
        int index = state.TemperatureStep ?? state.Index;
        if (Row("steps", index) is not { } step)
        {
            return;
        }

        string row = Pointer("steps", index);
        string id = DocumentText.Text(step, "id");
        Set(row, "temperature", $"set temperature of step {id}", Quantity(celsius, DocumentText.Text(step, "temperature/unit") is "K" ? "K" : "°C"));
        if (step["surfaceTemperature"] is JsonObject && DocumentText.Text(step, "surfaceTemperature/unit") is { } unit && Number(step, "surfaceTemperature/value") is { } typed)
        {
            double surface = unit is "K" ? typed - UnitTable.CelsiusZeroK : typed;
            double plannedC = state.TemperatureK - UnitTable.CelsiusZeroK;

            // A block set lower is cooler by as much; no surface is cooler than what it heats.
            double moved = celsius < plannedC ? surface - (plannedC - celsius) : Math.Max(surface, celsius);
            Set(row, "surfaceTemperature", $"hottest surface in step {id}", Quantity(moved, unit is "K" ? "K" : "°C"));
        }
    }

    private void Scale(JsonObject? on, string row, string label, double factor)
    {
        if (on is not null && Number(on, "amount/value") is { } value)
        {
            Set(row, "amount", label, Quantity(Figures(value * factor), DocumentText.Text(on, "amount/unit")));
        }
    }

    private void Set(string row, string member, string label, JsonNode? value)
    {
        if (At(Root, row) is { } on)
        {
            Write(on, member, value);
            _touched.Add((row, member, _touched.Find(t => string.Equals(t.Row, row, StringComparison.Ordinal) && string.Equals(t.Member, member, StringComparison.Ordinal)) is { Label: { } first } ? first : label));
        }
    }

    private static void Write(JsonObject on, string member, JsonNode? value)
    {
        if (value is null)
        {
            on.Remove(member);
        }
        else
        {
            on[member] = value;
        }
    }

    private JsonObject? Row(string list, int index) => At(Root, Pointer(list, index));

    private static JsonObject? At(JsonObject root, string pointer) => DocumentText.At(root, pointer[1..]) as JsonObject;

    private static string Pointer(string list, int index) => $"/{list}/{index.ToString(CultureInfo.InvariantCulture)}";

    private static IEnumerable<(JsonObject Row, int Index)> Numbered(IReadOnlyList<JsonObject> rows) => rows.Select(static (row, index) => (row, index));

    private static double? Number(JsonNode on, string path) =>
        double.TryParse(DocumentText.Text(on, path), NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : null;

    private static JsonObject Quantity(double value, string unit)
    {
        double shown = unit is "K" ? value + UnitTable.CelsiusZeroK : value;
        return new JsonObject { ["value"] = JsonNode.Parse(Math.Round(shown, 6).ToString("0.######", CultureInfo.InvariantCulture)), ["unit"] = unit };
    }

    private static double Figures(double value) => value == 0 ? 0 : Math.Round(value, Math.Clamp(3 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 12));
}
