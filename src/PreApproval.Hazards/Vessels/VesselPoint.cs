using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>Pure-component properties of a sealed charge at one temperature, worked out once for all models.</summary>
internal sealed class VesselPoint
{
    // an empty list by itself would be a new one at each question
    private static readonly IReadOnlyList<Substance> None = [];

    private List<Substance>? _unknown;
    private List<Substance>? _pastCritical;
    private double[]? _dissolvedPa;

    public VesselPoint(SealedCharge charge, double temperatureK)
    {
        Charge = charge;
        Mixing = charge.Mixing.Length == 0 ? [] : new VolatilePart[charge.Mixing.Length];
        Apart = charge.Apart.Length == 0 ? [] : new VolatilePart[charge.Apart.Length];
        MoveTo(temperatureK);
    }

    /// <summary>Takes another charge with as many volatile contents; only for a point that no answer holds, and before its next temperature.</summary>
    public void MoveTo(SealedCharge charge) => (Charge, TemperatureK) = (charge, double.NaN);

    /// <summary>Works the properties out anew; only for a point that no answer holds, in a search.</summary>
    public void MoveTo(double temperatureK)
    {
        TemperatureK = temperatureK;
        Quality = Quality.Measured;
        _unknown = null;
        _pastCritical = null;
        _dissolvedPa = null;
        Fill(Mixing, Charge.Mixing);
        Fill(Apart, Charge.Apart);
        RoomM3 = 0;
        foreach (var part in Charge.Room)
        {
            var volume = LiquidVolume.At(part.Substance, temperatureK);
            RoomM3 += part.Mol * volume.M3PerMol;
            Quality = Worse(Quality, volume.Quality);
        }

        CondensedM3 = RoomM3;
        for (var i = 0; i < Charge.Dissolved.Length; i++)
        {
            CondensedM3 += Charge.Dissolved[i].Mol * Charge.DissolvedM3PerMol[i];
            Quality = Quality.Assumed;
        }

        foreach (var part in Mixing)
        {
            CondensedM3 += part.Mol * part.M3PerMol;
        }

        foreach (var part in Apart)
        {
            CondensedM3 += part.Mol * part.M3PerMol;
        }
    }

    /// <summary>What the point is of.</summary>
    public SealedCharge Charge { get; private set; }

    public double TemperatureK { get; private set; }

    public VolatilePart[] Mixing { get; }

    public VolatilePart[] Apart { get; }

    /// <summary>What condenses, as an equation of state sees it: <see cref="Mixing"/>, <see cref="Apart"/>, then the solutes as pure substances.</summary>
    public VolatilePart[] Condensable => Charge.Dissolved.Length == 0
        ? [.. Mixing, .. Apart]
        : [.. Mixing, .. Apart, .. Charge.Dissolved.Select(part => AsPure(part, TemperatureK))];

    /// <summary>Volume that a mol of each solute of <see cref="SealedCharge.Dissolved"/> adds to the liquid, in m³/mol.</summary>
    public double[] DissolvedM3PerMol => Charge.DissolvedM3PerMol;

    /// <summary>Partial pressure in Pa of each solute of <see cref="SealedCharge.Dissolved"/> with everything in the liquid.</summary>
    public double[] DissolvedPa => _dissolvedPa ??= Charge.Dissolved.Length == 0 ? [] : SolutionEquilibrium.DissolvedPa(this);

    /// <summary>Volume of what only takes room, in m³.</summary>
    public double RoomM3 { get; private set; }

    /// <summary>Volume with everything condensed, in m³.</summary>
    public double CondensedM3 { get; private set; }

    /// <summary>Volatile contents without a vapour pressure at this temperature.</summary>
    public IReadOnlyList<Substance> Unknown => _unknown ?? None;

    /// <summary>Contents that have passed their critical temperature since filling.</summary>
    public IReadOnlyList<Substance> PastCritical => _pastCritical ?? None;

    /// <summary>True when there are volatile contents and every one of them has passed its critical temperature.</summary>
    public bool AllPastCritical => PastCritical.Count > 0 && PastCritical.Count == Mixing.Length + Apart.Length;

