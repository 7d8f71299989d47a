using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// The most that a little of an unlisted substance can add to the pressure of a closed vessel: all of it as ideal gas in the room that the contents leave. No estimate from its
/// structure takes part. docs/methods/pressure-screen.md.
/// </summary>
/// <param name="AddedPa">n R T/V of everything unlisted, in Pa.</param>
/// <param name="SumPaGauge">With the pressure of the rest, in Pa gauge.</param>
/// <param name="LimitPaGauge">Share of the weakest rating below which a vessel is no finding, in Pa gauge.</param>
internal sealed record UnlistedBound(double AddedPa, double SumPaGauge, double LimitPaGauge)
{
    /// <summary>Mol share up to which what is dissolved leaves the vapour pressure of the rest about as it is. Common practice, no source.</summary>
    private const double MostShare = 0.05;

    /// <summary>By how much liquids swell at most up to <see cref="HotK"/>. Common practice, no source.</summary>
    private const double Swollen = 1.2;

    /// <summary>Density in kg/m³ below which hardly a liquid or solid lies: the less, the more room it takes. Common practice, no source.</summary>
    private const double LightestKgPerM3 = 600;

    /// <summary>Up to here a structure without a reactive sign counts as stable, in K (150 °C). Common practice, no source.</summary>
    private const double HotK = 423.15;

    /// <summary>The bound where it holds and keeps the vessel below a warning; null where anything else is left out, an amount is missing, a structure shows a reactive sign, or it is too much.</summary>
    public static UnlistedBound? Of(ClosedAssessment closed, GoverningRating rating, Policy policy)
    {
        var state = closed.State;
        if (closed.WorstPaGauge is not { } listed || rating.PaGauge is not > 0 || closed.UndeclaredGas is not null || state.GasEvolvedMol is not 0
            || state.WorstTemperatureK > HotK || state.Vessel.VolumeM3 is not { } volume)
        {
            return null;
        }

        var unlisted = state.Contents.Where(static content => content.Substance.Known is null).ToArray();
        var kinds = unlisted.Select(static content => content.Substance.Key).ToHashSet(StringComparer.Ordinal).Count;
        var (condensed, complete) = FillLimits.CondensedM3([.. state.Contents.Where(static content => content.Substance.Known is not null)]);
        if (kinds == 0 || closed.LeftOut.Count != kinds || !complete || !Array.TrueForAll(unlisted, IsQuiet))
        {
            return null;
        }

        var mol = unlisted.Sum(static content => content.Mol ?? double.PositiveInfinity);
        var kg = unlisted.Sum(static content => content.Mol * ConversionLedger.KnownMolarMass(content.Substance) ?? double.PositiveInfinity);
        var room = volume - (Swollen * (condensed + (kg / LightestKgPerM3)));
        if (!(mol <= MostShare * state.Contents.Sum(static content => content.Mol ?? 0)) || !(room > 0))
        {
            return null;
        }

        var added = mol * GasConstant * state.WorstTemperatureK / room;
        var limit = rating.QuietLimitPaGauge(state.Vessel, policy);
        return listed + added <= limit ? new UnlistedBound(added, listed + added, limit) : null;
    }

    private static bool IsQuiet(Content content) =>
        content.Substance.Structure?.Groups is { } groups && !groups.ReactiveSigns.Any() && EnergeticProfile.Of(content.Substance) is null
        && !FamilyTable.Default.Of(content.Substance).Any(FamilyTable.Default.IsReactive);
}
