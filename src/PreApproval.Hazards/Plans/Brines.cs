using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Plans;

/// <summary>Salts in water and ice: which brines stay liquid (Data/eutectics.tsv), and how many particles a salt gives. Grounds: docs/methods/cryogens-and-vacuum.md.</summary>
internal static class Brines
{
    private const string Water = "7732-18-5";

    private static readonly FrozenDictionary<string, (double TemperatureK, double MassFraction)> Eutectics = EmbeddedTable.Rows("eutectics.tsv").ToFrozenDictionary(
        static row => row["cas"],
        static row => (273.15 + Number(row["eutecticC"]), Number(row["massPercent"]) / 100),
        StringComparer.Ordinal);

    /// <summary>True where a salt that came as a solution has at least its eutectic share beside the water, and it is no colder than that eutectic: no ice forms.</summary>
    public static bool StaysLiquid(IReadOnlyList<Content> contents, double temperatureK)
    {
        var water = MassKg(contents, Water);
        foreach (var content in contents)
        {
            if (IsDissolved(content) && Eutectics.TryGetValue(content.Substance.Key, out var eutectic) && temperatureK >= eutectic.TemperatureK
                && MassKg(contents, content.Substance.Key) is var salt && salt >= eutectic.MassFraction * (salt + water))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Particles of a dissolved substance in water: its ions, else 1.</summary>
    public static int Particles(PlanSubstance substance) => (substance.Known?.Identity.Smiles ?? substance.Smiles) is { } smiles && smiles.Contains('.', StringComparison.Ordinal)
        ? Math.Max(1, smiles.Split('.').Count(static part => SmilesReader.TryRead(part, out var molecule, out _) && molecule.Charge != 0))
        : 1;

    private static bool IsDissolved(Content content) => content is { Spent: false, Mol: > 0, MassFraction: < 1 };

    private static double MassKg(IReadOnlyList<Content> contents, string key) =>
        contents.Where(content => !content.Spent && string.Equals(content.Substance.Key, key, StringComparison.Ordinal)).Sum(static content => (content.Mol * content.Substance.Known?.Identity.MolarMassKgPerMol) ?? 0);

    private static double Number(string cell) => double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);
}
