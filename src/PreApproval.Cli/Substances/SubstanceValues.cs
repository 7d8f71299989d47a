using PreApproval.Documents.Units;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary>One value in the unit shown.</summary>
/// <param name="Name">For instance <c>flash point</c>.</param>
/// <param name="Value">In <paramref name="Unit"/>; null when there is none, with <paramref name="Because"/>.</param>
/// <param name="Unit">°C, bar, fraction, kg/m³ or 1.</param>
/// <param name="Quality">How it came about; null when there is no value.</param>
/// <param name="Sources">Full references.</param>
/// <param name="Others">Other published values, which do not govern.</param>
/// <param name="Because">Why there is no value.</param>
/// <param name="TemperatureC">Temperature it holds at in °C, where it depends on one.</param>
internal sealed record SubstanceValue(
    string Name,
    double? Value,
    string Unit,
    Quality? Quality,
    IReadOnlyList<string> Sources,
    IReadOnlyList<SubstanceValue> Others,
    string? Because = null,
    double? TemperatureC = null);

/// <summary>Every value that is known of a substance.</summary>
internal static class SubstanceValues
{
    private const double PaPerBar = 1e5;

    public static IReadOnlyList<SubstanceValue> Of(Substance substance, double temperatureC) =>
    [
        .. One("boiling point", "°C", substance.BoilingPointK, Celsius),
        .. One("melting point", "°C", substance.MeltingPointK, Celsius),
        .. Several("flash point", "°C", substance.FlashPointK, Celsius),
        .. Several("autoignition temperature", "°C", substance.AutoignitionK, Celsius),
        .. Several("lower flammable limit", "fraction", substance.LowerFlammableLimit, Same),
        .. Several("upper flammable limit", "fraction", substance.UpperFlammableLimit, Same),
        VapourPressureAt(substance, temperatureC),
        .. One("density", "kg/m³", substance.DensityKgPerM3, Same),
        .. One("critical temperature", "°C", substance.CriticalTemperatureK, Celsius),
        .. One("critical pressure", "bar", substance.CriticalPressurePa, Bar),
        .. One("acentric factor", "1", substance.AcentricFactor, Same),
    ];

    private static SubstanceValue VapourPressureAt(Substance substance, double temperatureC)
    {
        const string name = "vapour pressure";
        VapourPressureValue pressure = VapourPressure.At(substance, temperatureC + UnitTable.CelsiusZeroK);
        string? because = pressure.Volatility switch
        {
            Volatility.Condensable => null,
            Volatility.None => "leaves no vapour worth counting at this temperature",
            Volatility.Gas => "above its critical temperature: a gas, without a vapour pressure",
            Volatility.Unknown => "not known",
        };
        return because is null
            ? new SubstanceValue(name, Bar(pressure.Pascal), "bar", pressure.Quality, [Catalog.Default.Reference(pressure.Source)], [], null, temperatureC)
            : new SubstanceValue(name, null, "bar", null, [], [], because, temperatureC);
    }

    private static IEnumerable<SubstanceValue> One(string name, string unit, Sourced<double>? sourced, Func<double, double> convert) =>
        sourced is null ? [] : [Shown(name, unit, sourced, convert, [])];

    private static IEnumerable<SubstanceValue> Several(string name, string unit, Published? published, Func<double, double> convert)
    {
        return published is null
            ? []
            : [Shown(name, unit, published.Governing, convert, [.. published.All.Where(other => other != published.Governing).Select(other => Shown(name, unit, other, convert, []))])];
    }

    private static SubstanceValue Shown(string name, string unit, Sourced<double> sourced, Func<double, double> convert, IReadOnlyList<SubstanceValue> others) =>
        new(name, convert(sourced.Value), unit, sourced.Quality, [.. sourced.Sources.Select(Catalog.Default.Reference)], others);

    /// <summary>Cleared of the last bits that the subtraction leaves: 318.15 K is 45 °C, not 44.99999999999994.</summary>
    private static double Celsius(double kelvin) => Math.Round(kelvin - UnitTable.CelsiusZeroK, 9);

    private static double Bar(double pascal) => pascal / PaPerBar;

    private static double Same(double value) => value;
}
