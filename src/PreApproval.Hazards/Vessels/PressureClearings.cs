using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Changes that, each made alone, clear a pressure finding: a lower set temperature, a higher rating, a larger vessel.
/// Every offer is tried: the changed plan is walked and this screen run again; an offer that leaves any pressure finding
/// on these steps is dropped.
/// </summary>
internal static class PressureClearings
{
    /// <summary>Largest vessel worth offering, as a multiple of the planned one.</summary>
    private const double LargestVolumeFactor = 10;

    private const string RatingChange = "rating";

    public static IReadOnlyList<Clearing> For(Finding finding, IReadOnlyList<ClosedAssessment> flagged, GoverningRating rating, ScreeningContext context)
    {
        // what is left out of the pressure may make any number too small
        if (flagged.Any(static assessment => assessment.LeftOut.Count > 0))
        {
            return [];
        }

        var vessel = flagged[0].State.Vessel;
        var limit = rating.QuietLimitPaGauge(vessel, context.Policy);
        Clearing?[] offers = [Temperature(flagged, rating, context.Policy), Rating(flagged, rating, context.Policy, context.Plan.Steps), BesideRating(rating), Annealed(rating), Volume(flagged, limit)];
        return [.. offers.OfType<Clearing>().Where(offer => Clears(offer, finding, flagged, context))];
    }

    private static Clearing? Temperature(IReadOnlyList<ClosedAssessment> flagged, GoverningRating rating, Policy policy)
    {
        // below the limit that is passed the rating counts again
        var passedK = rating.Passed?.TemperatureK;
        var limitPaGauge = (passedK is { } below ? GoverningRating.At(flagged[0].State, below) : rating).QuietLimitPaGauge(flagged[0].State.Vessel, policy);
        if (flagged[0].State.TemperatureStep is not { } setBy)
        {
            return null;
        }

        double? lowest = null;
        foreach (var assessment in flagged)
        {
            if (ClosedVessel.HighestTemperatureK(assessment.Input, limitPaGauge) is not { } highest)
            {
                return null;
            }

            var set = Math.Min(highest, passedK ?? highest) - (assessment.State.WorstTemperatureK - assessment.State.TemperatureK);
            lowest = Math.Min(lowest ?? set, set);
        }

        var celsius = Math.Floor(Wording.InCelsius(lowest!.Value));
        // below the room it is no longer a change of the heating
        return celsius + 273.15 < Walk.RoomTemperatureK || celsius + 273.15 >= flagged[0].State.TemperatureK
            ? null
            : new Clearing("set temperature", $"/steps/{setBy.ToString(CultureInfo.InvariantCulture)}/temperature", celsius, "°C", null);
    }

    private static Clearing? Rating(IReadOnlyList<ClosedAssessment> flagged, GoverningRating rating, Policy policy, IReadOnlyList<Step> steps)
    {
        if (flagged.Any(static assessment => assessment.WorstPaGauge is null) || rating.Share <= 0)
        {
            return null;
        }

        var vessel = flagged[0].State.Vessel;
        var share = Math.Min(GoverningRating.WarningShare(vessel, policy), policy.DangerShare);
        if (rating.OutsideCavity is not null)
        {
            // no mark raises what counts there
            return null;
        }

        if (rating.Wall is { } tube)
        {
            return GlassStrength.NeededWallM(tube, flagged.Max(static assessment => assessment.WorstPaGauge!.Value) / share) is { } wall && Math.Ceiling(wall * 1e4) / 1e4 <= GlassStrength.MostWallShare * tube.OuterDiameterM
                ? new Clearing("wall of the glass in mm", string.Create(CultureInfo.InvariantCulture, $"/vessels/{rating.VesselIndex}/glassTube/wallMm"), Math.Ceiling(wall * 1e4) / 10, null, null)
                : null;
        }

        var needed = flagged.Max(static assessment => assessment.WorstPaGauge!.Value) / share / rating.Share / 1e5;
        var offered = Math.Ceiling(needed * 10) / 10;
        // a number that nobody would believe of such a vessel, or behind such a closure, is no way out: it would only be typed in
        return !RatingCredibility.IsWorthOffering(vessel.Kind, offered) || flagged.Any(assessment => RatingCredibility.LooseClosure(assessment.State, steps) is not null)
            ? null
            : new Clearing(RatingChange, rating.Path, offered, "bar(g)", null);
    }

