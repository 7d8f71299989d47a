using System.Globalization;
using System.Text.RegularExpressions;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// Contents that go on making gas after they look finished, in what is stored, left closed or put into the waste closed
/// (Data/delayed-gas.tsv). Method: docs/methods/delayed-gas.md.
/// </summary>
public sealed partial class DelayedGasScreen : IScreen
{
    /// <summary>Time in s in the open after which fast gas has stopped. Common practice, no source.</summary>
    private const double StopsAfterS = 600;

    /// <summary>0.5 L of gas at 25 °C and 1 atm in mol: 0.4 bar in the 1.25 L over a bottle of 2.5 L that is half full. Common practice, no source.</summary>
    private const double BurstingGasMol = 0.5 / Health.AirConcentration.MolarVolumeLPerMol;

    private static readonly Rule[] Rules = [.. EmbeddedTable.Rows("delayed-gas.tsv").Select(Rule.Read)];

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => [.. InVessels(context), .. InWaste(context)];

    private static IEnumerable<Finding> InVessels(ScreeningContext context)
    {
        foreach (var vessel in context.Walk.ByVessel)
        {
            // what is closed for good, or put away closed
            var last = vessel[^1];
            var left = Array.FindAll(vessel, state => state.Sealed && (state.Step.Action == StepAction.Store || ReferenceEquals(state, last)));
            if (left.Length == 0)
            {
                continue;
            }

            var state = left[0];
            foreach (var rule in Rules)
            {
                if (rule.Match(state.ContentsAfter) is { } match && !IsSaidBetter(rule, state.ContentsAfter) && !HasStopped(rule, state.Closing!) && InVessel(rule, match, state, [.. left.Select(static one => one.Step.Id)], context) is { } finding)
                {
                    yield return finding;
                }
            }
        }
    }

