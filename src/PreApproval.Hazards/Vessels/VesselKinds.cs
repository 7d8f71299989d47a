using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>What a kind of vessel is commonly taken for. Its rating informs, only a stated one counts; its limit counts where no temperature is stated.</summary>
/// <param name="Kind">The kind in words.</param>
/// <param name="Words">Words in the kind as typed that name it.</param>
/// <param name="RatingPaGauge">Typical rating in Pa gauge; null: only what is stamped, or a formula, tells.</param>
/// <param name="UpToK">Temperature in K that the rating is good to; null: not said.</param>
/// <param name="LimitK">Temperature in K where seal or liner gives way; null: not said.</param>
/// <param name="Note">What else to know.</param>
public sealed record TypicalVessel(string Kind, IReadOnlyList<string> Words, double? RatingPaGauge, double? UpToK, double? LimitK, string Note)
{
    /// <summary>What gives way at the limit, in words; empty without a limit.</summary>
    public string Gives { get; init; } = "";

    /// <summary>True where no mark on the vessel lifts the limit.</summary>
    public bool LimitStands { get; init; }

    /// <summary>True where the wall alone holds the pressure, and a formula rates it.</summary>
    public bool RatedByWall { get; init; }

    /// <summary>True where more than the typical rating counts in the cavity of a microwave reactor only, which shuts down at a pressure of its own.</summary>
    public bool MoreOnlyInMicrowave { get; init; }
}

/// <summary>What a vessel is made of, as far as its thresholds depend on it.</summary>
public enum VesselMaterial
{
    Glass,
    Metal,
    Plastic,
}

/// <summary>Reads the kind of a vessel as typed.</summary>
public static class VesselKinds
{
    private static readonly string[] MetalWords = ["steel", "autoclave", "metal", "stainless", "alloy", "titanium"];

    private static readonly string[] CylinderWords = ["gas cylinder", "compressed gas", "lecture bottle"];

    private static readonly string[] PlasticWords = ["plastic", "polypropylene", "polyethylene", "hdpe", "fluoropolymer", "ptfe", "pfa", "centrifuge"];

    private static readonly string[] GlassWords = ["glass", "flask", "vial", "beaker", "schlenk", "funnel", "measuring cylinder"];

    /// <summary>Every kind of <c>Data/vessel-kinds.tsv</c>, the more particular first.</summary>
    public static IReadOnlyList<TypicalVessel> Typical { get; } =
    [
        .. EmbeddedTable.Rows("vessel-kinds.tsv").Select(static row => new TypicalVessel(
            row["kind"],
            EmbeddedTable.Entries(row["words"]),
            Number(row["ratingBarGauge"]) * 1e5,
            Number(row["upToC"]) + 273.15,
            Number(row["limitC"]) + 273.15,
            row["note"])
        {
            Gives = row["gives"],
            LimitStands = row["always"] is "yes",
            RatedByWall = row["ratingBarGauge"] is "formula",
            MoreOnlyInMicrowave = row["moreOnlyIn"] is "microwave",
        }),
    ];

    /// <summary>The kind of vessel the words name; null when no row has one of them.</summary>
    public static TypicalVessel? TypicalOf(string kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        for (var row = 0; row < Typical.Count; row++)
        {
            var words = Typical[row].Words;
            for (var word = 0; word < words.Count; word++)
            {
                if (kind.Contains(words[word], StringComparison.OrdinalIgnoreCase))
                {
                    return Typical[row];
                }
            }
        }

        return null;
    }

    /// <summary>The material; glass, the more cautious, when the words do not say.</summary>
    public static VesselMaterial MaterialOf(string kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        if (Names(kind, MetalWords))
        {
            return VesselMaterial.Metal;
        }

        // a cylinder is of glass unless it holds compressed gas
        if (Names(kind, CylinderWords) && !Names(kind, GlassWords) && !Names(kind, PlasticWords))
        {
            return VesselMaterial.Metal;
        }

        return Names(kind, PlasticWords) && !Names(kind, GlassWords) ? VesselMaterial.Plastic : VesselMaterial.Glass;
    }

    /// <summary>True when the words themselves name glass.</summary>
    public static bool SaysGlass(string kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        return Names(kind, GlassWords) && !Names(kind, PlasticWords) && !Names(kind, MetalWords);
    }

    /// <summary>True where the text holds one of the words.</summary>
    internal static bool Names(string kind, string[] words)
    {
        foreach (var word in words)
        {
            if (kind.Contains(word, StringComparison.OrdinalIgnoreCase))
            {
                return true;
            }
        }

        return false;
    }

    private static double? Number(string cell) => double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;
}
