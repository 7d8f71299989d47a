using PreApproval.Documents.Units;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary>One value in the unit shown.</summary>
/// <param name="Name">For instance <c>flash point</c>.</param>
/// <param name="Value">In <paramref name="Unit"/>; null when there is none, with <paramref name="Because"/>.</param>
/// <param name="Unit">°C, bar, fraction, kg/m³, cm³/mol, J/(mol K), kJ/mol or 1.</param>
/// <param name="Quality">How it came about; null when there is no value.</param>
/// <param name="Sources">Full references.</param>
/// <param name="Others">Other published values, which do not govern.</param>
/// <param name="Because">Why there is no value.</param>
/// <param name="TemperatureC">Temperature it holds at in °C, where it depends on one.</param>
/// <param name="Range">Validity of the correlation behind it, where it comes from one.</param>
/// <param name="Note">What a reader must know to use it.</param>
internal sealed record SubstanceValue(
    string Name,
    double? Value,
    string Unit,
    Quality? Quality,
    IReadOnlyList<string> Sources,
    IReadOnlyList<SubstanceValue> Others,
    string? Because = null,
    double? TemperatureC = null,
    TemperatureRange? Range = null,
    string? Note = null);

/// <summary>Where a correlation is valid, in °C.</summary>
internal sealed record TemperatureRange(double MinimumC, double MaximumC);

/// <summary>Every value that is known of a substance.</summary>
internal static class SubstanceValues
{
    private const double PaPerBar = 1e5;
    private const double JPerKilojoule = 1e3;
    private const double Cm3PerM3 = 1e6;
    private const double StandardC = 25;

    public static IReadOnlyList<SubstanceValue> Of(Substance substance, double temperatureC) =>
    [
        .. One("boiling point", "°C", substance.BoilingPointK, Celsius),
        .. One("melting point", "°C", substance.MeltingPointK, Celsius),
        .. Several("flash point", "°C", substance.FlashPointK, Celsius),
        .. Several("autoignition temperature", "°C", substance.AutoignitionK, Celsius),
        .. Several("lower flammable limit", "fraction", substance.LowerFlammableLimit, Same),
        .. Several("upper flammable limit", "fraction", substance.UpperFlammableLimit, Same),
        VapourPressureAt(substance, temperatureC),
        .. One("density", "kg/m³", substance.DensityKgPerM3, Same, Celsius(substance.DensityTemperatureK)),
        .. One("critical temperature", "°C", substance.CriticalTemperatureK, Celsius),
        .. One("critical pressure", "bar", substance.CriticalPressurePa, Bar),
        .. One("critical volume", "cm³/mol", substance.CriticalVolumeM3PerMol, static volume => volume * Cm3PerM3),
        .. One("acentric factor", "1", substance.AcentricFactor, Same),
        .. One("heat capacity, liquid", "J/(mol K)", substance.LiquidHeatCapacityJPerMolK, Same, StandardC),
        .. One("enthalpy of vaporisation", "kJ/mol", substance.EnthalpyOfVaporisationJPerMol, Kilojoule, substance.BoilingPointK is { } boiling ? Celsius(boiling.Value) : null),
        .. One("enthalpy of formation, gas", "kJ/mol", substance.GasEnthalpyOfFormationJPerMol, Kilojoule, StandardC),
        .. One("enthalpy of formation, liquid", "kJ/mol", substance.LiquidEnthalpyOfFormationJPerMol, Kilojoule, StandardC),
        .. One("enthalpy of formation, solid", "kJ/mol", substance.SolidEnthalpyOfFormationJPerMol, Kilojoule, StandardC),
    ];

    /// <summary>Cleared of the last bits that the subtraction leaves: 318.15 K is 45 °C, not 44.99999999999994.</summary>
    public static double Celsius(double kelvin) => Math.Round(kelvin - UnitTable.CelsiusZeroK, 9);

    private static SubstanceValue VapourPressureAt(Substance substance, double temperatureC)
    {
        const string name = "vapour pressure";
        double temperatureK = temperatureC + UnitTable.CelsiusZeroK;
        VapourPressureValue pressure = VapourPressure.At(substance, temperatureK);
        string? because = pressure.Volatility switch
        {
            Volatility.Condensable => null,
            Volatility.None => "leaves no vapour worth counting at this temperature",
            Volatility.Gas => $"gas: above its critical temperature of {Output.Rounded.Temperature(Celsius(substance.CriticalTemperatureK!.Value))} °C, where no vapour pressure exists",
            Volatility.Unknown => substance.VapourPressure.Count == 0
                ? "no vapour-pressure correlation on file, and too little to estimate one"
                : $"out of every range on file ({Ranges(substance)}), and too little to estimate it",
        };
        if (because is not null)
        {
            return new SubstanceValue(name, null, "bar", null, [], [], because, temperatureC);
        }

        VapourPressureCorrelation? used = pressure.Quality is Quality.Correlated ? substance.VapourPressure.FirstOrDefault(correlation => correlation.MinimumK <= temperatureK && temperatureK <= correlation.MaximumK) : null;
        string? note = pressure.Quality is not Quality.Estimated ? null
            : substance.VapourPressure.Count == 0 ? "estimated: no correlation on file"
            : $"estimated outside the published ranges ({Ranges(substance)})";
        return new SubstanceValue(name, Bar(pressure.Pascal), "bar", pressure.Quality, [Catalog.Default.Reference(pressure.Source)], [], null, temperatureC, used is null ? null : new TemperatureRange(Celsius(used.MinimumK), Celsius(used.MaximumK)), note);
    }

    private static string Ranges(Substance substance) =>
        string.Join(", ", substance.VapourPressure.Select(correlation => $"{Output.Rounded.Temperature(Celsius(correlation.MinimumK))} to {Output.Rounded.Temperature(Celsius(correlation.MaximumK))} °C"));

    private static IEnumerable<SubstanceValue> One(string name, string unit, Sourced<double>? sourced, Func<double, double> convert, double? temperatureC = null) =>
        sourced is null ? [] : [Shown(name, unit, sourced, convert, []) with { TemperatureC = temperatureC }];

    private static IEnumerable<SubstanceValue> Several(string name, string unit, Published? published, Func<double, double> convert)
    {
        return published is null
            ? []
            : [Shown(name, unit, published.Governing, convert, [.. published.All.Where(other => other != published.Governing).Select(other => Shown(name, unit, other, convert, []))])];
    }

    private static SubstanceValue Shown(string name, string unit, Sourced<double> sourced, Func<double, double> convert, IReadOnlyList<SubstanceValue> others) =>
        new(name, convert(sourced.Value), unit, sourced.Quality, [.. sourced.Sources.Select(Catalog.Default.Reference)], others, Note: sourced.Note);

    private static double Bar(double pascal) => pascal / PaPerBar;

    private static double Kilojoule(double joule) => joule / JPerKilojoule;

    private static double Same(double value) => value;
}
