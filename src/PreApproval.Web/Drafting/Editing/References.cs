using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>Keeps what names a material, a vessel or a step in line when its short name changes.</summary>
public static class References
{
    /// <summary>Renames everything that refers to rows of a list (<c>materials</c>, <c>vessels</c>, <c>steps</c>), all at once.</summary>
    public static void Rename(JsonObject root, string list, IReadOnlyDictionary<string, string> names)
    {
        if (names.Any(static name => !string.Equals(name.Key, name.Value, StringComparison.Ordinal)))
        {
            Map(root, list, id => names.TryGetValue(id, out string? to) ? to : id);
        }
    }

    /// <summary>A step that goes is not referred to any more: the next one gets its number and would be taken for it.</summary>
    public static void Leave(JsonObject root, string step)
    {
        if (step.Length == 0)
        {
            return;
        }

        foreach (JsonObject reaction in DocumentText.Rows(root, "reactions").Where(reaction => string.Equals(DocumentText.Text(reaction, "step"), step, StringComparison.Ordinal)))
        {
            reaction.Remove("step");
        }

        foreach (JsonObject safeguard in DocumentText.Rows(root, "safeguards"))
        {
            foreach (JsonNode named in (safeguard["steps"] as JsonArray ?? []).OfType<JsonValue>().Where(named => string.Equals(DocumentText.Text(named), step, StringComparison.Ordinal)).ToArray())
            {
                safeguard["steps"]!.AsArray().Remove(named);
            }
        }
    }

    /// <summary>Steps numbered 1, 2, 3 … keep being numbered in order, with all that refers to them; other identifiers are left alone.</summary>
    public static void NumberSteps(JsonObject root)
    {
        IReadOnlyList<JsonObject> steps = DocumentText.Rows(root, "steps");
        List<string> ids = [.. steps.Select(s => DocumentText.Text(s, "id"))];
        if (ids.Any(id => id.Length > 0 && !id.All(char.IsAsciiDigit)) || ids.Where(id => id.Length > 0).Distinct(StringComparer.Ordinal).Count() != ids.Count(id => id.Length > 0))
        {
            return;
        }

        Dictionary<string, string> renamed = new(StringComparer.Ordinal);
        for (int i = 0; i < steps.Count; i++)
        {
            string number = (i + 1).ToString(CultureInfo.InvariantCulture);
            if (ids[i].Length > 0)
            {
                renamed[ids[i]] = number;
            }

            if (!string.Equals(ids[i], number, StringComparison.Ordinal))
            {
                steps[i]["id"] = number;
            }
        }

        Rename(root, "steps", renamed);
    }

    private static void Map(JsonObject root, string list, Func<string, string> rename)
    {
        switch (list)
        {
            case "materials":
                One(root["scale"], "limiting", rename);
                foreach (JsonObject step in DocumentText.Rows(root, "steps"))
                {
                    Many(step, "materials", rename);
                    foreach (JsonObject use in DocumentText.Rows(step, "materials"))
                    {
                        One(use, "id", rename);
                    }
                }

                foreach (JsonObject consumed in DocumentText.Rows(root, "reactions").SelectMany(r => DocumentText.Rows(r, "consumes")))
                {
                    One(consumed, "material", rename);
                }

                foreach (JsonObject waste in DocumentText.Rows(root, "waste"))
                {
                    Many(waste, "materials", rename);
                }

                break;
            case "vessels":
                foreach (JsonObject step in DocumentText.Rows(root, "steps"))
                {
                    One(step, "vessel", rename);
                    One(step, "to", rename);
                }

                break;
            default:
                foreach (JsonObject reaction in DocumentText.Rows(root, "reactions"))
                {
                    One(reaction, "step", rename);
                }

                foreach (JsonObject safeguard in DocumentText.Rows(root, "safeguards"))
                {
                    Many(safeguard, "steps", rename);
                }

                break;
        }
    }

    private static void One(JsonNode? on, string member, Func<string, string> rename)
    {
        if (on is JsonObject o && DocumentText.Text(o, member) is { Length: > 0 } id && rename(id) is { } renamed && !string.Equals(renamed, id, StringComparison.Ordinal))
        {
            o[member] = renamed;
        }
    }

    private static void Many(JsonObject on, string member, Func<string, string> rename)
    {
        if (on[member] is not JsonArray list)
        {
            return;
        }

        for (int i = 0; i < list.Count; i++)
        {
            if (list[i] is JsonValue && DocumentText.Text(list[i]) is { Length: > 0 } id && rename(id) is { } renamed && !string.Equals(renamed, id, StringComparison.Ordinal))
            {
                list[i] = renamed;
            }
        }
    }
}
