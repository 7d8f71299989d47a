using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>One gas of an encounter.</summary>
/// <param name="Name">Name of the gas, or of the gases that it can be.</param>
/// <param name="MolPerEquivalent">Mol per equivalent of the limiting partner.</param>
public sealed record GasShare(string Name, double MolPerEquivalent);

/// <summary>What two or three families do to each other in one vessel.</summary>
public sealed record Encounter
{
    public required string Key { get; init; }

    public required string A { get; init; }

    public required string B { get; init; }

    /// <summary>Third family that must be present, or null.</summary>
    public string? C { get; init; }

    /// <summary>Severity at laboratory scale without any control.</summary>
    public required Severity Severity { get; init; }

    /// <summary>Lowest severity that dosing, cooling and an open vessel bring it to; null: none lowers it.</summary>
    public Severity? Floor { get; init; }

    public required IReadOnlyList<string> Consequences { get; init; }

    /// <summary>Gases that form, each with its stoichiometry; empty when none is worth counting.</summary>
    public required IReadOnlyList<GasShare> Gases { get; init; }

    /// <summary>The gases in words, or null.</summary>
    public string? Gas => field ??= Gases.Count == 0 ? null : Wording.List(Gases.Select(static gas => gas.Name));

    /// <summary>Mol of gas in all per equivalent of the limiting partner.</summary>
    public double GasPerEquivalent => Gases.Sum(static gas => gas.MolPerEquivalent);

    /// <summary>True when the first partner alone limits, the second being a catalyst, an initiator or in effect without limit.</summary>
    public bool FirstLimits { get; init; }

    /// <summary>True when the second partner alone limits, the first being a catalyst or an initiator.</summary>
    public bool SecondLimits { get; init; }

    /// <summary>Equivalents of the second partner that one equivalent of the first takes up, as the published equation says; 1 where nothing is said.</summary>
    public double SecondPerFirst { get; init; } = 1;

    /// <summary>Only above this temperature of the contents, in K.</summary>
    public double? AboveK { get; init; }

    /// <summary>Only up to this temperature of the contents, in K.</summary>
    public double? BelowK { get; init; }

    /// <summary>Why the two are without a known hazard outside the range of temperature of this row.</summary>
    internal HarmlessBasis OutOfRange => field ??= new HarmlessBasis(Key, $"a hazard of {A} with {B} is known only {PairWords.Range(this)}", Sources);

    /// <summary>Mass of the first partner in kg above which the row is one step worse; null: no such limit.</summary>
    public double? MassUpToKg { get; init; }

    /// <summary>Time in s from which the row is one step worse, unless a declared reaction uses it up; null: no such limit.</summary>
    public double? TimeUpToS { get; init; }

    /// <summary>True where only a fuel beside the first partner, or in it, makes it grave.</summary>
    public bool NeedsFuel { get; init; }

    public required string Reason { get; init; }

    /// <summary>Keys of the references.</summary>
    public required IReadOnlyList<string> Sources { get; init; }
}

/// <summary>The encounters of Data/encounters.tsv.</summary>
public static class EncounterTable
{
    /// <summary>Name of the pseudo-family of the air over the contents.</summary>
    public const string Air = "air";

    /// <summary>Name of the pseudo-family of a glass vessel.</summary>
    public const string Glass = "glass";

    /// <summary>Name of the pseudo-family of air that was still there when another gas came in.</summary>
    public const string UnpurgedAir = "air that was not purged";

    /// <summary>Name of the pseudo-family of heat; the condition of the row gives the temperature.</summary>
    public const string Heat = "heat";

    /// <summary>Name of the pseudo-family of drying without a liquid.</summary>
    public const string Drying = "drying";

    /// <summary>Name of the pseudo-family of grinding.</summary>
    public const string Grinding = "grinding";

    /// <summary>Name of the pseudo-family of distilling and evaporating.</summary>
    public const string Concentrating = "concentrating";

    /// <summary>Name of the pseudo-family of a vessel with ground joints.</summary>
    public const string GroundJoints = "ground joints";

