using System.Text.RegularExpressions;
using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// What a stated rating can be believed for without looking at the vessel. The mark on the vessel wins, but a number that its kind never has is more likely a mistake
/// than a mark, and no rating of a vessel makes a loose closure hold. Grounds: docs/methods/ratings.md.
/// </summary>
internal static partial class RatingCredibility
{
    /// <summary>A rating up to this many times the usual one of the kind is believed: marked vessels of one kind differ by two to three. Common practice, no source.</summary>
    public const double BelievedTimesUsual = 3;

    /// <summary>What such a kind usually holds in Pa gauge; a kind that is not listed is taken for the strongest of its material. Null: only a stamp or a formula tells.</summary>
    public static double? UsualPaGauge(string kind)
    {
        if (VesselKinds.TypicalOf(kind) is { } typical)
        {
            return typical.RatingPaGauge;
        }

        var material = VesselKinds.MaterialOf(kind);
        double strongest = 0;
        foreach (var row in VesselKinds.Typical)
        {
            if (row.RatingPaGauge is { } rating && VesselKinds.MaterialOf(row.Kind) == material)
            {
                strongest = Math.Max(strongest, rating);
            }
        }

        return strongest;
    }

    /// <summary>Highest gauge pressure in bar that a document may state: 10 000 bar absolute, less one atmosphere.</summary>
    private const double LargestStatedBar = 9998;

    /// <summary>True where a rating in bar gauge would be believed of a kind as typed, and a document can state it.</summary>
    public static bool IsWorthOffering(string kind, double barGauge) => barGauge <= LargestStatedBar && !(barGauge * 1e5 > UsualPaGauge(kind) * BelievedTimesUsual);

    /// <summary>The closure in words where it cannot hold pressure whatever the vessel holds; null where it may.</summary>
    public static string? LooseClosure(StepState state, IReadOnlyList<Step> steps) =>
        steps[state.Closing!.StepIndex].Closure is { } closure ? Loose(closure, state.Vessel) : OfVessel(state.Vessel);

    private static string? Loose(Closure closure, Vessel vessel) => closure switch
    {
        Closure.Stopper => "a stopper",
        // the septum of a crimped or screwed cap is held by it
        Closure.Septum => HoldsSeptum(vessel) ? null : "a septum",
        Closure.Balloon => "a balloon",
        Closure.Bubbler or Closure.Needle => null,
        Closure.Plug or Closure.Cap => OfVessel(vessel),
    };

    private static string? OfVessel(Vessel vessel)
    {
        if (vessel.Closure is not { } words || Held().IsMatch(words))
        {
            return null;
        }

        return LooseWords().IsMatch(words) || (SeptumWord().IsMatch(words) && !HoldsSeptum(vessel)) ? $"“{words}”" : null;
    }

    private static bool HoldsSeptum(Vessel vessel) => CapKinds().IsMatch(vessel.Kind) || Held().IsMatch(vessel.Kind) || (vessel.Closure is { } words && Held().IsMatch(words));

    // their caps are crimped or screwed over the septum
    [GeneratedRegex(@"\b(microwave|headspace)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex CapKinds();

    [GeneratedRegex(@"\b(screw\w*|thread\w*|crimp\w*|bolt\w*|flange\w*)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Held();

    [GeneratedRegex(@"\b(stoppers?|corks?|bungs?|balloons?|para(ffin )?film|sealing film|cling film|foil|tape|watch glass|ground joints?)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex LooseWords();

    [GeneratedRegex(@"\bsept(um|a|ums)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex SeptumWord();
}
