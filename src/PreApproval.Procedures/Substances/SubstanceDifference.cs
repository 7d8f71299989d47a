using System.Globalization;
using PreApproval.Documents;
using PreApproval.Documents.Substances;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Substances;

/// <summary>What changed between two versions of a substance, in words for the history.</summary>
internal static class SubstanceDifference
{
    public static string Words(GroupSubstance before, GroupSubstance after) => Differences.Words(
        [
            ("name", before.Name, after.Name),
            ("synonyms", string.Join("; ", before.Synonyms), string.Join("; ", after.Synonyms)),
            ("CAS number", before.Cas ?? "", after.Cas ?? ""),
            ("structure", before.Smiles ?? "", after.Smiles ?? ""),
            .. Properties(before.Properties).Zip(Properties(after.Properties), (old, now) => (old.Name, old.Value, now.Value)),
        ],
        "its sources");

    private static IEnumerable<(string Name, string Value)> Properties(SubstanceProperties properties) =>
    [
        ("formula", properties.Formula ?? ""),
        ("molar mass", Differences.Words(properties.MolarMass)),
        ("state", properties.State?.ToString().ToLowerInvariant() ?? ""),
        ("density", Differences.Words(properties.Density)),
        ("melting point", Differences.Words(properties.MeltingPoint)),
        ("boiling point", Differences.Words(properties.BoilingPoint)),
        ("flash point", Differences.Words(properties.FlashPoint)),
        ("autoignition temperature", Differences.Words(properties.Autoignition)),
        ("lower flammable limit", Differences.Words(properties.LowerFlammableLimit)),
        ("upper flammable limit", Differences.Words(properties.UpperFlammableLimit)),
        ("vapour pressure", properties.VapourPressure is { } antoine ? string.Create(CultureInfo.InvariantCulture, $"Antoine {antoine.A}, {antoine.B}, {antoine.C}, {Differences.Words(antoine.From)} to {Differences.Words(antoine.To)}") : ""),
        ("source", properties.Source ?? ""),
    ];
}
