using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>How full a vessel may be. Fills are fractions of the vessel's volume. Grounds: docs/methods/ratings.md.</summary>
public static class FillLimits
{
    /// <summary>Volume of the liquids and solids, by densities near 25 °C, over the vessel's volume; null when the volume or an amount or density is not known.</summary>
    public static double? FillOf(StepState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.Vessel.VolumeM3 is { } volume && CondensedM3(state.Contents) is { Complete: true, M3: var condensed } ? condensed / volume : null;
    }

    /// <summary>Volume of the liquids and solids in m³, by densities near 25 °C: of those whose amount and density are known, which is all of them when complete.</summary>
    internal static (double M3, bool Complete) CondensedM3(IReadOnlyList<Content> contents)
    {
        Span<double> volumes = stackalloc double[Math.Min(contents.Count, 64)];
        volumes = contents.Count > volumes.Length ? new double[contents.Count] : volumes;
        var (count, complete) = (0, true);
        for (var index = 0; index < contents.Count; index++)
        {
            var content = contents[index];
            if (content.Substance.Known is { PhaseAt298K: Phase.Gas })
            {
                continue;
            }

            if (content is { Mol: { } mol, Substance.Known: { Identity.MolarMassKgPerMol: { } mass, DensityKgPerM3.Value: var density } })
            {
                volumes[count++] = mol * mass / density;
            }
            else
            {
                complete = false;
            }
        }

        return (OrderedSum.Of(volumes[..count]), complete);
    }

    /// <summary>
    /// Highest cold fill at which water does not fill the vessel when heated, without any margin: ratio of the saturated density at
    /// <paramref name="temperatureK"/> to the density at 25 °C (997.05 kg/m³, IAPWS-95), in 273 to 647 K.
    /// </summary>
    public static double WaterColdFill(double temperatureK)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(temperatureK, 273.16);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(temperatureK, 647.096);
        return LiquidVolume.At(Water, 298.15).M3PerMol / LiquidVolume.At(Water, temperatureK).M3PerMol;
    }

    /// <summary>Common practice for a closed vessel that is heated: half for glass and plastic, two thirds for metal, never above the ceiling.</summary>
    public static double Usual(Vessel vessel, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        ArgumentNullException.ThrowIfNull(policy);
        return VesselKinds.MaterialOf(vessel.Kind) switch
        {
            VesselMaterial.Metal => Math.Min(policy.FillMetal, policy.FillCeiling),
            VesselMaterial.Glass or VesselMaterial.Plastic => Math.Min(policy.FillGlass, policy.FillCeiling),
        };
    }

    /// <summary>The fill that counts at a step, with its reason: the usual one, or for contents of mostly water the cold fill at the worst temperature less the margin, if lower.</summary>
    internal static (double Fill, string Why) Limit(StepState state, Policy policy)
    {
        var usual = Usual(state.Vessel, policy);
        var watery = state.Contents.Where(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid }).All(static content => string.Equals(content.Substance.Key, "7732-18-5", StringComparison.Ordinal));
        var water = watery && state.WorstTemperatureK is > 298.15 and < 647 ? WaterColdFill(state.WorstTemperatureK) - policy.FillWaterMargin : 1;
        return water < usual ? (water, $"what the expansion of water leaves at {Wording.Celsius(state.WorstTemperatureK)}") : (usual, "usual for such a vessel");
    }

    private static Substance Water { get; } =
        Catalog.Default.TryFindByCas("7732-18-5", out var water) ? water : throw new InvalidOperationException("The catalogue has no water.");
}
