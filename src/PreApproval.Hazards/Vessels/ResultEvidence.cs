using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>What follows from a pressure: how far the vessel may go, and what it sets free if it lets go.</summary>
internal static class ResultEvidence
{
    private const string Practice = "common-practice";

    public static IEnumerable<Evidence> For(ClosedAssessment assessment, ClosedResult result, GoverningRating rating)
    {
        var state = assessment.State;
        var quality = Later(assessment.Worst.Quality, Quality.Estimated);
        var sources = References.Full(assessment.Worst.Sources);
        var lowerBound = PressureSentences.AtLeast(assessment.LeftOut);
        if (result.BoundPaGauge is { } bound)
        {
            yield return Of("bound of the pressure", bound / 1e5, "bar(g)", "immiscible bound at the worst credible temperature" + lowerBound, sources, quality);
        }

        if (result.LiquidFullK is { } full)
        {
            yield return Of("temperature at which the liquid fills the vessel", Wording.InCelsius(full), "°C", "thermal expansion of the liquid at saturation", sources, quality) with { Worse = WorseWhen.Lower };
        }

        if (result.HighestSetK is { } highest && assessment.LeftOut.Count == 0)
        {
            yield return Of("highest permissible set temperature", Wording.InCelsius(highest), "°C", "governing pressure at the warning share of the weakest rating, overshoot allowed for", sources, quality) with { Worse = WorseWhen.Lower };
        }

        if (result.HighestFill is { } fill && assessment.LeftOut.Count == 0)
        {
            yield return Of("largest permissible fill", fill, "fraction", "governing pressure at the warning share of the weakest rating, at most the usual fill", sources, quality) with { Worse = WorseWhen.Lower };
        }

        if (result.RatingNeededPaGauge is { } needed)
        {
            yield return Of("rating needed", needed / 1e5, "bar(g)", "governing pressure over the warning share" + lowerBound, References.Full([Practice]), quality);
        }

        if (result.Energy is { } energy)
        {
            var missing = (energy.Assumed.Count == 0 ? "" : $"; with {Wording.Figures(StoredEnergy.AssumedJPerKgK / 1e3)} kJ/(kg K) assumed for {Wording.List(energy.Assumed)}")
                + (energy.LeftOut.Count == 0 ? "" : $"; without {Wording.List(energy.LeftOut)}");
            var books = References.Full(["crowl-louvar"]);
            yield return Of("stored energy", energy.TotalJ, "J", "isentropic expansion of the gas (ratio of heat capacities 1.4) and flash of superheated liquid" + missing, books, quality);
            yield return Of("stored energy of superheated liquid", energy.LiquidJ, "J", "m cp [(T − Tb) − Tb ln(T/Tb)]" + missing, books, quality);
            yield return Of("equivalent of trinitrotoluene", energy.TntKg * 1e3, "g", "4.5 MJ/kg", books, quality);
            foreach (var blast in Blast(energy.TntKg, quality))
            {
                yield return blast;
            }

            if (result.Shield is { } shield)
            {
                yield return Of("shield class", (int)shield, "class (0–3)", ShieldClasses.Words(shield), References.Full([Practice]), Quality.Assumed);
            }
        }

        if (rating.PaGauge is null && VesselKinds.TypicalOf(state.Vessel.Kind) is { RatingPaGauge: { } typical } kind)
        {
            var upTo = kind.UpToK is { } limit ? $", up to {Wording.Celsius(limit)}" : "";
            yield return Of("typical rating", typical / 1e5, "bar(g)", $"what a {kind.Kind} is commonly taken for{upTo}; it informs only, the mark on the vessel counts", References.Full([Practice]), Quality.Assumed) with { Worse = WorseWhen.Neither };
        }

        if (result.Equipment is EquipmentStanding.Categorised)
        {
            yield return Of("pressure times volume", assessment.WorstPaGauge!.Value / 1e5 * state.Vessel.VolumeM3!.Value * 1e3, "bar·L", "above the thresholds of article 4 of Directive 2014/68/EU" + lowerBound, References.Full([Practice]), quality);
        }
    }

    /// <summary>How far the blast reaches, where it and not the fragments count.</summary>
    private static IEnumerable<Evidence> Blast(double tntKg, Quality quality)
    {
        if (tntKg < BlastLaw.BlastFromKg)
        {
            yield break;
        }

        foreach (var (pascal, what) in new[] { (BlastLaw.EardrumPa, "eardrums tear"), (BlastLaw.WindowPa, "windows break") })
        {
            var distance = BlastLaw.DistanceM(pascal, tntKg);
            yield return Of($"distance within which {what}", distance, "m", $"{Wording.Text(pascal / 1e3)} kPa at a scaled distance of {Wording.Figures(BlastLaw.ScaledDistance(distance, tntKg))} m/kg^⅓, Kinney and Graham, in the open; fragments fly farther and walls throw the blast back", References.Full(["crowl-louvar"]), quality);
        }
    }

    private static Evidence Of(string name, double value, string unit, string model, IReadOnlyList<string> sources, Quality quality) =>
        new() { Name = name, Value = value, Unit = unit, Model = model, Sources = sources, Quality = quality };

    private static Quality Later(Quality one, Quality other) => one > other ? one : other;
}
