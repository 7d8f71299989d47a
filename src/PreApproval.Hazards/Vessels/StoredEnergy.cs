using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>Energy that a closed vessel sets free when it bursts, in J.</summary>
/// <param name="GasJ">Isentropic expansion of the gas space to the atmosphere.</param>
/// <param name="LiquidJ">Flash of the liquids that are above their boiling points.</param>
/// <param name="LeftOut">Substances whose share is missing because no boiling point is on file, by name.</param>
public sealed record StoredEnergy(double GasJ, double LiquidJ, IReadOnlyList<string> LeftOut)
{
    /// <summary>Energy of trinitrotoluene in J/kg: 4.5 MJ/kg; other books take 4.2 to 4.7.</summary>
    public const double TntJPerKg = 4.5e6;

    /// <summary>Ratio of heat capacities of the gas space. 1.4, air; vapours are lower, and the vapour's own condensation is left out.</summary>
    private const double Gamma = 1.4;

    /// <summary>
    /// Heat capacity of a liquid that has none on file, in J/(kg K): most organic liquids and liquefied gases have 1.0 to 2.5 at 25 °C, small amines up to 3.3; water and ammonia, which
    /// have more, are on file. Common practice, no source.
    /// </summary>
    internal const double AssumedJPerKgK = 3300;

    /// <summary>Sublimation point of carbon dioxide in K (CRC Handbook, from memory): it has no boiling point at the atmosphere.</summary>
    private const double DryIceK = 194.7;

    /// <summary>Substances whose heat capacity is assumed, by name.</summary>
    public IReadOnlyList<string> Assumed { get; init; } = [];

    /// <summary>Full reference of the two equations.</summary>
    public static string Source { get; } = Screening.References.Full("crowl-louvar");

    /// <summary>Everything, in J.</summary>
    public double TotalJ => GasJ + LiquidJ;

    /// <summary>Equivalent of trinitrotoluene in kg.</summary>
    public double TntKg => TotalJ / TntJPerKg;

