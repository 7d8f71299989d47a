using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Energy;

/// <summary>How far a reaction that loses its cooling goes, against what boils and what decomposes.</summary>
/// <param name="OnsetK">Onset of decomposition in K; null when none is declared or to be had from the groups of the contents.</param>
/// <param name="OnsetBasis">Where it comes from, in words.</param>
/// <param name="OnsetQuality">How good it is.</param>
/// <param name="DayK">Temperature in K at which the decomposition takes a day to its maximum rate; null without an onset or a heat capacity.</param>
/// <param name="BoilsK">Boiling point of the open contents in K; null in a closed vessel, or above everything that matters.</param>
/// <param name="Class">Criticality class, 1 to 5; null without <paramref name="DayK"/>.</param>
internal sealed record RunawayAssessment(double? OnsetK, string OnsetBasis, Quality OnsetQuality, double? DayK, double? BoilsK, int? Class)
{
    /// <summary>Accuracy in K of the search for the boiling point.</summary>
    private const double SearchK = 0.02;

    public static RunawayAssessment Of(StepState state, ReactionHeat heat, ScreeningContext context)
    {
        var mtsr = heat.MtsrK!.Value;
        var (onset, basis, quality) = Onset(state, context);
        var capacity = HeatCapacityJPerKgK(state, heat);
        var day = onset is { } from && capacity is { } perKg
            ? Runaway.TemperatureForTimeK(Runaway.DayS, perKg, Runaway.DetectionLimitWPerKg, from, Runaway.CautiousActivationJPerMol)
            : null;
        var start = Math.Max(Math.Max(mtsr, day ?? 0), 51) + 1;
        var boils = state.Sealed ? (double?)null : LiquidVapour.BelowPressureK(state.Contents, start, AtmospherePa);
        boils = boils < start - SearchK ? boils : null;
        return new RunawayAssessment(onset, basis, quality, day, boils, day is { } known ? CriticalityClass.Of(mtsr, boils, known) : null);
    }

    public string ClassWords => Class switch
    {
        null => "",
        1 => " Criticality class 1: neither boiling nor decomposition is reached.",
        2 => " Criticality class 2: the decomposition is not reached within a day.",
        3 => " Criticality class 3: it boils, so the condenser must take the heat; the decomposition is not reached.",
        4 => " Criticality class 4: only boiling keeps it from its decomposition; dose, dilute or work smaller.",
        _ => " Criticality class 5: it can run into its decomposition and nothing boils before; dose, dilute, work colder or smaller.",
    };

    private static (double? OnsetK, string Basis, Quality Quality) Onset(StepState state, ScreeningContext context)
    {
        if (state.Reactions.Min(static reaction => reaction.DecompositionOnsetK) is { } declared)
        {
            return (declared, "onset as declared", Quality.Assumed);
        }

        var energetic = EnergeticContents.Of(context);
        return !energetic.IsEmpty && energetic.In(state) is { JPerKg: >= EnergeticScreen.LittleJPerKg } mixture
            ? (mixture.OnsetK, $"usual onset of the groups of {mixture.Worst.Name}", Quality.Estimated)
            : (null, "", Quality.Assumed);
    }

    /// <summary>Heat capacity of the liquids over the mass of everything weighed: low, and so cautious, where solids have none on file.</summary>
    private static double? HeatCapacityJPerKgK(StepState state, ReactionHeat heat)
    {
        var kg = state.Contents.Aggregate((double?)0, static (sum, content) => sum + (content.Mol * content.Substance.Known?.Identity.MolarMassKgPerMol));
        return kg > 0 ? heat.HeatCapacityJPerK / kg : null;
    }
}
