using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>What a vessel gives off when it lets go at its worst credible temperature. Docs: docs/methods/release.md.</summary>
public sealed record ReleaseEstimate
{
    private const double RoomK = 298.15;

    // one of the heat capacity, one of the heat of vaporisation, as a rule
    private const int SourcesOfOne = 2;

    // a fixed order of summing, so that the order of materials does not show in the last digit
    private static readonly Comparer<(PlanSubstance Substance, double Mol)> ByAmount = Comparer<(PlanSubstance Substance, double Mol)>.Create(static (one, other) => one.Mol.CompareTo(other.Mol));

    /// <summary>Temperature of the contents in K.</summary>
    public required double TemperatureK { get; init; }

    /// <summary>Where the liquid boils at one atmosphere, in K; null without a liquid or where it is not known.</summary>
    public double? BoilsAtK { get; init; }

    /// <summary>Share of the liquid that flashes at once; null where it cannot be had.</summary>
    public double? FlashFraction { get; init; }

    /// <summary>What was missing for it, in words; null when nothing was.</summary>
    public string? FlashBecause { get; init; }

    /// <summary>Keys of the sources of the flash fraction.</summary>
    public IReadOnlyList<string> FlashSources { get; init; } = [];

    public Quality FlashQuality { get; init; } = Quality.Estimated;

    /// <summary>Vapour and gas in mol that come out at once; the whole liquid where the flash fraction cannot be had above its boiling point.</summary>
    public required double AtOnceMol { get; init; }

    /// <summary>Vapour and gas in mol when everything volatile has evaporated, trapped air and inert gas left out.</summary>
    public required double WholeMol { get; init; }

    /// <summary>Amount in mol of each volatile substance, flammable or not.</summary>
    public required IReadOnlyList<(PlanSubstance Substance, double Mol)> Parts { get; init; }

    /// <summary>Flammability of the whole vapour at 25 °C.</summary>
    public required VapourFlammability Flammability { get; init; }

    /// <summary>Volume in m³ at 25 °C of what comes out at once.</summary>
    public double AtOnceM3 => ReleaseLaw.VapourM3(AtOnceMol);

    /// <summary>Volume in m³ of air that the vapour of the first moment brings to its lower limit; null where the limit is not known or nothing burns.</summary>
    public double? CloudM3 => Flammability.Lower.Fraction is { } limit ? ReleaseLaw.VolumeAtLimitM3(AtOnceM3 * (Flammability.CombustibleShare ?? 1), limit) : null;

    /// <summary>Heat in J of burning what comes out at once; null where the heat of combustion of a part is not to be had, 0 where nothing burns.</summary>
    public double? CloudHeatJ
    {
        get
        {
            double joule = 0;
            foreach (var (substance, mol) in Parts)
            {
                var share = substance.Known is { PhaseAt298K: Phase.Liquid } ? FlashFraction ?? 1 : 1;
                if (share <= 0 || BurningMaterials.Of(substance) is null)
                {
                    continue;
                }

                if (Combustion.Heat(substance.Known!) is not { } heat)
                {
                    return null;
                }

                joule += share * mol * heat.JPerMol;
            }

            return joule;
        }
    }

    /// <summary>Share of the lower limit that the whole charge reaches in a space in m³; null as for the cloud.</summary>
    public double? ShareOfLimit(double spaceM3) =>
        Flammability.Lower.Fraction is { } limit ? ReleaseLaw.FractionIn(spaceM3, ReleaseLaw.VapourM3(WholeMol) * (Flammability.CombustibleShare ?? 1)) / limit : null;

    /// <summary>
    /// Share of the lower limit at the place as it evaporates: what comes out at once, and the rest as a pool in the air that is drawn through; null as for the cloud.
    /// </summary>
    internal double? ShareAsItEvaporates(in ReleaseSpread spread)
    {
        if (Flammability.Lower.Fraction is not { } limit)
        {
            return null;
        }

        var fraction = AtOnceM3 * (Flammability.CombustibleShare ?? 1) / spread.SpaceM3;
        if (FlashFraction is { } flashed)
        {
            foreach (var (substance, mol) in Parts)
            {
                if (substance.Known is { PhaseAt298K: Phase.Liquid } known && BurningMaterials.Of(substance) == Burning.Liquid)
                {
                    fraction += spread.PoolFraction(known, mol * (1 - flashed), Math.Min(TemperatureK, BoilsAtK ?? TemperatureK));
                }
            }
        }

        return Math.Min(fraction, 1) / limit;
    }

    /// <summary>The release at a state; null when the vessel holds nothing volatile of known amount.</summary>
    public static ReleaseEstimate? Of(StepState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var volatiles = Volatiles(state);
        var whole = volatiles.Sum(static part => part.Mol);
        if (!(whole > 0))
        {
            return null;
        }

        var liquids = volatiles.Chosen(static part => part.Substance.Known!.PhaseAt298K == Phase.Liquid);
        var gases = whole - liquids.Sum(static part => part.Mol);
        var components = Array.ConvertAll(volatiles, part => new MixtureComponent(part.Substance.Known!, part.Mol / whole));
        var estimate = new ReleaseEstimate
        {
            TemperatureK = state.WorstTemperatureK,
            AtOnceMol = gases,
            WholeMol = whole,
            Parts = volatiles,
            Flammability = VapourLimits.At(components, Array.ConvertAll(components, static part => part.MoleFraction), RoomK),
        };
        return liquids.Length == 0 ? estimate : Flashed(estimate, liquids);
    }