    /// <summary>Gases in solution that have passed their critical temperature: nothing on file represents what is still dissolved.</summary>
    public IReadOnlyList<Substance> HeldPastCritical => _pastCritical is not null && Mixing.Length + Apart.Length > 1 ? _pastCritical.FindAll(SealedCharge.IsHeld) : None;

    public Quality Quality { get; private set; }

    /// <summary>Keys of the sources of the properties, sorted. Worked out when asked for: a search over temperature shows none.</summary>
    public IReadOnlyCollection<string> Sources
    {
        get
        {
            var sources = new List<string>(2 * (Charge.Room.Length + Mixing.Length + Apart.Length));
            foreach (var part in Charge.Room)
            {
                sources.Add(LiquidVolume.At(part.Substance, TemperatureK).Source);
            }

            foreach (var part in Charge.Dissolved)
            {
                sources.AddRange(SolutionDensities.Sources(Charge, part.Substance));
            }

            AddSources(sources, Charge.Mixing);
            AddSources(sources, Charge.Apart);
            return sources.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
        }
    }

    private void AddSources(List<string> sources, ChargedPart[] volatiles)
    {
        foreach (var part in volatiles)
        {
            sources.Add(LiquidVolume.At(part.Substance, TemperatureK).Source);
            if (VapourPressure.At(part.Substance, TemperatureK).Source is { Length: > 0 } source)
            {
                sources.Add(source);
            }
        }
    }

    /// <summary>Missing data and doubts at this temperature, in sentences.</summary>
    public IEnumerable<string> Warnings()
    {
        foreach (var (substance, _) in Charge.Mixing.Concat(Charge.Apart))
        {
            var name = substance.Identity.Name;
            var pressure = VapourPressure.At(substance, TemperatureK);
            if (pressure.Volatility is Volatility.Unknown)
            {
                yield return $"The vapour pressure of {name} at this temperature is not on file.";
            }
            else if (pressure is { Volatility: not Volatility.Gas, Quality: Quality.Estimated })
            {
                yield return $"The vapour pressure of {name} is estimated: the temperature is outside the range of its published correlation.";
            }
        }

        foreach (var doubt in SolutionEquilibrium.Doubts(Charge))
        {
            yield return $"No published data give {doubt}.";
        }

        foreach (var name in SolutionDensities.OutOfRange(Charge, TemperatureK))
        {
            yield return $"The partial pressure of {name} over its solution is extrapolated: strength or temperature is outside the published range.";
        }
    }

    public static Quality Worse(Quality a, Quality b) => a > b ? a : b;

    private static VolatilePart AsPure(ChargedPart part, double temperatureK)
    {
        var saturation = VapourPressure.At(part.Substance, temperatureK);
        return new VolatilePart(part.Substance.Key, part.Mol, saturation.Pascal, LiquidVolume.At(part.Substance, temperatureK).M3PerMol, saturation.Volatility is Volatility.Gas);
    }

    private void Fill(VolatilePart[] volatiles, ChargedPart[] parts)
    {
        for (var i = 0; i < parts.Length; i++)
        {
            volatiles[i] = Volatile(parts[i]);
        }
    }

    private VolatilePart Volatile(ChargedPart part)
    {
        var pressure = VapourPressure.At(part.Substance, TemperatureK);
        var volume = LiquidVolume.At(part.Substance, TemperatureK);
        Quality = Worse(Worse(Quality, pressure.Quality), volume.Quality);
        if (pressure.Volatility is Volatility.Gas)
        {
            (_pastCritical ??= []).Add(part.Substance);
        }
        else if (pressure.Volatility is Volatility.Unknown)
        {
            (_unknown ??= []).Add(part.Substance);
        }

        return new VolatilePart(part.Substance.Key, part.Mol, pressure.Pascal, volume.M3PerMol, pressure.Volatility is Volatility.Gas);
    }
}

/// <summary>A volatile content at one temperature.</summary>
/// <param name="Key">Substance key.</param>
/// <param name="Mol">Amount in mol.</param>
/// <param name="SaturationPa">Vapour pressure in Pa; NaN past the critical temperature.</param>
/// <param name="M3PerMol">Molar volume of the liquid in m³/mol.</param>
/// <param name="PastCritical">True: a gas, no vapour pressure.</param>
internal readonly record struct VolatilePart(string Key, double Mol, double SaturationPa, double M3PerMol, bool PastCritical);
