using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>Everything the pressure screen knows of one closed step. Pressures are gauge, in Pa over 101 325 Pa.</summary>
public sealed record ClosedResult
{
    private const double StepK = 20;
    private const double ToleranceK = 0.1;
    private const double NearlyFull = 0.9;
    private const double FillTolerance = 0.01;

    /// <summary>Governing pressure at the set temperature; null where no model gives one.</summary>
    public double? ExpectedPaGauge { get; init; }

    /// <summary>Immiscible bound at the worst credible temperature.</summary>
    public double? BoundPaGauge { get; init; }

    /// <summary>Highest governing pressure between closing and the worst credible temperature; null when full or unknown.</summary>
    public double? GoverningPaGauge { get; init; }

    public bool LiquidFull { get; init; }

    /// <summary>Governing pressure over the weakest rating; null when it is unknown or zero.</summary>
    public double? ShareOfRating { get; init; }

    /// <summary>The weakest rating at the worst credible temperature, in Pa gauge; null: not known.</summary>
    public double? RatingPaGauge { get; init; }

    /// <summary>Temperature in K at which the liquid fills the vessel, up to <see cref="ClosedVessel.CeilingK"/>; null: it never does.</summary>
    public double? LiquidFullK { get; init; }

    /// <summary>Highest set temperature in K at which the vessel is no finding, overshoot allowed for; null: none.</summary>
    public double? HighestSetK { get; init; }

    /// <summary>Highest fill, a fraction, at which the vessel is no finding at this temperature, between the low fill and the usual limit; null: none, or not known.</summary>
    public double? HighestFill { get; init; }

    /// <summary>Rating needed for no finding, in Pa gauge; null when no rating is enough or the pressure is unknown.</summary>
    public double? RatingNeededPaGauge { get; init; }

    /// <summary>Null where the pressure is unknown.</summary>
    public StoredEnergy? Energy { get; init; }

    public ShieldClass? Shield { get; init; }

    /// <summary>By the governing pressure and the vessel's volume, for dangerous fluids where anything flammable or unknown is in it.</summary>
    public EquipmentStanding? Equipment { get; init; }

    /// <summary>What is left out of the pressure, in words.</summary>
    public IReadOnlyList<string> LeftOut { get; init; } = [];

    /// <summary>Results for a closed step; null for an open one, or without the vessel's volume.</summary>
    public static ClosedResult? Of(StepState state, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(policy);
        return ClosedAssessment.Of(state) is { } assessment ? Of(assessment, GoverningRating.For(state), policy) : null;
    }

    internal static ClosedResult Of(ClosedAssessment assessment, GoverningRating rating, Policy policy)
    {
        var state = assessment.State;
        var quiet = rating.QuietLimitPaGauge(state.Vessel, policy);
        var energy = StoredEnergy.Of(assessment);
        var worst = assessment.WorstPaGauge;
        return new ClosedResult
        {
            ExpectedPaGauge = assessment.SetPaAbs - AtmospherePa,
            BoundPaGauge = assessment.Charge.BoundPaAt(state.WorstTemperatureK) - AtmospherePa,
            GoverningPaGauge = worst,
            LiquidFull = assessment.LiquidFull,
            ShareOfRating = rating.PaGauge is { } rated and > 0 ? worst / rated : null,
            LiquidFullK = FullK(assessment),
            HighestSetK = HighestSet(assessment, rating, policy),
            RatingPaGauge = rating.PaGauge,
            HighestFill = FillUpTo(assessment, quiet, policy),
            RatingNeededPaGauge = worst is > 0 ? (rating.Share > 0 ? worst / Math.Min(GoverningRating.WarningShare(state.Vessel, policy), policy.DangerShare) / rating.Share : null) : worst is null ? null : 0,
            Energy = energy,
            Shield = energy is null ? null : ShieldClasses.Of(energy.TotalJ, policy),
            Equipment = worst is { } gauge ? PressureEquipment.ForGas(gauge, state.Vessel.VolumeM3!.Value, Dangerous(state)) : null,
            LeftOut = assessment.LeftOut,
        };
    }

    private static double? HighestSet(ClosedAssessment assessment, GoverningRating rating, Policy policy)
    {
        var state = assessment.State;
        // what warms to the room when its cooling fails does so from any set temperature
        if (state is { Heated: false, SurfaceStated: false, ReactionGoverns: false } && state.WorstTemperatureK > state.TemperatureK)
        {
            return null;
        }

        var limitK = TemperatureLimit.Of(state.Vessel, state.VesselIndex)?.TemperatureK ?? double.PositiveInfinity;
        // below the limit that is passed the rating counts again
        var highest = Within(rating.Passed is null ? rating : GoverningRating.At(state, limitK));
        // hotter than here less of a rating without a temperature counts
        if (highest > state.WorstTemperatureK && GoverningRating.At(state, Math.Min(highest.Value, limitK)) is var hotter && hotter.PaGauge < rating.PaGauge)
        {
            highest = Within(hotter);
        }

        highest = highest is { } unlimited ? Math.Min(unlimited, limitK) : null;
        return highest - (state.WorstTemperatureK - state.TemperatureK) is > 0 and var set ? set : null;

        // known to hold up to here, it is looked at from here on
        double? Within(GoverningRating counts) => counts.QuietLimitPaGauge(state.Vessel, policy) is var quiet
            && assessment.WorstPaGauge <= quiet && assessment.UnknownBecause is null && assessment.Input.GasEvolvedMol == assessment.Charge.Input.GasEvolvedMol
                ? ClosedVessel.HighestTemperatureK(assessment.Charge, state.WorstTemperatureK, quiet, ToleranceK)
                : ClosedVessel.HighestTemperatureK(assessment.Input, quiet);
    }

    /// <summary>Temperature in K at which the liquid fills the vessel, from closing on; null: it never does.</summary>
    internal static double? FullK(ClosedAssessment assessment)
    {
        var charge = assessment.Charge;
        var low = assessment.Input.FillTemperatureK;
        if (Full(low))
        {
            return low;
        }

        while (low < ClosedVessel.CeilingK)
        {
            var high = Math.Min(low + StepK, ClosedVessel.CeilingK);
            if (!Full(high))
            {
                low = high;
                continue;
            }

            while (high - low > ToleranceK)
            {
                var middle = 0.5 * (low + high);
                (low, high) = Full(middle) ? (low, middle) : (middle, high);
            }

            return high;
        }

        return null;

        // everything condensed and a tenth more does not fill it: no model need be asked
        bool Full(double temperatureK) => charge.LiquidM3At(temperatureK) > NearlyFull * charge.VolumeM3 && charge.IsFullAt(temperatureK);
    }

    private static double? FillUpTo(ClosedAssessment assessment, double quietPaGauge, Policy policy)
    {
        var state = assessment.State;
        if (FillLimits.FillOf(state) is not (> 0 and { } fill))
        {
            return null;
        }

        var usual = FillLimits.Usual(state.Vessel, policy);
        if (Quiet(usual))
        {
            return usual;
        }

        // less than the low fill is a finding of its own, and no advice
        double low = policy.FillLow, high = usual;
        if (low <= 0 || !Quiet(low))
        {
            return null;
        }

        while (high - low > FillTolerance)
        {
            var middle = 0.5 * (low + high);
            (low, high) = Quiet(middle) ? (middle, high) : (low, middle);
        }

        return low;

        bool Quiet(double at) => assessment.ScaledPaGauge(at / fill) is { } pressure && pressure <= quietPaGauge;
    }

    private static bool Dangerous(StepState state) => state.Contents.Any(static content => content.Substance.Known is not { NonFlammable.Value: true });
}
