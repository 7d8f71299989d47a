using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Web.Drafting.Editing;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Shared;

/// <summary>Values of posted forms as JSON, and values of JSON as fields: numbers as people type them, with their units.</summary>
public static class FormValues
{
    /// <summary>How the document's rules begin to say that a member must be there.</summary>
    private const string Missing = "is missing: ";

    /// <summary>Sets a member where something was typed.</summary>
    public static void Put(JsonObject on, string member, string text)
    {
        ArgumentNullException.ThrowIfNull(on);
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > 0)
        {
            on[member] = text;
        }
    }

    /// <summary>The quantity of a field and of its unit's field; null where none was typed, or none that is a number, which is then noted.</summary>
    public static JsonObject? Quantity(Func<string, string> posted, string field, string label, IReadOnlyList<string> units, ICollection<FormError> faults)
    {
        ArgumentNullException.ThrowIfNull(posted);
        ArgumentNullException.ThrowIfNull(units);
        TypedNumber typed = TypedNumber.Read(posted(field), units);
        return typed.Number.Length > 0 && Number(field, label, typed.Number, faults, units.Any(static unit => unit is "°C") ? "63 or −12.5" : "63 or 12.5") is { } value
            ? new JsonObject { ["value"] = value, ["unit"] = typed.Unit ?? (posted(field + "-unit") is { Length: > 0 } unit ? unit : units[0]) }
            : null;
    }

    /// <summary>The number, or null after having noted that it is none.</summary>
    public static double? Number(string field, string label, string text, ICollection<FormError> faults, string example = "63 or −12.5")
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(faults);
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value))
        {
            return value;
        }

        faults.Add(new FormError(field, $"{label}: “{(text.Length > 40 ? text[..40] + "…" : text)}” is not a number; write for instance {example}."));
        return null;
    }

    /// <summary>The fields of a quantity that is there.</summary>
    public static void Fill(IDictionary<string, string> fields, string name, Quantity? quantity)
    {
        ArgumentNullException.ThrowIfNull(fields);
        if (quantity is not null)
        {
            fields[name] = Text(quantity.Value);
            fields[name + "-unit"] = quantity.Definition.Symbol;
        }
    }

    /// <summary>A fault without that something is missing, which an empty field shows: what the field is for.</summary>
    public static string Asked(Fault fault)
    {
        ArgumentNullException.ThrowIfNull(fault);
        return fault.Message.StartsWith(Missing, StringComparison.Ordinal) ? fault.Message[Missing.Length..] : fault.Message;
    }

    public static string Text(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";
}