    /// <summary>Where only the missing temperature takes from the rating: the temperature the mark has to name beside it.</summary>
    private static Clearing? BesideRating(GoverningRating rating) => rating is { Share: < 1, Passed: null }
        ? new Clearing("temperature beside the rating", rating.TemperaturePath, Math.Ceiling(Wording.InCelsius(rating.TemperatureK)), "°C", null)
        : null;

    /// <summary>Where half of what the wall holds is not counted, because nobody says that the glass is free of stress: an annealed tube.</summary>
    private static Clearing? Annealed(GoverningRating rating) => rating.Wall is { Annealed: false }
        ? new Clearing("annealed glass", string.Create(CultureInfo.InvariantCulture, $"/vessels/{rating.VesselIndex}/glassTube/annealed"), null, null, Clearing.Yes)
        : null;

    private static Clearing? Volume(IReadOnlyList<ClosedAssessment> flagged, double limitPaGauge)
    {
        // a tube that is rated by its wall is no longer rated by that wall when it is a larger one
        var state = flagged[0].State;
        if (GoverningRating.For(state).Wall is not null)
        {
            return null;
        }

        var low = state.Vessel.VolumeM3!.Value;
        var high = low * LargestVolumeFactor;
        if (!Fits(high))
        {
            return null;
        }

        while (high - low > Math.Max(1e-7, low * 1e-3))
        {
            var middle = 0.5 * (low + high);
            (low, high) = Fits(middle) ? (low, middle) : (middle, high);
        }

        var path = $"/vessels/{state.VesselIndex.ToString(CultureInfo.InvariantCulture)}/volume";
        return new Clearing("vessel volume", path, Math.Ceiling(high * 1e6), "mL", null);

        bool Fits(double volumeM3)
        {
            foreach (var assessment in flagged)
            {
                var larger = assessment.Input with { VesselVolumeM3 = volumeM3 };
                var charge = new SealedCharge(larger);
                var worstK = assessment.State.WorstTemperatureK;
                var at = charge.PressureAt(worstK);
                if (IsWithin(at))
                {
                    // the larger vessel may have its highest pressure on the way, where the planned one had it at the end
                    at = PeakPressure.Between(charge, Math.Min(assessment.State.Closing!.TemperatureK, assessment.State.TemperatureK), worstK).Pressure;
                }

                if (!IsWithin(at))
                {
                    return false;
                }
            }

            return true;
        }

        bool IsWithin(GoverningPressure at) => !at.LiquidFull && at.PascalAbs - AtmospherePa <= limitPaGauge;
    }

    private static bool Clears(Clearing offer, Finding finding, IReadOnlyList<ClosedAssessment> flagged, ScreeningContext context)
    {
        var plan = Clearings.Apply(context.Plan, offer);
        if (string.Equals(offer.Change, RatingChange, StringComparison.Ordinal))
        {
            // a rating changes no pressure
            var index = flagged[0].State.VesselIndex;
            return flagged.All(assessment => PressureScreen.Judge(assessment, GoverningRating.For(plan.Vessels[index], index, assessment.State.WorstTemperatureK, GoverningRating.IsOutsideCavity(assessment.State)), context.Policy) is not { } verdict || verdict.Severity > finding.Severity);
        }

        var trial = new ScreeningContext(plan, context.Policy, Walk.Follow(plan, context.Policy));
        return !PressureScreen.Find(trial, withClearings: false, finding).Any(other =>
            other.Hazard == Hazard.Pressure
            && (other.Severity <= finding.Severity || string.Equals(other.Code, finding.Code, StringComparison.Ordinal))
            && other.Steps.Any(step => finding.Steps.Contains(step, StringComparer.Ordinal)));
    }
}
