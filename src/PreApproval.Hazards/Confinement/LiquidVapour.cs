using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Confinement;

/// <summary>Vapour pressure of the liquids in an open vessel taken as an ideal mixture (Raoult's law), for screens that ask whether they boil.</summary>
internal static class LiquidVapour
{
    /// <summary>
    /// Σ x·Psat in Pa; 0 without volatile liquids. Where an amount is unknown the most volatile counts alone. A gas above its critical
    /// temperature that was charged as a liquid is left out: other checks look at it.
    /// </summary>
    /// <param name="contents">What is in the vessel.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    /// <param name="frozenCounts">False: what is below its melting point gives no vapour.</param>
    public static double IdealPa(IReadOnlyList<Content> contents, double temperatureK, bool frozenCounts = true)
    {
        double total = 0;
        double weighted = 0;
        double highest = 0;
        var unknown = false;
        foreach (var content in contents)
        {
            if (content is not { Mol: null or > 0, Substance.Known: { PhaseAt298K: Phase.Liquid } known })
            {
                continue;
            }

            unknown |= content.Mol is null;
            total += content.Mol ?? 0;
            var saturation = VapourPressure.At(known, Math.Max(temperatureK, 1));
            if (saturation.Volatility != Volatility.Condensable || (!frozenCounts && known.MeltingPointK?.Value > temperatureK))
            {
                continue;
            }

            weighted += (content.Mol ?? 0) * saturation.Pascal;
            highest = Math.Max(highest, saturation.Pascal);
        }

        return unknown ? highest : total > 0 ? weighted / total : 0;
    }

    /// <summary>A temperature in K, to 0.01 K, at which the liquids have no more than a pressure in Pa; the start when they have not even there.</summary>
    public static double BelowPressureK(IReadOnlyList<Content> contents, double startK, double pressurePa)
    {
        var low = 50.0;
        var high = startK;
        if (!(IdealPa(contents, high) > pressurePa))
        {
            return startK;
        }

        while (high - low > 0.01)
        {
            var middle = 0.5 * (low + high);
            if (IdealPa(contents, middle) > pressurePa)
            {
                high = middle;
            }
            else
            {
                low = middle;
            }
        }

        return low;
    }
}
