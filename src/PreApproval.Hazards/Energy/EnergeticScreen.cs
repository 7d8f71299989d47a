using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// Substances that can decompose by themselves: what they hold, how much of one is isolated, and how near a mixture comes to where it decomposes.
/// Method and examples: docs/methods/energetic-substances.md.
/// </summary>
public sealed class EnergeticScreen : IScreen
{
    /// <summary>Energy of a mixture in J/kg below which its decomposition is no finding (100 J/g). Common practice, no source.</summary>
    internal const double LittleJPerKg = 100e3;

    /// <summary>Distance in K to keep from an onset (the 100 K rule; weak evidence only). Common practice, no source.</summary>
    internal const double KeptFromOnsetK = 100;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var energetic = EnergeticContents.Of(context);
        return energetic.IsEmpty ? [.. LeftByEncounters.Find(context)] : [.. LeftByEncounters.Find(context), .. Described(energetic), .. IsolatedSolids.Find(context, energetic), .. NearOnset(context, energetic)];
    }

    private static IEnumerable<Finding> Described(EnergeticContents energetic)
    {
        foreach (var (substance, profile, materials) in energetic.All)
        {
            if (!profile.IsExplosive && !(profile.HighJPerKg >= TransportScreens.ExplosiveFromJPerG * 1000))
            {
                continue;
            }

            yield return new Finding
            {
                Code = "energetic.groups",
                Hazard = Hazard.Energetic,
                Severity = Severity.Notice,
                Materials = materials,
                About = materials.Count == 0 ? substance.Key : null,
                Statement = $"{Wording.Capital(substance.Name)} holds {profile.GroupWords}{profile.BasisWords}: {HeatWords(profile)}{OnsetWords(profile)}{(profile.HighJPerKg is null ? "" : WithoutWords(profile.WithoutFigures))}{CandidateWords(profile)}.",
                Evidence = [.. Evidence(substance, profile)],
            };
        }
    }

    internal static string HeatWords(EnergeticProfile profile) => profile is { LowJPerKg: { } low, HighJPerKg: { } high }
        ? $"it gives {(profile.HeatIsComplete ? "about" : "at least")} {KilojoulePerGram(low)} to {KilojoulePerGram(high)} kJ/g when it decomposes"
        : "no heat of decomposition is on file for it";

    /// <summary>What the figures leave out, or nothing.</summary>
    private static string WithoutWords(IReadOnlyList<string> without) =>
        without.Count == 0 ? "" : $"; for {Wording.List(without)} no heat or no onset is on file, so it may give more heat or begin colder";

    private static string KilojoulePerGram(double joulePerKg) => Wording.Figures(joulePerKg / 1e6);

    private static string OnsetWords(EnergeticProfile profile) => profile.OnsetK is { } onset ? $", usually from about {Wording.Celsius(onset)}" : "";

    private static string CandidateWords(EnergeticProfile profile) =>
        TransportScreens.IsExplosiveCandidate(true, profile.Groups.Any(static one => one.Group.HoldsOxygen), profile.OxygenBalancePercent, profile.HeatIsComplete ? profile.HighJPerKg / 1000 : null, profile.OnsetK - 273.15)
            ? profile.HighJPerKg >= TransportScreens.DetonationFromJPerG * 1000 ? "; by the screens of the UN Manual it is a candidate for testing as an explosive, detonation included" : "; by the screens of the UN Manual it is a candidate for testing as an explosive"
            : "";

    private static IEnumerable<Evidence> Evidence(PlanSubstance substance, EnergeticProfile profile)
    {
        if (profile.HighJPerKg is { } high)
        {
            yield return Findings.Number("heat of decomposition", high / 1000, "J/g", TransportScreens.ExplosiveFromJPerG, profile.HeatIsComplete ? "sum over the energetic groups, upper end of each range" : "sum over the energetic groups with a figure, upper end of each range: a lower bound", Quality.Estimated, [.. profile.Sources, "un-tests-criteria"]);
        }

        if (substance.Known is { Identity.Formula: { } formula } known
            && (known.PhaseAt298K == Phase.Solid ? known.SolidEnthalpyOfFormationJPerMol : known.LiquidEnthalpyOfFormationJPerMol) is { } formation
            && DecompositionEnergy.JPerKg(formula, formation.Value, CarbonProduct.Dioxide) is { } toProducts && toProducts < 0)
        {
            yield return Findings.Number("heat of decomposition from the enthalpy of formation", -toProducts / 1000, "J/g", null, "to water vapour, carbon dioxide, soot and nitrogen: an upper bound", Quality.Estimated, [.. formation.Sources, "crc-enthalpies"]);
        }

        if (profile.OnsetK is { } onset)
        {
            yield return Findings.Number("usual onset of decomposition", onset - 273.15, "°C", null, profile.Autocatalytic ? "lowest of its groups; autocatalytic, so its thermal history counts" : "lowest of its groups", Quality.Estimated, [.. profile.Sources]) with { Worse = WorseWhen.Lower };
        }

        if (profile.OxygenBalancePercent is { } balance)
        {
            yield return Findings.Number("oxygen balance", balance, "%", TransportScreens.LeastOxygenBalancePercent, "formula; a halogen takes a metal, else a hydrogen; the rest of a metal as its oxide", Quality.Estimated, "un-tests-criteria");
        }

        if (profile.NitrogenRatio is { } ratio)
        {
            yield return Findings.Number("(C + O)/N by atoms", ratio, "1", 3, "formula", Quality.Estimated, "azide-rule") with { Worse = WorseWhen.Lower };
        }

        if (profile is { HighJPerKg: { } heat, OnsetK: { } from })
        {
            foreach (var constants in Enum.GetValues<SensitivityConstants>())
            {
                if (SensitivityEstimate.Of(heat / 1000, from - 273.15, constants) is { } estimate)
                {
                    var which = constants switch { SensitivityConstants.Published => "constants of 1987", SensitivityConstants.Cautious => "cautious constants" };
                    yield return Findings.Number($"sensitivity to shock ({which})", estimate.Shock, "1", 0, "Yoshida's correlation of heat and onset; below 0 proves nothing", Quality.Estimated, "yoshida-1987", "oprd-2020-diazo");
                    yield return Findings.Number($"ability to propagate ({which})", estimate.Propagation, "1", 0, "Yoshida's correlation of heat and onset; below 0 proves nothing", Quality.Estimated, "yoshida-1987", "oprd-2020-diazo");
                }
            }
        }
    }

    private static IEnumerable<Finding> NearOnset(ScreeningContext context, EnergeticContents energetic)
    {
        foreach (var vessel in context.Walk.ByVessel)
        {
            var near = vessel.Select(state => (State: state, Mixture: energetic.In(state)))
                .Where(static pair => pair.Mixture is { } mixture && IsNear(mixture, pair.State))
                .Select(static pair => (pair.State, Mixture: pair.Mixture!, Severity: Grade(pair.Mixture!, pair.State)))
                .ToArray();
            if (near.Length == 0)
            {
                if (NotNearButIncomplete(vessel, energetic) is { } incomplete)
                {
                    yield return incomplete;
                }

                continue;
            }

            var (state, mixture, severity) = near.OrderBy(static one => one.Severity).ThenByDescending(static one => one.State.WorstTemperatureK - one.Mixture.OnsetK).ThenByDescending(static one => one.Mixture.JPerKg).First();
            var above = state.WorstTemperatureK - mixture.OnsetK;
            yield return new Finding
            {
                Code = "energetic.near-onset",
                Hazard = Hazard.Energetic,
                Severity = severity,
                Steps = [.. near.Select(static one => one.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = vessel[0].Vessel.Id,
                Materials = mixture.Materials,
                Statement = $"In step {state.Step.Id} “{vessel[0].Vessel.Id}” can reach {Wording.Celsius(state.WorstTemperatureK)}, {(above >= 0 ? "at or above" : $"only {Wording.Text(Math.Round(-above))} K below")} the usual onset of decomposition of {mixture.Worst.Name} ({Wording.Celsius(mixture.OnsetK)}), and its contents can give about {Wording.Text(Math.Round(mixture.JPerKg / 1000, MidpointRounding.AwayFromZero))} J/g{(mixture.MassKnown ? "" : " (dilution not known, so the pure substance counts)")}: stay colder or more dilute, or show a calorimeter run of this mixture{WithoutWords(mixture.WithoutFigures)}.",
                Evidence =
                [
                    Findings.Number("heat of decomposition of the contents", mixture.JPerKg / 1000, "J/g", TransportScreens.SelfReactiveFromJPerG, "energetic groups by their share of the mass", Quality.Estimated, [.. mixture.Sources, "un-tests-criteria"]),
                    Findings.Number("distance to the usual onset", -above, "K", KeptFromOnsetK, "worst temperature against the lowest onset of the groups; a rule of thumb, no proof", Quality.Estimated, [.. mixture.Sources, "common-practice"]) with { Worse = WorseWhen.Lower },
                ],
            };
        }
    }

    /// <summary>Heated, and far from the onset by the groups that have figures: the others are named.</summary>
    private static Finding? NotNearButIncomplete(StepState[] vessel, EnergeticContents energetic)
    {
        var heated = vessel.Where(static state => state.Heated).Select(state => (State: state, Mixture: energetic.In(state)))
            .Where(static pair => pair.Mixture is { WithoutFigures.Count: > 0 })
            .ToArray();
        return heated.Length == 0 ? null : new Finding
        {
            Code = "data.energetic-figures",
            Hazard = Hazard.Data,
            Severity = Severity.Notice,
            Steps = [.. heated.Select(static pair => pair.State.Step.Id).Distinct(StringComparer.Ordinal)],
            Vessel = vessel[0].Vessel.Id,
            Materials = [.. heated.SelectMany(static pair => pair.Mixture!.Materials).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = $"“{vessel[0].Vessel.Id}” is heated with an energetic substance that also holds {Wording.List(heated.SelectMany(static pair => pair.Mixture!.WithoutFigures).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))}, with no heat or no onset on file: how near it comes to decomposing is judged by its other groups alone.",
        };
    }

    /// <summary>At rest in the room half the distance is enough, and only what counts as self-reactive matters there.</summary>
    private static bool IsNear(EnergeticMixture mixture, StepState state) => state.Heated
        ? mixture.JPerKg >= LittleJPerKg && state.WorstTemperatureK > mixture.OnsetK - KeptFromOnsetK
        : mixture.JPerKg >= TransportScreens.SelfReactiveFromJPerG * 1000 && state.WorstTemperatureK > mixture.OnsetK - (KeptFromOnsetK / 2);

    private static Severity Grade(EnergeticMixture mixture, StepState state)
    {
        var reached = state.WorstTemperatureK >= mixture.OnsetK;
        return mixture.JPerKg switch
        {
            >= TransportScreens.ExplosiveFromJPerG * 1000 => reached ? Severity.Danger : Severity.Warning,
            >= TransportScreens.SelfReactiveFromJPerG * 1000 => Severity.Warning,
            _ => Severity.Caution,
        };
    }
}
