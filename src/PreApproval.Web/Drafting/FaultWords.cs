using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using PreApproval.Documents;
using PreApproval.Documents.Units;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting;

/// <summary>Says in the words of the form where in the document a fault is and what would be right. The document speaks of members; people fill in fields.</summary>
public static partial class FaultWords
{
    private const string NumberHint = "write the number with a point, for instance 1.5";

    /// <summary>Words of the form for members whose own name does not say it.</summary>
    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["id"] = "short name",
        ["volume"] = "inner volume",
        ["rating"] = "rated pressure",
        ["ratingEvidence"] = "where the rating is written",
        ["maximumTemperature"] = "highest temperature",
        ["outsideDiameterMm"] = "outside diameter of the glass, mm",
        ["wallMm"] = "wall of the glass, mm",
        ["device"] = "relief device",
        ["set"] = "opens at",
        ["temperature"] = "set temperature",
        ["duration"] = "how long",
        ["over"] = "added over",
        ["surfaceTemperature"] = "hottest surface",
        ["headspace"] = "gas over it",
        ["to"] = "into the vessel",
        ["heat"] = "heat",
        ["accumulation"] = "largest share not yet reacted",
        ["decompositionOnset"] = "decomposition starts at",
        ["ppm"] = "peroxide found",
        ["smiles"] = "structure",
        ["citation"] = "source",
        ["changes"] = "what differs from the source",
        ["limiting"] = "limiting material",
        ["control"] = "safeguard",
        ["detail"] = "which one, where",
        ["lone"] = "alone, nobody within call",
        ["fireResponse"] = "if it goes wrong",
    };

    /// <summary>Members that have no field of their own: the one around them is named.</summary>
    private static readonly HashSet<string> Unnamed = ["value", "unit", "name", "cas", "source", "scale", "people", "protection", "fireResponse", "peroxideTest", "relief", "glassTube"];

    /// <summary>For instance <c>Step 3: hottest surface must be …</c>.</summary>
    public static string Of(Fault fault, JsonObject document)
    {
        ArgumentNullException.ThrowIfNull(fault);
        string place = Place(fault.Path, document);
        string message = Message(fault, document);
        return place.Length == 0 ? Words.Capital(message) : place + (Predicate.IsMatch(message) ? " " : ": ") + message;
    }

    /// <summary>What is wrong, without the place.</summary>
    public static string Message(Fault fault, JsonObject document)
    {
        ArgumentNullException.ThrowIfNull(fault);
        string message = fault.Message;
        if (message.Contains(" as a number", StringComparison.Ordinal) && DocumentText.At(document, fault.Path.TrimStart('/')) is JsonValue value && value.GetValueKind() == JsonValueKind.String)
        {
            return $"“{DocumentText.Text(value)}” is no number; {NumberHint}{UnitsOf(fault.Path, document)}";
        }

        if (message.StartsWith("is missing: a material is", StringComparison.Ordinal) || message.StartsWith("names no substance", StringComparison.Ordinal))
        {
            return "is missing: give its name or its CAS number";
        }

        if (message.StartsWith("is blank", StringComparison.Ordinal) && fault.Path.EndsWith("/id", StringComparison.Ordinal))
        {
            return "is missing: give it one, by which the rest of the procedure can name it";
        }

        if (message.StartsWith("must be a date", StringComparison.Ordinal))
        {
            return "is no date of the calendar: year, month, day";
        }

        if (message.StartsWith("must be true or false", StringComparison.Ordinal))
        {
            return "choose yes or no";
        }

        message = Example.Replace(message.Replace("is empty: ", "", StringComparison.Ordinal), "");
        message = Entry.Replace(Identifier.Replace(message, "short name"), match =>
            $"row {(int.Parse(match.Groups["index"].Value, CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture)}");
        return Quoted.Replace(message.Replace("leave the member out", "leave it empty", StringComparison.Ordinal).Replace("of the contract", "known here", StringComparison.Ordinal), "“${text}”");
    }

    /// <summary>The units of a quantity whose value holds a unit of its own, or something else that is no number.</summary>
    private static string UnitsOf(string path, JsonObject document) =>
        path.EndsWith("/value", StringComparison.Ordinal) && UnitTable.TryFind(DocumentText.Text(document, path[1..^"value".Length] + "unit"), out Unit? chosen)
            ? $", in {string.Join(", ", UnitTable.All.Where(unit => unit.Dimension == chosen.Dimension).Select(static unit => unit.Symbol))}"
            : "";

    private static string Place(string path, JsonObject document)
    {
        List<string> words = [];
        JsonNode? node = document;
        string before = "";
        bool startsWithRow = false;
        foreach (string part in path.Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            bool row = int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out int index);
            node = DocumentText.At(node, part);
            if (row)
            {
                words[^1] = Row(before, index, node);
                startsWithRow |= words.Count == 1;
            }
            else if (!Unnamed.Contains(part))
            {
                words.Add(Labels.GetValueOrDefault(part) ?? Spaced(part));
            }
            else if (words.Count == 0)
            {
                words.Add(Spaced(part));
            }

            before = part;
        }

        string first = startsWithRow && words.Count > 1 ? words[0] + ": " : "";
        return Words.Capital(first + string.Join(", ", first.Length > 0 ? words[1..] : words));
    }

    /// <summary>The place in the list, and the short name where its author gave one.</summary>
    private static string Row(string list, int index, JsonNode? row)
    {
        string number = (index + 1).ToString(CultureInfo.InvariantCulture);
        string id = DocumentText.Text(row, "id");
        return !string.IsNullOrWhiteSpace(id) && !id.EndsWith(number, StringComparison.Ordinal) ? $"{One(list)} {number} ({id})" : $"{One(list)} {number}";
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
        "consumes" => "what is consumed",
        "produces" => "what is produced",
        "waste" => "container",
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

    /// <summary>An example in the notation of the document.</summary>
    [GeneratedRegex(@",? (for instance|such as) \{.*?\}(\})?| \(write it without quotes\)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Example { get; }

    /// <summary>The document counts entries from 0, people from 1.</summary>
    [GeneratedRegex("entry (?<index>[0-9]{1,6}) of this list", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Entry { get; }

    /// <summary>Messages that go on from the name of the field.</summary>
    [GeneratedRegex("^(is|must|has|adds|does|mixes|brings|stands|belongs|holds)\\b", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Predicate { get; }

    [GeneratedRegex(@"\b(short )?id\b", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Identifier { get; }

    [GeneratedRegex("\"(?<text>[^\"]*)\"", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Quoted { get; }
}
