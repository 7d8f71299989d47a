using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// The rating that governs a vessel at a temperature: the weakest of vessel, closure, seal and fittings. Of metal without a temperature beside its rating what steel keeps of it counts. Above the
/// <see cref="TemperatureLimit"/> nothing counts.
/// </summary>
/// <param name="PaGauge">Gauge pressure in Pa; null: unknown, which counts as zero.</param>
/// <param name="Vessel">The vessel.</param>
/// <param name="VesselIndex">Its place in the plan.</param>
/// <param name="Part">Whose rating it is: the place of the part; null: the vessel's own.</param>
internal readonly record struct GoverningRating(double? PaGauge, Vessel Vessel, int VesselIndex, int? Part)
{
    private static readonly string[] LinerWords = ["liner", "lining", "insert"];

    /// <summary>Share of the stated rating that counts at this temperature; 1: all of it.</summary>
    public double Share { get; private init; } = 1;

    /// <summary>Temperature in K it is taken at.</summary>
    public double TemperatureK { get; private init; }

    /// <summary>The tube whose wall rates the vessel; null: it is not rated by its wall.</summary>
    public GlassTube? Wall { get; private init; }

    /// <summary>The temperature limit that is passed; null: none is.</summary>
    public TemperatureLimit? Passed { get; private init; }

    /// <summary>The kind whose typical rating is all that counts outside the cavity of a microwave reactor; null: what is stated counts.</summary>
    public TypicalVessel? OutsideCavity { get; private init; }

    /// <summary>For a sentence: that less than the stated rating counts, and why; empty where all of it does.</summary>
    public string Note => Passed is { } passed
            ? $" at {Wording.Celsius(TemperatureK)}, above the {Wording.Celsius(passed.TemperatureK)} {(passed.Kind is { LimitStands: true, Gives: var never } ? $"that a {never} is never heated beyond" : passed.Kind is { } usual ? $"to which the {usual.Gives} of such a vessel is commonly good" : "that it is stated to be good to")}: no rating counts there"
        : OutsideCavity is { } kind ? $" outside a microwave cavity (a {kind.Kind} in a bath or block, {Wording.BarGauge(StatedPaGauge ?? 0)} as stated)"
        : Wall is { } wall ? " " + GlassStrength.Basis(wall)
        : Share >= 1 ? ""
        : $" at {Wording.Celsius(TemperatureK)} ({Wording.BarGauge(StatedPaGauge ?? 0)} is stated without a temperature and counts as cold; {(Share > 0 ? $"steel keeps {Wording.Text(Math.Floor(100 * Share))} % of it" : "what steel keeps of it above 400 °C is not on file")})";

    private double? StatedPaGauge => Part is { } part ? Vessel.Parts[part].RatingPaGauge : Vessel.RatingPaGauge;

    /// <summary>Whose rating it is, in words.</summary>
    public string Of => Part is { } part ? $"the {Vessel.Parts[part].Name} of “{Vessel.Id}”" : $"“{Vessel.Id}”";

    /// <summary>JSON Pointer to it.</summary>
    public string Path => Part is { } part
        ? string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/parts/{part}/rating")
        : string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/rating");

    /// <summary>JSON Pointer to the temperature that stands beside it.</summary>
    public string TemperaturePath => Part is { } part
        ? string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/parts/{part}/maximumTemperature")
        : string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/maximumTemperature");

    /// <summary>The rating at the worst credible temperature of a step.</summary>
    public static GoverningRating For(StepState state) => At(state, state.WorstTemperatureK);

    /// <summary>The rating at a step, at another temperature in K.</summary>
    public static GoverningRating At(StepState state, double temperatureK) => For(state.Vessel, state.VesselIndex, temperatureK, IsOutsideCavity(state));

    /// <summary>True where a step heats by something else than a microwave reactor; without a heat source, where it says itself that it heats.</summary>
    public static bool IsOutsideCavity(StepState state) =>
        state.HeatSource is { } source ? source != HeatSource.Microwave : state.Step.Action is StepAction.Heat or StepAction.Reflux;

    public static GoverningRating For(Vessel vessel, int vesselIndex, double temperatureK, bool outsideCavity = false)
    {
        var kept = VesselKinds.MaterialOf(vessel.Kind) == VesselMaterial.Metal ? RatingByTemperature.SteelShare(temperatureK) ?? 0 : 1;
        var share = vessel.MaximumTemperatureK is null ? kept : 1;
        var ofWall = GlassStrength.OfWall(vessel);
        var (weakest, of) = (ofWall ?? (vessel.RatingPaGauge * share), (int?)null);
        for (var part = 0; part < vessel.Parts.Count && weakest is not null; part++)
        {
            // a liner lies against the wall and holds no pressure: it has a temperature alone
            if (vessel.Parts[part] is { RatingPaGauge: null, MaximumTemperatureK: not null, Name: var name } && VesselKinds.Names(name, LinerWords))
            {
                continue;
            }

            var own = vessel.Parts[part].MaximumTemperatureK is null ? kept : 1;
            if (!(vessel.Parts[part].RatingPaGauge * own >= weakest))
            {
                (weakest, of, share) = (vessel.Parts[part].RatingPaGauge * own, part, own);
            }
        }

        if (weakest is not null && TemperatureLimit.Of(vessel, vesselIndex) is { } limit && temperatureK > limit.TemperatureK)
        {
            return new GoverningRating(0, vessel, vesselIndex, limit.Part) { Share = 0, TemperatureK = temperatureK, Passed = limit };
        }

        // a mark for the cavity says nothing of a bath
        if (outsideCavity && weakest is not null && VesselKinds.TypicalOf(vessel.Kind) is { MoreOnlyInMicrowave: true, RatingPaGauge: { } usual } kind && weakest > usual)
        {
            return new GoverningRating(usual, vessel, vesselIndex, of) { TemperatureK = temperatureK, OutsideCavity = kind };
        }

        return new GoverningRating(weakest, vessel, vesselIndex, of) { Share = weakest is null ? 1 : share, TemperatureK = temperatureK, Wall = ofWall is not null && of is null ? vessel.GlassTube : null };
    }

    /// <summary>Share of the rating above which there is a warning, by what the vessel is made of.</summary>
    public static double WarningShare(Vessel vessel, Policy policy) => VesselKinds.MaterialOf(vessel.Kind) switch
    {
        VesselMaterial.Metal => policy.WarningShareMetal,
        VesselMaterial.Glass or VesselMaterial.Plastic => policy.WarningShareGlass,
    };

    /// <summary>Gauge pressure in Pa below which the vessel is no finding.</summary>
    public double QuietLimitPaGauge(Vessel vessel, Policy policy) =>
        PaGauge is { } rating and > 0 ? rating * Math.Min(WarningShare(vessel, policy), policy.DangerShare) : policy.UnratedNothingPa;
}