    /// <summary>
    /// Isentropic expansion of an ideal gas to the atmosphere: p V/(γ − 1)·[1 − (p0/p)^((γ − 1)/γ)] (CCPS, Guidelines for vapour cloud explosions, pressure vessel bursts; Crowl and Louvar, ch. 6).
    /// </summary>
    /// <param name="pressurePaAbs">Pressure in Pa absolute.</param>
    /// <param name="gasM3">Volume of the gas in m³.</param>
    /// <param name="gamma">Ratio of heat capacities, above 1.</param>
    /// <returns>J; 0 at or below the atmosphere.</returns>
    public static double IsentropicJ(double pressurePaAbs, double gasM3, double gamma = Gamma)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(gamma, 1);
        return pressurePaAbs <= AtmospherePa ? 0
            : pressurePaAbs * gasM3 / (gamma - 1) * (1 - Math.Pow(AtmospherePa / pressurePaAbs, (gamma - 1) / gamma));
    }

    /// <summary>Brode's upper bound: (p − p0) V/(γ − 1), in J.</summary>
    public static double BrodeJ(double pressurePaAbs, double gasM3, double gamma = Gamma)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(gamma, 1);
        return Math.Max(0, pressurePaAbs - AtmospherePa) * gasM3 / (gamma - 1);
    }

    /// <summary>Isothermal expansion: p V ln(p/p0), in J.</summary>
    public static double IsothermalJ(double pressurePaAbs, double gasM3) =>
        pressurePaAbs <= AtmospherePa ? 0 : pressurePaAbs * gasM3 * Math.Log(pressurePaAbs / AtmospherePa);

    /// <summary>Available energy of a batch: p V [ln(p/p0) − (1 − p0/p)], in J (Crowl and Louvar, ch. 6).</summary>
    public static double AvailableJ(double pressurePaAbs, double gasM3) =>
        pressurePaAbs <= AtmospherePa ? 0 : pressurePaAbs * gasM3 * (Math.Log(pressurePaAbs / AtmospherePa) - (1 - (AtmospherePa / pressurePaAbs)));

    /// <summary>
    /// Work of a superheated liquid that cools to its boiling point in a flash: C [(T − Tb) − Tb ln(T/Tb)] with its whole heat capacity C (constant), net of pushing the atmosphere for a
    /// liquid at saturation.
    /// </summary>
    /// <param name="heatCapacityJPerK">Mass times heat capacity, in J/K.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    /// <param name="boilingPointK">Boiling point at 101 325 Pa in K.</param>
    /// <returns>J; 0 at or below the boiling point.</returns>
    public static double FlashJ(double heatCapacityJPerK, double temperatureK, double boilingPointK) =>
        temperatureK <= boilingPointK ? 0 : heatCapacityJPerK * (temperatureK - boilingPointK - (boilingPointK * Math.Log(temperatureK / boilingPointK)));

    /// <summary>Isentropic work of one kg of a saturated liquid expanding to a mixture at the lower pressure, from tables: quality and fall of internal energy in J/kg.</summary>
    /// <param name="entropy">Entropy of the hot liquid, of the cold liquid and of the cold vapour, in J/(kg K).</param>
    /// <param name="internalEnergy">Internal energies of the same three, in J/kg.</param>
    public static (double Quality, double FallJPerKg) Isentropic((double Hot, double ColdLiquid, double ColdVapour) entropy, (double Hot, double ColdLiquid, double ColdVapour) internalEnergy)
    {
        var quality = (entropy.Hot - entropy.ColdLiquid) / (entropy.ColdVapour - entropy.ColdLiquid);
        return (quality, internalEnergy.Hot - (internalEnergy.ColdLiquid + (quality * (internalEnergy.ColdVapour - internalEnergy.ColdLiquid))));
    }

    /// <summary>
    /// Of a closed step at the temperature of its highest pressure. The liquids count in full as liquid, each with its own boiling point: what has evaporated is counted twice
    /// rather than left out.
    /// </summary>
    internal static StoredEnergy? Of(ClosedAssessment assessment)
    {
        // full of liquid and past what any model gives: the heat of the liquid is known all the same, the work of the compressed liquid is not
        var highest = assessment.Peak.Pressure.PascalAbs;
        if (highest is null && !assessment.LiquidFull)
        {
            return null;
        }

        var pressure = highest ?? 0;

        var temperatureK = assessment.Peak.TemperatureK;
        var leftOut = new SortedSet<string>(assessment.NotCounted, StringComparer.Ordinal);
        if (highest is null)
        {
            leftOut.Add("the compression of the liquid and the gas");
        }

        var assumed = new SortedSet<string>(StringComparer.Ordinal);
        double liquid = 0;
        double condensedM3 = 0;
        foreach (var content in assessment.Input.Contents)
        {
            if (content.Substance.PhaseAt298K == Phase.Gas && content.Substance.CriticalTemperatureK?.Value <= temperatureK)
            {
                continue;
            }

            condensedM3 += content.Mol * LiquidVolume.At(content.Substance, temperatureK).M3PerMol;
            if (content.Substance.Involatile || content.Substance.PhaseAt298K == Phase.Solid)
            {
                continue;
            }

            var boilingK = content.Substance.BoilingPointK?.Value ?? (content.Substance.Key is "124-38-9" ? DryIceK : null);
            if (boilingK is not { } boiling)
            {
                leftOut.Add(content.Substance.Identity.Name);
            }
            else if (boiling < temperatureK)
            {
                // above the critical temperature the table's heat capacity stands for the fluid
                if ((LiquidHeatCapacity.JPerMolK(content.Substance, temperatureK) ?? content.Substance.LiquidHeatCapacityJPerMolK)?.Value is { } capacity)
                {
                    liquid += FlashJ(content.Mol * capacity, temperatureK, boiling);
                }
                else if (content.Substance.Identity.MolarMassKgPerMol is { } mass)
                {
                    liquid += FlashJ(content.Mol * mass * AssumedJPerKgK, temperatureK, boiling);
                    assumed.Add(content.Substance.Identity.Name);
                }
                else
                {
                    leftOut.Add(content.Substance.Identity.Name);
                }
            }
        }

        return new StoredEnergy(IsentropicJ(pressure, Math.Max(0, assessment.Input.VesselVolumeM3 - condensedM3)), liquid, [.. leftOut]) { Assumed = [.. assumed] };
    }
}
