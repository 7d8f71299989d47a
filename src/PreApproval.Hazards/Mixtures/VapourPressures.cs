using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Mixtures;

/// <summary>Vapour pressures of the parts of a mixture at one temperature.</summary>
internal sealed class VapourPressures
{
    private VapourPressures(double[] pascal) => Pascal = pascal;

    /// <summary>In Pa, in the order of the parts; 0 for what leaves no vapour.</summary>
    public double[] Pascal { get; }

    /// <summary>Why the pressures cannot be had; null when they can.</summary>
    public string? Because { get; private init; }

    public Quality Quality { get; private init; }

    public IReadOnlyList<string> Sources { get; private init; } = [];

    public IReadOnlyList<string> Warnings { get; private init; } = [];

    public static VapourPressures At(LiquidMixture mixture, double temperatureK)
    {
        var pascal = new double[mixture.Parts.Count];
        var quality = Quality.Measured;
        var sources = new List<string>(pascal.Length);
        List<string>? warnings = null;
        string? because = null;
        for (var index = 0; index < pascal.Length; index++)
        {
            if (mixture.LeftOut.Contains(index))
            {
                continue;
            }

            var substance = mixture.Parts[index].Substance;
            var value = VapourPressure.At(substance, temperatureK);
            pascal[index] = value.Pascal;
            because ??= value.Volatility switch
            {
                Volatility.Gas => $"{substance.Identity.Name} is a gas above its critical temperature of {Screening.Wording.Celsius(substance.CriticalTemperatureK!.Value)} and has no vapour pressure",
                Volatility.Unknown => $"no vapour pressure of {substance.Identity.Name} is on file at {Screening.Wording.Celsius(temperatureK)}",
                Volatility.Condensable or Volatility.None => null,
            };
            if (value.Volatility == Volatility.Condensable)
            {
                quality = VesselPoint.Worse(quality, value.Quality);
                sources.AddInOrder(value.Source);
                if (value.Quality == Quality.Estimated)
                {
                    (warnings ??= []).Add($"The vapour pressure of {substance.Identity.Name} is estimated: the temperature is outside the range of its published correlation.");
                }
            }
        }

        return new VapourPressures(pascal) { Because = because, Quality = quality, Sources = sources, Warnings = warnings ?? (IReadOnlyList<string>)[] };
    }

    /// <summary>The pressures alone, in Pa in the order of the parts, for searches; false where one cannot be had.</summary>
    public static bool TryFill(LiquidMixture mixture, double temperatureK, Span<double> pascal)
    {
        pascal.Clear();
        for (var index = 0; index < pascal.Length; index++)
        {
            if (Array.IndexOf(mixture.LeftOut, index) >= 0)
            {
                continue;
            }

            var value = VapourPressure.At(mixture.Parts[index].Substance, temperatureK);
            if (value.Volatility is Volatility.Gas or Volatility.Unknown)
            {
                return false;
            }

            pascal[index] = value.Pascal;
        }

        return true;
    }

    /// <summary>Highest temperature in K at which every volatile part still has a vapour pressure.</summary>
    public static double CeilingK(LiquidMixture mixture)
    {
        var ceiling = HighestK;
        for (var index = 0; index < mixture.Parts.Count; index++)
        {
            if (!mixture.LeftOut.Contains(index) && !mixture.Parts[index].Substance.Involatile && mixture.Parts[index].Substance.CriticalTemperatureK is { } critical)
            {
                ceiling = Math.Min(ceiling, critical.Value);
            }
        }

        return ceiling;
    }

    /// <summary>No organic liquid is worth asking about above 1000 K.</summary>
    public const double HighestK = 1000;

    /// <summary>Below it correlations give nothing that could be called a pressure.</summary>
    public const double LowestK = 60;
}
