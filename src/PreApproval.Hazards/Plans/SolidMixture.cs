using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>
/// The temperature below which nothing of a liquid mixture stays liquid: its eutectic, from the ideal solubility of every component,
/// ln x = −(ΔS/R)(Tm/T − 1), where the x that can stay dissolved no longer add up to 1 (Prausnitz, Lichtenthaler, de Azevedo, Molecular Thermodynamics of
/// Fluid-Phase Equilibria, the chapter on solids in liquids). It does not depend on how much there is of each.
/// </summary>
internal static class SolidMixture
{
    /// <summary>
    /// Entropy of fusion over R that is taken for everything. Most solvents have 4 to 7 (benzene 4.3, 1,4-dioxane 5.3, tetrahydrofuran 6.2, from memory), so that 3 puts the eutectic
    /// lower than it is: that is the margin, 15 to 30 K for a pair of like melting points. It also covers what attraction between unlike molecules adds.
    /// </summary>
    private const double EntropyOverR = 3;

    /// <summary>
    /// With water, which makes hydrates and hydrogen bonds that freeze far lower: water and dimethyl sulfoxide, of 0 and 18.5 °C, are liquid down to about −73 °C (Rasmussen and
    /// MacKenzie, Nature 220 (1968) 1315, from memory), which 1.7 would give.
    /// </summary>
    private const double EntropyOverRWithWater = 1.6;

    private const string Water = "7732-18-5";

    /// <summary>In K; null where a liquid has no melting point on file, or there is none.</summary>
    public static double? BelowK(IReadOnlyList<Content> contents)
    {
        var melting = new List<double>(contents.Count);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var content in contents)
        {
            if (content is { Mol: null or > 0, Spent: false, Substance.Known: { PhaseAt298K: Phase.Liquid } known } && seen.Add(content.Substance.Key))
            {
                if (known.MeltingPointK is not { } melts)
                {
                    return null;
                }

                melting.Add(melts.Value);
            }
        }

        if (melting.Count == 0)
        {
            return null;
        }

        var entropy = seen.Contains(Water) ? EntropyOverRWithWater : EntropyOverR;
        double low = 1, high = melting.Min();
        while (high - low > 0.01)
        {
            var middle = 0.5 * (low + high);
            (low, high) = melting.Sum(tm => Math.Exp(-entropy * ((tm / middle) - 1))) < 1 ? (middle, high) : (low, middle);
        }

        return high;
    }
}
