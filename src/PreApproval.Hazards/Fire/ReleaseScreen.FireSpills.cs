using System.Globalization;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <content>A flammable liquid that spills from an open vessel.</content>
internal static partial class ReleaseScreen
{
    /// <summary>Lower limit taken in the first, rough look where none is on file, as a volume fraction: few liquids have a lower one. Common practice, no source.</summary>
    private const double LowLimit = 0.005;

    /// <summary>A spill of an open vessel: worth a finding where the air of the place comes near the lower limit as the pool evaporates.</summary>
    private static Finding? FireSpill(StepState[] states, ScreeningContext context)
    {
        var spread = ReleaseSpread.Of(context.Plan.Place);
        List<(StepState State, FireSpillEstimate Spill)>? worth = null;
        foreach (var state in states)
        {
            // most spills fall short even if they boiled: the rest costs nothing then
            if (MostOf(state, spread) >= FireThresholds.CautionShareOfLimit && FireSpillEstimate.Of(state, spread) is { } spill && spill.Share >= FireThresholds.CautionShareOfLimit)
            {
                (worth ??= []).Add((state, spill));
            }
        }

        if (worth is null)
        {
            return null;
        }

        var (worst, most) = worth.MaxBy(static one => one.Spill.Share);
        return new Finding
        {
            Code = "fire.spill",
            Hazard = Hazard.Fire,
            Severity = ReleaseSpread.Of(most.Share),
            Steps = StepIds.Of(worth, static one => one.State),
            Vessel = worst.Vessel.Id,
            Materials = MaterialIds.Of(worst.Contents.Where(static content => MayBurn(content))),
            Statement = $"If “{worst.Vessel.Id}” spills, the pool brings {(spread.IsHood ? "the air of the hood" : RoomWords(context))} to {ShareWords.Percent(most.Share)} of the lower limit as it evaporates ({ShareWords.Percent(most.WholeShare)} if all of it did at once): nothing that ignites near it, then leave and let it be aired.",
            Evidence =
            [
                Line($"share of the lower limit in the {(spread.IsHood ? "hood" : "room")}, as it evaporates", most.Share, "fraction", ReleaseSpread.StepOf(most.Share), SpreadModel(spread), [.. References.Full(["crowl-louvar", "epa-550-b-99-009"]), .. most.Limit.Sources], Quality.Estimated),
                Line("share of the lower limit, evaporated whole", most.WholeShare, "fraction", null, "evenly mixed, no ventilation: an upper bound", most.Limit.Sources, most.Limit.Quality),
            ],
        };
    }

    private static string SpreadModel(ReleaseSpread spread) => string.Create(
        CultureInfo.InvariantCulture,
        $"pools 1 cm deep in {(spread.IsHood ? "air at 0.5 m/s" : "quiet air")}, evenly mixed into {Wording.Figures(spread.SpaceM3)} m³ with {Wording.Figures(spread.FlowM3PerS)} m³/s of fresh air");

    private static bool MayBurn(Content content) =>
        content is { Spent: false, Mol: > 0, Substance.Known: { Involatile: false, PhaseAt298K: Phase.Liquid, NonFlammable: not { Value: true } } } && BurningMaterials.Of(content.Substance) == Burning.Liquid;

    /// <summary>The share of the lower limit that no spill of it passes.</summary>
    private static double MostOf(StepState state, in ReleaseSpread spread)
    {
        double share = 0;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (MayBurn(state.Contents[index]))
            {
                var known = state.Contents[index].Substance.Known!;
                share += spread.BoilingPoolFraction(known, state.Contents[index].Mol!.Value) / (known.LowerFlammableLimit?.Governing.Value ?? LowLimit);
            }
        }

        return share;
    }

    /// <summary>What a spill of an open vessel brings into the air of the place.</summary>
    /// <param name="Share">Share of the lower limit as it evaporates.</param>
    /// <param name="WholeShare">Share of the lower limit if all of it were vapour at once, without ventilation.</param>
    /// <param name="Limit">The lower limit.</param>
    private sealed record FireSpillEstimate(double Share, double WholeShare, LimitEstimate Limit)
    {
        public static FireSpillEstimate? Of(StepState state, ReleaseSpread spread)
        {
            // little of it in much water does not burn
            if (!BurningMaterials.Of(state.Contents).Contains(Burning.Liquid))
            {
                return null;
            }

            var liquids = state.Contents.Where(static content => MayBurn(content))
                .GroupBy(static content => content.Substance.Key, StringComparer.Ordinal)
                .OrderBy(static group => group.Key, StringComparer.Ordinal)
                .Select(static group => (Known: group.First().Substance.Known!, Mol: group.Select(static content => content.Mol!.Value).Order().Sum()))
                .ToArray();
            var fractions = Array.ConvertAll(liquids, liquid => spread.PoolFraction(liquid.Known, liquid.Mol, state.TemperatureK));
            var total = fractions.Sum();
            var limits = VapourLimits.At(
                Array.ConvertAll(liquids, static liquid => new MixtureComponent(liquid.Known, 1)),
                Array.ConvertAll(fractions, fraction => fraction / total),
                RoomK);
            return limits.Lower.Fraction is { } lower
                ? new FireSpillEstimate(Math.Min(total, 1) / lower, ReleaseLaw.FractionIn(spread.SpaceM3, ReleaseLaw.VapourM3(liquids.Sum(static liquid => liquid.Mol))) / lower, limits.Lower)
                : null;
        }
    }
}
