using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <param name="Substance">A liquid.</param>
/// <param name="Mol">Amount in mol.</param>
public readonly record struct LiquidAmount(Substance Substance, double Mol);

/// <summary>The pressure in a vessel that its liquid fills.</summary>
/// <param name="Pascal">Absolute pressure in Pa; null where no published model gives one, with <paramref name="Because"/>.</param>
/// <param name="Because">Why there is none, or what the number rests on.</param>
/// <param name="Sources">Keys in <c>sources.bib</c>.</param>
public sealed record CompressedLiquidPressure(double? Pascal, string Because, IReadOnlyList<string> Sources);

/// <summary>
/// Liquid under pressure at fixed temperature, volume and amounts. Each liquid shrinks by itself (additive volumes): water by the industrial
/// formulation of 1997, everything else by Thomson, Brobst and Hankinson (<see cref="Costald"/>), corrected near 25 °C where the compressibility was measured (<see cref="MeasuredCompressibility"/>); solids and liquids without critical constants do
/// not shrink, which is the cautious side. Trapped gas stays a gas: it is squeezed as an ideal gas into what room the liquid leaves and does not dissolve,
/// which is cautious too.
/// </summary>
public static class CompressedLiquid
{
    /// <summary>Highest pressure in Pa the models are used for.</summary>
    public const double MaximumPa = 100e6;

    /// <summary>Highest reduced temperature of the equation of Thomson, Brobst and Hankinson.</summary>
    public const double HighestReducedTemperature = 0.95;

    private const double FurthestK = 1000;
    private const int MaximumIterations = 200;
    private const string Water = "7732-18-5";

    /// <summary>
    /// Volume under a pressure in Pa over the volume at saturation, at most 1; null where no published model gives it (no critical constants, reduced
    /// temperature above <see cref="HighestReducedTemperature"/>, pressure above <see cref="MaximumPa"/>, water above 623.15 K).
    /// </summary>
    public static double? Compression(Substance substance, double temperatureK, double pressurePa)
    {
        if (!(pressurePa <= MaximumPa) || Model(substance, temperatureK) is not { } model)
        {
            return null;
        }

        return model.At(pressurePa);
    }

    /// <summary>
    /// Isothermal compressibility −(1/V) dV/dP in 1/Pa of the liquid at a temperature in K and a pressure in Pa; null as for <see cref="Compression"/>.
    /// </summary>
    public static double? CompressibilityPerPa(Substance substance, double temperatureK, double pressurePa)
    {
        const double step = 1e5;
        return Model(substance, temperatureK) is { } model && Math.Max(pressurePa, model.SaturationPa) + step <= MaximumPa
            ? -Math.Log(model.At(Math.Max(pressurePa, model.SaturationPa) + step) / model.At(pressurePa)) / step
            : null;
    }

    /// <summary>
    /// Lowest temperature in K, from a start upwards, at which liquids at saturation fill a volume in m³; the start where they do
    /// already, null where they do not below 1000 K or the critical temperature of one of them. Exact to 0.001 K.
    /// </summary>
    public static double? FillTemperatureK(IReadOnlyList<LiquidAmount> liquids, double volumeM3, double fromK)
    {
        var end = FurthestK;
        foreach (var liquid in liquids)
        {
            end = Math.Min(end, liquid.Substance.CriticalTemperatureK?.Value ?? FurthestK);
        }

        if (SaturatedM3(liquids, fromK) >= volumeM3)
        {
            return fromK;
        }

        if (!(end > fromK) || SaturatedM3(liquids, end) < volumeM3)
        {
            return null;
        }

        var low = fromK;
        while (end - low > 0.001)
        {
            var middle = 0.5 * (low + end);
            (low, end) = SaturatedM3(liquids, middle) < volumeM3 ? (middle, end) : (low, middle);
        }

        return end;
    }

