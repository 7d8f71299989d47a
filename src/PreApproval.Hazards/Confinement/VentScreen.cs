using System.Text.RegularExpressions;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// Ways out that are open on paper and blocked in fact: a condenser or bubbler in which the solvent freezes, ice on a cold needle,
/// salts that amines and acids lay down, a drying tube that cakes, and a bore or balloon too small for the gas. Common practice
/// where no source is named: docs/methods/open-vessels.md.
/// </summary>
public sealed partial class VentScreen : IScreen
{
    /// <summary>Temperature of tap water in a condenser in K (15 °C). Common practice, no source.</summary>
    private const double TapWaterK = 288.15;

    /// <summary>Share of the vapour from which it freezes like the pure substance; a tenth of another lowers the melting point by kelvins. Convention, no source.</summary>
    private const double NearlyPure = 0.9;

    /// <summary>Below this, moisture of the air ices a narrow vent, in K (−40 °C). Common practice, no source.</summary>
    private const double IcingK = 233.15;

    /// <summary>What a balloon holds in m³ (2 L). Common practice, no source.</summary>
    internal const double BalloonM3 = 2e-3;

    /// <summary>
    /// Gas in m³/s that a needle of 0.84 mm bore (18 gauge, ISO 9626) lets out at 0.1 bar: orifice, 0.6·A·√(2Δp/ρ) with air of
    /// 1.2 kg/m³; friction in the shaft makes the true value smaller.
    /// </summary>
    internal const double NeedleM3PerS = 0.6 * (Math.PI / 4 * 0.84e-3 * 0.84e-3) * 129.1;

    /// <summary>Time in s in which an addition without a stated time counts as done. Common practice, no source.</summary>
    private const double AtOnceS = 60;

    private static readonly string[] Bases = ["ammonia", "amines", "primary and secondary amines"];

