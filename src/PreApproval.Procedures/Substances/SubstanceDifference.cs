using System.Globalization;
using PreApproval.Documents;
using PreApproval.Documents.Substances;

namespace PreApproval.Procedures.Substances;

/// <summary>What changed between two versions of a substance, in words for the history.</summary>
internal static class SubstanceDifference
{
    private const int Longest = 1_500;

    public static string Words(GroupSubstance before, GroupSubstance after)
    {
        string[] changes = [.. Of(before, after)];
        string text = changes.Length == 0 ? "its sources" : string.Join(", ", changes);
        return text.Length <= Longest ? text : string.Concat(text.AsSpan(0, Longest), " …");
    }

    private static IEnumerable<string> Of(GroupSubstance before, GroupSubstance after)
    {
        IEnumerable<(string Name, string Before, string After)> members =
        [
            ("name", before.Name, after.Name),
            ("synonyms", string.Join("; ", before.Synonyms), string.Join("; ", after.Synonyms)),
            ("CAS number", before.Cas ?? "", after.Cas ?? ""),
            ("structure", before.Smiles ?? "", after.Smiles ?? ""),
            .. Properties(before.Properties).Zip(Properties(after.Properties), (old, now) => (old.Name, old.Value, now.Value)),
        ];
        foreach ((string name, string old, string now) in members)
        {
            if (!string.Equals(old, now, StringComparison.Ordinal))
            {
                yield return $"{name} {Shown(old)} → {Shown(now)}";
            }
        }
    }

    private static IEnumerable<(string Name, string Value)> Properties(SubstanceProperties properties) =>
    [
        ("formula", properties.Formula ?? ""),
        ("molar mass", Words(properties.MolarMass)),
        ("state", properties.State?.ToString().ToLowerInvariant() ?? ""),
        ("density", Words(properties.Density)),
        ("melting point", Words(properties.MeltingPoint)),
        ("boiling point", Words(properties.BoilingPoint)),
        ("flash point", Words(properties.FlashPoint)),
        ("autoignition temperature", Words(properties.Autoignition)),
        ("lower flammable limit", Words(properties.LowerFlammableLimit)),
        ("upper flammable limit", Words(properties.UpperFlammableLimit)),
        ("vapour pressure", properties.VapourPressure is { } antoine ? string.Create(CultureInfo.InvariantCulture, $"Antoine {antoine.A}, {antoine.B}, {antoine.C}, {Words(antoine.From)} to {Words(antoine.To)}") : ""),
        ("source", properties.Source ?? ""),
    ];

    private static string Words(Quantity? quantity) => quantity is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{quantity.Value} {quantity.Unit}");

    private static string Shown(string text) => text.Length == 0 ? "(none)" : text;
}