    /// <summary>What is volatile, each substance once, in the order of the keys.</summary>
    private static (PlanSubstance Substance, double Mol)[] Volatiles(StepState state)
    {
        var parts = new List<(PlanSubstance Substance, double Mol)>(state.Contents.Count + 2);
        foreach (var content in state.Contents)
        {
            if (content is { Spent: false, Mol: > 0 and var mol, Substance.Known: { Involatile: false, PhaseAt298K: Phase.Liquid or Phase.Gas } })
            {
                parts.Add((content.Substance, mol));
            }
        }

        parts.AddRange(ShutIn(state));
        for (var index = 1; index < parts.Count; index++)
        {
            for (var before = 0; before < index; before++)
            {
                if (string.Equals(parts[before].Substance.Known!.Key, parts[index].Substance.Known!.Key, StringComparison.Ordinal))
                {
                    return Merged(parts);
                }
            }
        }

        parts.Sort(static (one, other) => string.CompareOrdinal(one.Substance.Key, other.Substance.Key));
        return [.. parts];
    }

    private static (PlanSubstance Substance, double Mol)[] Merged(List<(PlanSubstance Substance, double Mol)> parts) =>
    [
        .. parts.GroupBy(static part => part.Substance.Known!.Key, StringComparer.Ordinal)
            .Select(static group => (group.First().Substance, Mol: group.Order(ByAmount).Sum(static part => part.Mol)))
            .OrderBy(static part => part.Substance.Key, StringComparer.Ordinal),
    ];

    private static ReleaseEstimate Flashed(ReleaseEstimate estimate, (PlanSubstance Substance, double Mol)[] liquids)
    {
        var mol = liquids.Sum(static part => part.Mol);
        if (BoilingK(liquids, mol) is not { } boils)
        {
            return estimate with { FlashBecause = "its boiling point is not known", AtOnceMol = estimate.WholeMol };
        }

        if (estimate.TemperatureK <= boils)
        {
            return estimate with { BoilsAtK = boils, FlashFraction = 0 };
        }

        double capacity = 0;
        double vaporisation = 0;
        var quality = Quality.Estimated;
        List<string>? missing = null;
        var sources = new List<string>(SourcesOfOne * liquids.Length);
        foreach (var (substance, part) in liquids)
        {
            var cp = LiquidHeatCapacity.JPerMolK(substance.Known!, Math.Min(boils, estimate.TemperatureK));
            var heat = EnthalpyOfVaporisation.At(substance.Known!, boils);
            if (cp is null || heat is not { Value: > 0 })
            {
                (missing ??= []).Add($"the {(cp is null ? "heat capacity" : "heat of vaporisation")} of {substance.Name}");
                continue;
            }

            capacity += part / mol * cp.Value;
            vaporisation += part / mol * heat.Value;
            quality = VesselPoint.Worse(quality, VesselPoint.Worse(cp.Quality, heat.Quality));
            sources.AddRange(cp.Sources);
            sources.AddRange(heat.Sources);
        }

        if (missing is not null)
        {
            return estimate with { BoilsAtK = boils, FlashBecause = $"{Screening.Wording.List(missing)} {(missing.Count == 1 ? "is" : "are")} not on file", AtOnceMol = estimate.WholeMol };
        }

        var fraction = ReleaseLaw.FlashFraction(capacity, estimate.TemperatureK, boils, vaporisation);
        return estimate with { BoilsAtK = boils, FlashFraction = fraction, AtOnceMol = estimate.AtOnceMol + (fraction * mol), FlashQuality = quality, FlashSources = sources };
    }

    // Without a bubble point of the mixture the lowest boiler stands in, which is on the safe side.
    private static double? BoilingK((PlanSubstance Substance, double Mol)[] liquids, double mol)
    {
        var lowest = liquids.Min(static part => part.Substance.Known!.BoilingPointK?.Value);
        return liquids.Length == 1
            ? lowest
            : BubblePoint.KelvinAt(new LiquidMixture(Array.ConvertAll(liquids, part => new MixtureComponent(part.Substance.Known!, part.Mol / mol))), AtmospherePa) ?? lowest;
    }

    /// <summary>Flammable or toxic gas shut in over the contents; air and inert gases are left out.</summary>
    private static IEnumerable<(PlanSubstance Substance, double Mol)> ShutIn(StepState state)
    {
        if (state.Closing is not { } closing || state.Vessel.VolumeM3 is not { } volume)
        {
            yield break;
        }

        var gasM3 = Math.Max(volume - state.Contents.Where(static content => content.Substance.Known is { PhaseAt298K: not Phase.Gas }).Sum(OpenFlammables.VolumeM3), 0);
        foreach (var (gas, fraction) in closing.Gases)
        {
            if (BurningMaterials.Of(gas) == Burning.Gas || gas.Known?.Idlh is not null)
            {
                yield return (gas, fraction * closing.PressurePaAbs * gasM3 / (GasConstant * closing.TemperatureK));
            }
        }
    }
}