    private static readonly string[] AcidGases = ["hydrogen chloride", "acyl and sulfonyl chlorides", "thionyl chloride", "oxalyl chloride", "halides that water hydrolyses violently"];

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var open = context.Walk.States.Where(static state => !state.Sealed).ToArray();
        var gases = Array.Exists(open, IsVented) ? GasMol(context) : [];
        return [.. Freezing(open, context.Plan), .. Icing(open), .. Salts(open), .. TooNarrow(open, gases, context), .. DryingTubes(open, gases)];
    }

    private static bool IsVented(StepState state) => state.Vent is not null;

    private static IEnumerable<Finding> Freezing(StepState[] states, Plan plan)
    {
        foreach (var state in states.Where(static state => state.Step.Action is StepAction.Reflux or StepAction.Distil))
        {
            var vapour = state.Contents.Where(static content => content is { Mol: > 0, Substance.Known: { Involatile: false, PhaseAt298K: not Phase.Gas } })
                .Select(content => (Content: content, Pa: VapourPressure.At(content.Substance.Known!, state.TemperatureK) is { Volatility: Volatility.Condensable } one ? one.Pascal * content.Mol!.Value : 0))
                .Where(static entry => entry.Pa > 0)
                .ToArray();
            // with a liquid of unknown amount beside it nobody knows what makes up the vapour
            if (vapour.Length == 0 || state.Contents.Any(content => content is { Spent: false, Mol: null } && (content.Substance.Known is not { Involatile: true } || IsSolvent(content, plan))))
            {
                continue;
            }

            var main = vapour.MaxBy(static entry => entry.Pa);
            var share = main.Pa / vapour.Sum(static entry => entry.Pa);
            if (share < NearlyPure || main.Content.Substance.Known!.MeltingPointK is not { } melts || melts.Value <= TapWaterK)
            {
                continue;
            }

            yield return new Finding
            {
                Code = "pressure.condenser-freezes",
                Hazard = Hazard.Pressure,
                // a plugged condenser makes a closed vessel of what is boiled
                Severity = Severity.Warning,
                Steps = [state.Step.Id],
                Vessel = state.Vessel.Id,
                Materials = Findings.Ids([main.Content]),
                Statement = $"{Wording.Capital(main.Content.Substance.Name)} melts at {Wording.Celsius(melts.Value)}: in step {state.Step.Id} it freezes in a condenser cooled with tap water ({Wording.Celsius(TapWaterK)}) and closes it; run the condenser warmer.",
                Evidence = [Findings.Number("melting point of the vapour", Wording.InCelsius(melts.Value), "°C", Wording.InCelsius(TapWaterK), "melting point of what makes up most of the vapour", melts.Quality, "common-practice")],
            };
        }
    }

    private static bool IsSolvent(Content content, Plan plan) =>
        plan.Materials.Any(material => material.Role == Role.Solvent && string.Equals(material.Id, content.MaterialId, StringComparison.Ordinal));

    private static IEnumerable<Finding> Icing(StepState[] states) =>
        states.Where(static state => IsVented(state) && state.Headspace is Headspace.Air && state.TemperatureK < IcingK)
            .GroupBy(static state => state.Vessel.Id, StringComparer.Ordinal)
            .Select(static group => new Finding
            {
                Code = "pressure.vent-ices",
                Hazard = Hazard.Pressure,
                Severity = Severity.Caution,
                Steps = [.. group.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = group.Key,
                Statement = $"“{group.Key}” at {Wording.Celsius(group.Min(static state => state.TemperatureK))} breathes moist air through a narrow way out, which ices up: keep dry gas flowing over it.",
                Evidence = [Findings.Number("temperature at the vent", Wording.InCelsius(group.Min(static state => state.TemperatureK)), "°C", Wording.InCelsius(IcingK), "moisture of the air freezes in a narrow bore", Quality.Assumed, "common-practice") with { Worse = WorseWhen.Lower }],
            });

    private static IEnumerable<Finding> Salts(StepState[] states)
    {
        foreach (var group in states.Where(IsVented).GroupBy(static state => state.Vessel.Id, StringComparer.Ordinal))
        {
            foreach (var state in group)
            {
                var bases = Members(state, Bases).Where(static content => content.Substance.Known is { Involatile: false, PhaseAt298K: not Phase.Solid }).ToArray();
                var acids = Members(state, AcidGases);
                if (bases.Length == 0 || acids.Length == 0)
                {
                    continue;
                }

                yield return new Finding
                {
                    Code = "pressure.vent-salts-up",
                    Hazard = Hazard.Pressure,
                    Severity = Severity.Caution,
                    Steps = [state.Step.Id],
                    Vessel = group.Key,
                    Materials = Findings.Ids([.. bases, .. acids]),
                    Statement = $"{Wording.Capital(bases[0].Substance.Name)} and the acid gas from {acids[0].Substance.Name} lay down a salt in the narrow way out of “{group.Key}” and close it: use a wide bore and look at it.",
                    Evidence = [Findings.Number("narrow way out", 1, "1", null, "ammonium salts form from the two vapours and settle where it is cold", Quality.Assumed, "common-practice") with { Worse = WorseWhen.Neither }],
                };
                break;
            }
        }
    }

    private static Content[] Members(StepState state, string[] families) =>
        [.. state.Contents.Where(static content => !content.Spent && content.Mol is null or > 0).Where(content => FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(family => families.Contains(family, StringComparer.Ordinal)))];

    private IEnumerable<Finding> TooNarrow(StepState[] states, Dictionary<StepState, double> gases, ScreeningContext context)
    {
        foreach (var state in states.Where(static state => state.Vent is Closure.Balloon or Closure.Needle))
        {
            if (gases.GetValueOrDefault(state) is not (> 0 and var mol))
            {
                continue;
            }

            var gas = AirDisplacement.GasVolumeM3(mol, Math.Max(state.TemperatureK, Walk.RoomTemperatureK));
            var balloon = state.Vent == Closure.Balloon;
            var seconds = state.Step.OverS ?? state.Step.DurationS ?? AtOnceS;
            var rate = gas / Math.Max(seconds, 1);
            if (balloon ? gas <= BalloonM3 : rate <= NeedleM3PerS)
            {
                continue;
            }

            var finding = new Finding
            {
                Code = "pressure.vent-too-narrow",
                Hazard = Hazard.Pressure,
                Severity = Severity.Warning,
                Steps = [state.Step.Id],
                Vessel = state.Vessel.Id,
                Statement = balloon
                    ? $"Step {state.Step.Id} makes {Findings.Litres(gas)} of gas in “{state.Vessel.Id}” under a balloon, which holds about 2 L: lead the gas away through a bubbler."
                    : $"Step {state.Step.Id} makes {Findings.Litres(gas)} of gas in {Wording.Text(seconds)} s in “{state.Vessel.Id}”, {Wording.Figures(rate * 6e4)} L/min; a needle lets out about {Wording.Figures(NeedleM3PerS * 6e4)} L/min at 0.1 bar: add more slowly or open a wider way.",
                Evidence =
                [
                    balloon
                        ? Findings.Number("gas made", gas * 1e3, "L", BalloonM3 * 1e3, "ideal gas", Quality.Estimated, "ideal-gas", "common-practice")
                        : Findings.Number("gas flow", rate * 6e4, "L/min", NeedleM3PerS * 6e4, "ideal gas over the time of the step; orifice of 0.84 mm at 0.1 bar", Quality.Estimated, "ideal-gas", "common-practice"),
                ],
            };
            yield return context.IsTrial || balloon || state.Step.Materials.Count == 0
                ? finding
                : finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("time of addition", Findings.Step(state.Index, "over"), Math.Ceiling(gas / NeedleM3PerS / 60), "min", null)) };
        }
    }

    /// <summary>Gas in mol of the open steps: of declared reactions and of encounters, of both kinds where the step has both.</summary>
    private static Dictionary<StepState, double> GasMol(ScreeningContext context) =>
        OpenGas.Of(context).ToDictionary(static pair => pair.Key, static pair => pair.Value.Sum(static gas => gas.CountedMol ?? 0), (IEqualityComparer<StepState>)ReferenceEqualityComparer.Instance);

    private static IEnumerable<Finding> DryingTubes(StepState[] states, Dictionary<StepState, double> gases) =>
        states.Where(state => state.Vent is not null && DryingTube().IsMatch(state.Vessel.Closure ?? "") && gases.GetValueOrDefault(state) > 0)
            .GroupBy(static state => state.Vessel.Id, StringComparer.Ordinal)
            .Select(group => new Finding
            {
                Code = "pressure.drying-tube-cakes",
                Hazard = Hazard.Pressure,
                Severity = Severity.Caution,
                Steps = [.. group.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = group.Key,
                Statement = $"“{group.Key}” lets its gas out through a drying tube, whose filling cakes and closes: use a bubbler.",
                Evidence = [Findings.Number("gas made", group.Sum(gases.GetValueOrDefault), "mol", null, "declared reactions, or encounters up to the limiting partner", Quality.Estimated, "common-practice")],
            });

    [GeneratedRegex(@"\bdrying tube\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex DryingTube();
}
