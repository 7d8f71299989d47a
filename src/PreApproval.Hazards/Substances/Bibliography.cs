using System.Text;

namespace PreApproval.Hazards.Substances;

/// <summary>References in BibTeX, one entry a line, by key. The sentence of an entry is written when it is asked for.</summary>
internal static class Bibliography
{
    private static readonly string[] Order = ["author", "title", "series", "journal", "edition", "volume", "pages", "publisher", "year", "note"];

    /// <summary>The entries as they stand, by key.</summary>
    public static Dictionary<string, string> Read(string text)
    {
        var references = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var line in text.Split('\n'))
        {
            var open = line.IndexOf('{', StringComparison.Ordinal);
            var comma = line.IndexOf(',', StringComparison.Ordinal);
            if (line.StartsWith('@') && open > 0 && comma > open)
            {
                references[line[(open + 1)..comma]] = line[(comma + 1)..];
            }
        }

        return references;
    }

    /// <summary>An entry as a sentence.</summary>
    public static string Sentence(string body)
    {
        var fields = Fields(body);
        var parts = Order.Where(fields.ContainsKey).Select(name => name switch
        {
            "author" => fields[name].Replace(" and ", "; ", StringComparison.Ordinal),
            "edition" => "edition " + fields[name],
            "volume" => "vol. " + fields[name],
            "pages" => "pp. " + fields[name],
            _ => fields[name],
        });
        return string.Join(", ", parts) + ".";
    }

    private static Dictionary<string, string> Fields(string body)
    {
        var fields = new Dictionary<string, string>(StringComparer.Ordinal);
        var at = 0;
        while (body.IndexOf("={", at, StringComparison.Ordinal) is var equals && equals >= 0)
        {
            var name = body[at..equals].Trim(' ', ',');
            var value = new StringBuilder();
            var depth = 1;
            for (at = equals + 2; at < body.Length && depth > 0; at++)
            {
                depth += body[at] switch { '{' => 1, '}' => -1, _ => 0 };
                if (depth > 0 && body[at] is not ('{' or '}'))
                {
                    value.Append(body[at]);
                }
            }

            fields[name] = value.ToString();
        }

        return fields;
    }
}