    /// <summary>Name of the pseudo-family of a vessel of steel.</summary>
    public const string Steel = "steel";

    /// <summary>Name of the pseudo-family of copper and its alloys in vessel, closure or fittings.</summary>
    public const string CopperAlloy = "copper or brass";

    /// <summary>Name of the pseudo-family of a vessel or fitting of aluminium.</summary>
    public const string AluminiumWare = "aluminium ware";

    /// <summary>Name of the pseudo-family of a liner, seal or tube of PTFE.</summary>
    public const string Ptfe = "PTFE";

    /// <summary>Name of the pseudo-family of storing, for what air does to a bottle over months.</summary>
    public const string Storing = "storing";

    /// <summary>What is done to a substance rather than what meets it: such a row is an energetic finding.</summary>
    public static IReadOnlyList<string> Treatments { get; } = [Heat, Drying, Grinding, Concentrating, GroundJoints];

    /// <summary>What vessels and fittings are made of.</summary>
    public static IReadOnlyList<string> Construction { get; } = [Glass, Steel, CopperAlloy, AluminiumWare, Ptfe];

    /// <summary>Names that stand in rows like families and are none.</summary>
    public static IReadOnlyList<string> Pseudo { get; } = [Air, UnpurgedAir, Storing, .. Construction, .. Treatments];

    /// <summary>All rows in the order of the table.</summary>
    public static IReadOnlyList<Encounter> All { get; } = [.. EmbeddedTable.Rows("encounters.tsv").Select(Read)];

    /// <summary>Who stands in for the second partner, where the row has a treatment, so that a sentence can name it.</summary>
    internal static FrozenDictionary<string, IReadOnlyList<Content>> StandIns { get; } = Treatments.ToFrozenDictionary(
        static treatment => treatment,
        static treatment => (IReadOnlyList<Content>)[new Content(new PlanSubstance(treatment, treatment, null), null, null, null)],
        StringComparer.Ordinal);

    private static Encounter Read(IReadOnlyDictionary<string, string> row)
    {
        var gases = EmbeddedTable.Entries(row["gas"]);
        return new Encounter
        {
            Key = row["key"],
            A = row["a"],
            B = row["b"],
            C = row["c"].Length == 0 ? null : row["c"],
            Severity = Enum.Parse<Severity>(row["severity"], ignoreCase: true),
            Floor = row["floor"].Length == 0 ? null : Enum.Parse<Severity>(row["floor"], ignoreCase: true),
            Consequences = EmbeddedTable.Entries(row["consequences"]),
            Gases = [.. gases.Select(static entry => entry.Split(':')).Select(static gas => new GasShare(gas[0], double.Parse(gas[1], CultureInfo.InvariantCulture)))],
            FirstLimits = (gases.Count > 0 && gases[^1].EndsWith(":first", StringComparison.Ordinal)) || Has(row["condition"], "catalyst=second"),
            SecondLimits = Has(row["condition"], "catalyst=first"),
            NeedsFuel = Has(row["condition"], "fuel"),
            SecondPerFirst = Number(row["condition"], "ratio=") ?? 1,
            AboveK = Limit(row["condition"], "above="),
            BelowK = Limit(row["condition"], "below="),
            MassUpToKg = Number(row["condition"], "grams=") / 1000,
            TimeUpToS = Number(row["condition"], "hours=") * 3600,
            Reason = row["reason"],
            Sources = EmbeddedTable.Entries(row["sources"]),
        };
    }

    private static bool Has(string condition, string entry) => EmbeddedTable.Entries(condition).Contains(entry, StringComparer.Ordinal);

    private static double? Limit(string condition, string word) =>
        Number(condition, word) + 273.15;

    private static double? Number(string condition, string word) =>
        EmbeddedTable.Entries(condition).FirstOrDefault(entry => entry.StartsWith(word, StringComparison.Ordinal)) is { } entry
            ? double.Parse(entry[word.Length..], CultureInfo.InvariantCulture)
            : null;
}