    /// <summary>True where another rule says more of the same gas.</summary>
    private static bool IsSaidBetter(Rule rule, IReadOnlyList<Content> contents)
    {
        foreach (var other in Rules)
        {
            if (string.Equals(other.InsteadOf, rule.Key, StringComparison.Ordinal) && other.Match(contents) is not null)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Both partners stood open together long enough before the vessel was closed.</summary>
    private static bool HasStopped(Rule rule, Closing closing) => rule.Stops && closing.OpenTogetherS >= StopsAfterS && rule.Match(closing.MetOpen) is not null;

    private static Finding? InVessel(Rule rule, Match match, StepState state, string[] steps, ScreeningContext context)
    {
        var (condensed, complete) = FillLimits.CondensedM3(state.ContentsAfter);
        var room = state.Vessel.VolumeM3 - condensed;
        var full = room <= 0;
        var pressure = full ? null : match.GasMol * GasConstant * Cryogens.BenchK / room;
        // what takes room of unknown size may leave hardly any
        if (complete && pressure <= context.Policy.UnratedNothingPa)
        {
            return null;
        }

        var low = rule.Slow || pressure <= context.Policy.UnratedCautionPa;
        var (reach, model) = complete
            ? ("up to", "in the room that the contents leave")
            : ("at least", "in the room that the contents of known volume leave, hence at least");
        return new Finding
        {
            Code = "gas.delayed",
            About = rule.Key,
            Hazard = Hazard.Gas,
            Severity = (low ? Severity.Caution : Severity.Warning) - (rule.Grave ? 1 : 0),
            Steps = steps,
            Vessel = state.Vessel.Id,
            Materials = Findings.Ids(match.Everyone),
            Statement = $"“{state.Vessel.Id}” is left closed over {match.Names}: {rule.Reason}, over {rule.HowLong}, to {rule.Gas}{(full ? ", and the contents leave no room for any" : pressure is { } pa ? $", {reach} {Wording.Figures(pa / 1e5)} bar in all" : "")}; put it away with a vented cap.",
            Evidence = pressure is { } all
                ? [Findings.Number($"pressure of all the {rule.Gas}", all / 1e5, "bar", context.Policy.UnratedNothingPa / 1e5, $"ideal gas at 25 °C {model}, limiting partner turned over completely", Quality.Estimated, [.. rule.Sources, "ideal-gas"])]
                : full
                    ? [Findings.Number("room that the contents leave", 0, "mL", null, "volume of the vessel less that of the liquids and solids", Quality.Estimated, [.. rule.Sources]) with { Worse = WorseWhen.Lower }]
                    : [Findings.Number($"{rule.Gas} per mol", rule.GasPerMol, "mol", null, "stoichiometry; amount or volume not known", Quality.Assumed, [.. rule.Sources])],
        };
    }

    private static IEnumerable<Finding> InWaste(ScreeningContext context)
    {
        foreach (var (container, contents) in ReactivityScreen.WasteContainers(context))
        {
            if (Vented().IsMatch(container))
            {
                continue;
            }

            var closed = ClosedWords().IsMatch(container);
            foreach (var rule in Rules)
            {
                if (rule.Match(contents) is not { } match || IsSaidBetter(rule, contents))
                {
                    continue;
                }

                yield return new Finding
                {
                    Code = "gas.delayed",
                    About = $"{container}+{rule.Key}",
                    Hazard = Hazard.Gas,
                    Severity = ((closed || BurstsBottle(rule, contents, context.Plan)) && !rule.Slow ? Severity.Warning : Severity.Caution) - (rule.Grave ? 1 : 0),
                    Materials = Findings.Ids(match.Everyone),
                    Statement = $"The waste “{container}” gets {match.Names}: {rule.Reason}, over {rule.HowLong}, to {rule.Gas}; {(closed ? "it is closed: vent its cap" : "leave its cap vented")} for at least 24 h.",
                    Evidence = [Findings.Number($"{rule.Gas} per mol", rule.GasPerMol, "mol", null, "stoichiometry; the amount in the container is not stated", Quality.Assumed, [.. rule.Sources])],
                };
            }
        }
    }

    /// <summary>True where two partners, all of both, give more gas than the air space of a half-full bottle takes at 0.4 bar, or their amounts are not known: a cap screwed on by habit is then enough.</summary>
    private static bool BurstsBottle(Rule rule, Content[] contents, Plan plan)
    {
        if (rule.B.Length == 0)
        {
            return false;
        }

        var materials = plan.Materials.ToDictionary(static material => material.Id, StringComparer.Ordinal);
        Content[] whole = [.. contents.Select(content => content with { Mol = Mol(materials[content.MaterialId!], content.Substance, plan) })];
        return rule.Match(whole) is { } match && !(match.GasMol <= BurstingGasMol);
    }

    private static double? Mol(Material material, PlanSubstance substance, Plan plan) => PlannedAmount.Of(plan, material, amount =>
        AmountConversion.Convert(material.Composition, amount).Portions.FirstOrDefault(portion => string.Equals(portion.Substance.Key, substance.Key, StringComparison.Ordinal))?.Mol);

    [GeneratedRegex(@"\b(vent(ed|ing)?|loose(ly)?|open)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Vented();

    [GeneratedRegex(@"\b(closed|capped|tight(ly)?|sealed|screw[ -]?cap(ped)?|stoppered|shut)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex ClosedWords();

    /// <summary>A rule that applies: who, and how much gas in all.</summary>
    private sealed record Match(IReadOnlyList<Content> A, IReadOnlyList<Content> B, double? GasMol)
    {
        public IEnumerable<Content> Everyone => [.. A, .. B];

        public string Names => B.Count == 0 ? A[0].Substance.Name : $"{A[0].Substance.Name} and {B[0].Substance.Name}";
    }

    private sealed record Rule(string Key, string A, string B, string Gas, double GasPerMol, double? From, string HowLong, bool Stops, bool OfFirst, string InsteadOf, bool Grave, string Reason, IReadOnlyList<string> Sources)
    {
        private const string Organic = "organic";

        /// <summary>Gas that comes over weeks or months.</summary>
        public bool Slow => HowLong is "weeks" or "months";

        public static Rule Read(IReadOnlyDictionary<string, string> row)
        {
            var gas = row["gas"].Split(':');
            return new Rule(
                row["key"], row["a"], row["b"], gas[0], double.Parse(gas[1], CultureInfo.InvariantCulture),
                row["from"].Length == 0 ? null : double.Parse(row["from"], CultureInfo.InvariantCulture), row["how long"], row["stops"] is "yes",
                gas is [_, _, "first"], row["instead of"], row["grave"] is "yes", row["reason"], EmbeddedTable.Entries(row["sources"]));
        }

        public Match? Match(IReadOnlyList<Content> contents)
        {
            for (var index = 0; index < contents.Count; index++)
            {
                if (IsIn(contents[index], A))
                {
                    return MatchOf(contents);
                }
            }

            return null;
        }

        private Match? MatchOf(IReadOnlyList<Content> contents)
        {
            var a = contents.Where(content => IsIn(content, A) && !(content.MassFraction < From)).ToArray();
            if (a.Length == 0)
            {
                return null;
            }

            var b = B.Length == 0 ? [] : contents.Where(content => !a.Contains(content) && IsIn(content, B)).ToArray();
            if (B.Length > 0 && b.Length == 0)
            {
                return null;
            }

            var mol = Sum(a, static _ => 1) * GasPerMol;
            // a proton, or an oxidisable molecule, gives at most one molecule of gas
            var limit = b.Length == 0 || OfFirst ? double.PositiveInfinity : Sum(b, content => B is Organic ? GasPerMol * 10 : FamilyTable.Default.Equivalents(content.Substance, B));
            return new Match(a, b, mol is { } one && limit is { } other ? Math.Min(one, other) : mol);
        }

        private static bool IsIn(Content content, string family) => !content.Spent && content.Mol is null or > 0
            && (family is Organic ? IsOrganic(content.Substance) : FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains(family, StringComparer.Ordinal));

        /// <summary>Carbon with hydrogen: alcohols, ketones, solvents; carbonates and cyanides are not.</summary>
        private static bool IsOrganic(PlanSubstance substance) =>
            substance.Known is { PhaseAt298K: Phase.Liquid, Identity.Formula: { } formula } && CarbonWithHydrogen().IsMatch(formula);

        private static double? Sum(IEnumerable<Content> contents, Func<Content, double> each) =>
            contents.Aggregate((double?)0, (sum, content) => sum + (content.Mol * each(content)));
    }

    [GeneratedRegex(@"^C\d*H", RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex CarbonWithHydrogen();
}