    /// <summary>
    /// Pressure in Pa of liquids shut into a volume, at a temperature in K. The pressure P solves V = V_solid + Σ n V(T, P) + n_gas R T/(P − P_vapour); it
    /// is never below the vapour pressure of the liquids, and rises with temperature and with every amount.
    /// </summary>
    /// <param name="liquids">Liquids and their amounts in mol.</param>
    /// <param name="volumeM3">Inner volume in m³.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    /// <param name="vapourPa">Vapour pressure of the liquids together, in Pa.</param>
    /// <param name="gasMol">Gas shut in with them, in mol.</param>
    /// <param name="rigidM3">Volume in m³ of what does not shrink.</param>
    public static CompressedLiquidPressure PressureAt(IReadOnlyList<LiquidAmount> liquids, double volumeM3, double temperatureK, double vapourPa, double gasMol = 0, double rigidM3 = 0)
    {
        if (vapourPa < 0 || gasMol < 0)
        {
            throw new ArgumentOutOfRangeException(vapourPa < 0 ? nameof(vapourPa) : nameof(gasMol), "A vapour pressure and an amount of gas are not negative.");
        }

        var parts = new List<(double SaturatedM3, CompressionModel Model)>(liquids.Count);
        var sources = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var (substance, mol) in liquids)
        {
            var volume = LiquidVolume.At(substance, temperatureK);
            sources.Add(volume.Source);
            if (substance.CriticalTemperatureK is { } tc && temperatureK > HighestReducedTemperature * tc.Value)
            {
                return new CompressedLiquidPressure(null, $"{substance.Identity.Name} is too near its critical temperature for the published model of compressed liquids", [.. sources]);
            }

            if (Model(substance, temperatureK) is { } model)
            {
                parts.Add((mol * volume.M3PerMol, model));
                sources.Add(model.Source);
                if (model.Anchor is { } anchor)
                {
                    sources.Add(anchor);
                }
            }
            else
            {
                rigidM3 += mol * volume.M3PerMol;
            }
        }

        if (parts.Count == 0)
        {
            return new CompressedLiquidPressure(null, "no published model gives the compressibility of this liquid", [.. sources]);
        }

        double Excess(double pascal)
        {
            var sum = rigidM3 - volumeM3 + (gasMol > 0 ? gasMol * GasConstant * temperatureK / (pascal - vapourPa) : 0);
            foreach (var (saturated, model) in parts)
            {
                sum += saturated * model.At(pascal);
            }

            return sum;
        }

        if (!(vapourPa < MaximumPa) || Excess(MaximumPa) > 0)
        {
            return new CompressedLiquidPressure(null, "the pressure is beyond 1000 bar, where the published models of compressed liquids end", [.. sources]);
        }

        var low = vapourPa;
        var high = MaximumPa;
        if (!(Excess(low) > 0))
        {
            return new CompressedLiquidPressure(vapourPa, "the liquid does not fill the vessel", [.. sources]);
        }

        // bisection, not a faster search: on one grid the answer rises with every amount to the last bit
        for (var iteration = 0; iteration < MaximumIterations && high - low > 1e-9 * high; iteration++)
        {
            var middle = 0.5 * (low + high);
            (low, high) = Excess(middle) > 0 ? (middle, high) : (low, middle);
        }

        return new CompressedLiquidPressure(high, "pressure of the compressed liquid", [.. sources]);
    }

    private static double SaturatedM3(IReadOnlyList<LiquidAmount> liquids, double temperatureK)
    {
        double sum = 0;
        foreach (var (substance, mol) in liquids)
        {
            sum += mol * LiquidVolume.At(substance, temperatureK).M3PerMol;
        }

        return sum;
    }

    private static CompressionModel? Model(Substance substance, double temperatureK)
    {
        if (VapourPressure.At(substance, temperatureK) is not { Volatility: Volatility.Condensable, Pascal: var saturationPa } || substance.PhaseAt298K == Phase.Solid)
        {
            return null;
        }

        if (substance.Identity.Cas is Water)
        {
            return temperatureK is >= WaterVolume.MinimumK and <= WaterVolume.MaximumK
                ? new CompressionModel(temperatureK, saturationPa, WaterVolume.At(temperatureK, saturationPa), 0, "iapws-if97")
                : null;
        }

        if (substance is not { CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc } || VapourPressure.AcentricFactor(substance) is not { } omega
            || temperatureK > HighestReducedTemperature * tc.Value)
        {
            return null;
        }

        var (b, c) = Costald.Constants(temperatureK / tc.Value, pc.Value, omega);
        string? anchor = null;
        if (temperatureK < MeasuredCompressibility.EndK && MeasuredCompressibility.Of(substance) is { } measured)
        {
            b *= MeasuredCompressibility.Factor(measured, Costald.Constants(measured.TemperatureK / tc.Value, pc.Value, omega).BPa, c, temperatureK);
            anchor = measured.Source;
        }

        return b + saturationPa > 0 ? new CompressionModel(temperatureK, saturationPa, b, c, "thomson1982") { Anchor = anchor } : null;
    }

    // First: for water its volume at saturation, else B in Pa. Second: C, 0 for water.
    private readonly record struct CompressionModel(double TemperatureK, double SaturationPa, double First, double Second, string Source)
    {
        /// <summary>Source of the measured compressibility that corrects the model; null: none does.</summary>
        public string? Anchor { get; init; }

        public double At(double pressurePa)
        {
            var pascal = Math.Max(pressurePa, SaturationPa);
            return Second == 0
                ? WaterVolume.At(TemperatureK, pascal) / First
                : 1 - (Second * Math.Log((First + pascal) / (First + SaturationPa)));
        }
    }
}
