using PreApproval.Hazards.Exposure;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>Where what gets out goes: into the hood that the plan states, else into the room. Docs: docs/methods/release.md.</summary>
/// <param name="IsHood">True for a hood that draws.</param>
/// <param name="SpaceM3">Air that it mixes into, in m³.</param>
/// <param name="FlowM3PerS">Fresh air through it, in m³/s.</param>
internal readonly record struct ReleaseSpread(bool IsHood, double SpaceM3, double FlowM3PerS)
{
    private const double RoomK = 298.15;

    public static ReleaseSpread Of(Place? place)
    {
        if (place is { IsHood: true })
        {
            return new ReleaseSpread(true, FireThresholds.StillHoodM3, place.AirFlowM3PerS is { } stated and > 0 ? stated : FireThresholds.DefaultHoodFlowM3PerS);
        }

        var room = place?.RoomVolumeM3 is { } volume and > 0 ? volume : FireThresholds.DefaultRoomM3;
        // a flow that is stated for a place of no stated kind may be that of a hood, and then is not the room's
        return new ReleaseSpread(false, room, place is { Kind: PlaceKind.Bench, AirFlowM3PerS: > 0 and var flow } ? flow : BreathingZone.RoomFlowM3PerS(room));
    }

    /// <summary>
    /// Volume fraction that a pool of a liquid brings into the space at the most; each liquid as a pool of its own, 1 cm deep. Where its density or its vapour pressure
    /// is not known, all of it is vapour at once.
    /// </summary>
    /// <param name="liquid">Which.</param>
    /// <param name="mol">How much, in mol.</param>
    /// <param name="temperatureK">Temperature of the liquid in K; a cold one warms up, and none gets hotter than it boils.</param>
    public double PoolFraction(Substance liquid, double mol, double temperatureK)
    {
        var poolK = Math.Min(Math.Max(temperatureK, RoomK), Math.Max(liquid.BoilingPointK?.Value ?? double.PositiveInfinity, RoomK));
        return VapourPressure.At(liquid, poolK) is { Volatility: Volatility.Condensable, Pascal: var pascal }
            ? PoolFraction(liquid, mol, poolK, Math.Min(pascal, AtmospherePa))
            : ReleaseLaw.FractionIn(SpaceM3, ReleaseLaw.VapourM3(mol));
    }

    /// <summary>The same for a boiling pool: no pool of it brings more.</summary>
    public double BoilingPoolFraction(Substance liquid, double mol) => PoolFraction(liquid, mol, RoomK, AtmospherePa);

    private double PoolFraction(Substance liquid, double mol, double poolK, double pascal)
    {
        var vapour = ReleaseLaw.VapourM3(mol);
        if (liquid.Identity.MolarMassKgPerMol is not { } molarMass || liquid.DensityKgPerM3 is not { Value: > 0 and var density })
        {
            return ReleaseLaw.FractionIn(SpaceM3, vapour);
        }

        var area = mol * molarMass / density / FireThresholds.SpillDepthM;
        var kgPerS = IsHood
            ? Evaporation.RateInWindKgPerS(FireThresholds.HoodAirSpeedMPerS, molarMass, area, pascal, poolK)
            : Evaporation.RateKgPerS(molarMass, area, pascal, poolK);
        return ReleaseLaw.PeakFraction(SpaceM3, FlowM3PerS, 0, vapour, ReleaseLaw.VapourM3(kgPerS / molarMass));
    }

    /// <summary>How grave a share of the lower limit in the air is.</summary>
    public static Severity Of(double share) =>
        share >= FireThresholds.WarningShareOfLimit ? Severity.Warning : share >= FireThresholds.CautionShareOfLimit ? Severity.Caution : Severity.Notice;

    /// <summary>The step that a share is held against: the one it passes, else the first.</summary>
    public static double StepOf(double share) => share >= FireThresholds.WarningShareOfLimit ? FireThresholds.WarningShareOfLimit : FireThresholds.CautionShareOfLimit;
}
