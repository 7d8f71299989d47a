using PreApproval.Documents.Units;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>The words and units that fields offer. The document layer judges; these are what the contract names.</summary>
public static class Choices
{
    public static IReadOnlyList<string> Actions { get; } =
    [
        "charge", "add", "seal", "open", "vent", "purge", "evacuate", "heat", "cool", "hold", "stir", "reflux", "distil", "filter", "transfer", "quench", "extract",
        "concentrate", "store", "discard", "pressurise", "degas", "irradiate", "grind", "dry", "wash", "chromatograph",
    ];

    public static IReadOnlyList<string> Roles { get; } = ["reagent", "solvent", "catalyst", "product", "quench", "gas", "other"];

    public static IReadOnlyList<string> HeatSources { get; } =
        ["metal block", "oil bath", "water bath", "sand bath", "hotplate", "mantle", "oven", "microwave", "heat gun", "steam", "ice bath", "cryogenic bath"];

    public static IReadOnlyList<string> Closures { get; } = ["stopper", "septum", "balloon", "bubbler", "needle", "plug", "cap"];

    public static IReadOnlyList<string> ReliefDevices { get; } = ["valve", "bursting disc"];

    public static IReadOnlyList<string> Headspaces { get; } = ["air", "nitrogen", "argon", "hydrogen", "carbon dioxide", "oxygen", "vacuum"];

    public static IReadOnlyList<string> Attendances { get; } = ["attended", "unattended", "overnight"];

    public static IReadOnlyList<string> Experiences { get; } = ["first time", "under supervision", "experienced"];

    public static IReadOnlyList<string> Places { get; } = ["bench", "hood", "hood with scrubber"];

    public static IReadOnlyList<string> Agents { get; } = ["water", "foam", "carbon dioxide", "dry powder", "class D powder", "dry sand", "wet chemical", "fire blanket"];

    public static IReadOnlyList<string> Phases { get; } = ["gas", "liquid", "solid"];

    public static IReadOnlyList<string> Controls { get; } =
    [
        "fume hood", "blast shield", "relief device", "independent cut-out", "vent to bubbler", "scrubber", "second person", "gas detector", "secondary containment",
    ];

    public static IReadOnlyList<string> Amounts { get; } = ["mL", "g", "mmol", "mg", "mol", "L", "kg", "µL", "µmol"];

    public static IReadOnlyList<string> Volumes { get; } = ["mL", "L", "µL"];

    public static IReadOnlyList<string> RoomVolumes { get; } = ["m³", "L"];

    public static IReadOnlyList<string> Temperatures { get; } = Of(Dimension.Temperature);

    public static IReadOnlyList<string> Ratings { get; } = ["bar(g)", "psi(g)", "bar", "kPa", "MPa", "psi", "atm"];

    public static IReadOnlyList<string> Pressures { get; } = ["bar", "mbar", "kPa", "MPa", "psi", "atm", "bar(g)", "psi(g)"];

    public static IReadOnlyList<string> Durations { get; } = ["min", "h", "s", "d"];

    public static IReadOnlyList<string> Concentrations { get; } = ["mol/L", "wt%", "vol%", "mol%"];

    public static IReadOnlyList<string> Fractions { get; } = ["vol%", "wt%", "mol%"];

    public static IReadOnlyList<string> MolarHeats { get; } = Of(Dimension.MolarEnergy);

    public static IReadOnlyList<string> AirFlows { get; } = ["m³/h", "L/min", "mL/min"];

    private static List<string> Of(Dimension dimension) => [.. UnitTable.All.Where(u => u.Dimension == dimension).Select(u => u.Symbol)];
}
