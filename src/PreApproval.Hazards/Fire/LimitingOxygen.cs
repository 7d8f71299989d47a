using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>Oxygen below which nothing burns under nitrogen, and what an inert atmosphere has to stay below. Volume fractions.</summary>
public static class LimitingOxygen
{
    private static readonly Dictionary<string, Sourced<double>> OnFile = EmbeddedTable.Rows("limiting-oxygen.tsv").ToDictionary(
        static row => row["cas"],
        static row => new Sourced<double>(double.Parse(row["fraction"], CultureInfo.InvariantCulture), Enum.Parse<Quality>(row["quality"], ignoreCase: true), EmbeddedTable.Entries(row["sources"])),
        StringComparer.Ordinal);

    /// <summary>Limiting oxygen fraction in nitrogen: on file (Data/limiting-oxygen.tsv), else z times the lower limit, estimated; null where neither can be had.</summary>
    public static Sourced<double>? Of(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        if (substance.Identity.Cas is { } cas && OnFile.TryGetValue(cas, out var value))
        {
            return value;
        }

        return Combustion.OxygenPerMol(substance) is { } z && substance.LowerFlammableLimit?.Governing is { } lower
            ? new Sourced<double>(Math.Min(FlammableLimits.LimitingOxygen(z, lower.Value), Combustion.OxygenInAir), Quality.Estimated, ["crowl-louvar", .. lower.Sources])
            : null;
    }

    /// <summary>
    /// Largest oxygen fraction allowed in an inert atmosphere: 2 vol% below the limiting one with a continuous monitor (60 % of it where
    /// that is below 5 vol%), 60 % of it without one (NFPA 69, from memory).
    /// </summary>
    public static double Allowed(double limitingFraction, bool monitored) =>
        monitored && limitingFraction >= 0.05
            ? limitingFraction - FireThresholds.OxygenDistanceMonitored
            : limitingFraction * FireThresholds.OxygenShareUnmonitored;

    /// <summary>
    /// Oxygen fraction left after cycles of evacuating to a pressure and filling up with inert gas to atmospheric pressure: 0.21 (p/P)^n
    /// (Crowl and Louvar, vacuum purging).
    /// </summary>
    /// <param name="evacuatedPaAbs">Pressure reached each time in Pa absolute.</param>
    /// <param name="cycles">Number of cycles, at least 0.</param>
    public static double AfterVacuumPurge(double evacuatedPaAbs, int cycles) => Combustion.OxygenInAir * Math.Pow(evacuatedPaAbs / AtmospherePa, cycles);

    /// <summary>
    /// Oxygen fraction left after sweeping a well-mixed vessel with a volume of inert gas: 0.21 exp(−q/V) (Crowl and Louvar, sweep-through purging).
    /// </summary>
    /// <param name="sweptVolumes">Volumes of gas passed per volume of the vessel.</param>
    public static double AfterSweep(double sweptVolumes) => Combustion.OxygenInAir * Math.Exp(-sweptVolumes);
}
