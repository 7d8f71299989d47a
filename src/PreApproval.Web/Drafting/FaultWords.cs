using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting;

/// <summary>Says in words where in the document a fault is.</summary>
public static class FaultWords
{
    /// <summary>For instance <c>Step 3, surface temperature: must be …</c>.</summary>
    public static string Of(Fault fault, JsonObject document)
    {
        ArgumentNullException.ThrowIfNull(fault);
        string place = Place(fault.Path, document);
        return place.Length == 0 ? Words.Capital(fault.Message) : $"{place}: {fault.Message}";
    }

    private static string Place(string path, JsonObject document)
    {
        List<string> words = [];
        JsonNode? node = document;
        string before = "";
        foreach (string part in path.Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            bool row = int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out int index);
            node = DocumentText.At(node, part);
            if (row)
            {
                string id = DocumentText.Text(node, "id");
                string name = id.Length > 0 ? id : (index + 1).ToString(CultureInfo.InvariantCulture);
                words[^1] = $"{One(before)} {name}";
            }
            else if (part is not ("value" or "unit" or "name" or "cas"))
            {
                words.Add(Spaced(part));
            }

            before = part;
        }

        return Words.Capital(string.Join(", ", words));
    }

    private static string One(string list) => list switch
    {
        "materials" => "material",
        "vessels" => "vessel",
        "steps" => "step",
        "reactions" => "reaction",
        "safeguards" => "safeguard",
        "parts" => "part",
        "agents" => "agent",
        "mixture" => "component",
        _ => Spaced(list),
    };

    private static string Spaced(string member)
    {
        var text = new StringBuilder();
        foreach (char letter in member)
        {
            if (char.IsAsciiLetterUpper(letter))
            {
                text.Append(' ').Append(char.ToLowerInvariant(letter));
            }
            else
            {
                text.Append(letter);
            }
        }

        return text.ToString();
    }
}
