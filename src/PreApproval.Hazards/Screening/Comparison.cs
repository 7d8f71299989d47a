using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>What became of a hazard from one plan to the other.</summary>
public enum ChangeEffect
{
    Introduced,
    Removed,
    Raised,
    Lowered,
}

/// <summary>A plan with its report and the policy it was screened under.</summary>
public sealed record ScreenedPlan(Plan Plan, Report Report, Policy Policy);

/// <summary>One hazard that differs between two plans.</summary>
public sealed record HazardChange
{
    public required Hazard Hazard { get; init; }

    /// <summary>Name of the leading number of the finding; the finding's code in words where it has none.</summary>
    public required string Quantity { get; init; }

    public required ChangeEffect Effect { get; init; }

    /// <summary>Null before an introduced hazard; null where the finding has no number.</summary>
    public Evidence? Before { get; init; }

    /// <summary>Null after a removed hazard; null where the finding has no number.</summary>
    public Evidence? After { get; init; }

    public Finding? FindingBefore { get; init; }

    public Finding? FindingAfter { get; init; }

    /// <summary>Where: in the later plan, in the earlier one where it is gone; null: no vessel in particular.</summary>
    public string? Vessel { get; init; }

    /// <summary>The steps there.</summary>
    public IReadOnlyList<string> Steps { get; init; } = [];

    /// <summary>Further changes that have the same pressure in the same vessel: told with this one.</summary>
    public IReadOnlyList<HazardChange> Also { get; init; } = [];

    /// <summary>Set where the numbers of the steps differ and not, or not only, a finding.</summary>
    internal StepQuantity? Of { get; init; }

    /// <summary>True where the later plan is worse.</summary>
    public bool IsWorse => Effect is ChangeEffect.Introduced or ChangeEffect.Raised;
}

/// <summary>
/// The hazards that a plan removes, introduces or changes against an earlier one. Findings are matched by hazard, quantity and place: the same
/// substances, the same vessel or one of its kind, the same actions. Identifiers help but do not decide, so that renamed steps, vessels and
/// materials are no change. Beside them stand the numbers of the steps that are no finding (<see cref="StepComparison"/>). Pure.
/// </summary>
public static class Comparison
{
    /// <summary>Relative difference of two numbers that counts as none: reports carry six significant digits.</summary>
    private const double SameWithin = 1e-5;

    /// <summary>Relative difference that is no change of a hazard (1 %): no model here carries more. Common practice, no source.</summary>
    private const double CarriedShare = 0.01;

    /// <summary>Difference of temperatures and of margins between them that is none, in K: they are told in whole kelvins.</summary>
    private const double CarriedK = 0.5;

    /// <summary>The same for pressures, in bar: they are told in hundredths.</summary>
    private const double CarriedBar = 0.005;

    /// <summary>The changes: what is worse first, then by severity, hazard and quantity.</summary>
    public static IReadOnlyList<HazardChange> Of(ScreenedPlan before, ScreenedPlan after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var old = before.Report.Findings.Where(IsHazard).Select(finding => new Placed(finding, before.Plan)).ToArray();
        var now = after.Report.Findings.Where(IsHazard).Select(finding => new Placed(finding, after.Plan)).ToArray();
        var pairs = old.SelectMany(o => now.Select(n => (Old: o, New: n, Likeness: Likeness(o, n))))
            .Where(static pair => pair.Likeness is not null)
            .OrderByDescending(static pair => pair.Likeness);
        var matched = new Dictionary<Placed, Placed>();
        var taken = new HashSet<Placed>();
        foreach (var (o, n, _) in pairs)
        {
            if (!matched.ContainsKey(o) && taken.Add(n))
            {
                matched.Add(o, n);
            }
        }

        var changes = old.Select(o => matched.TryGetValue(o, out var n) ? Between(o, n) : Gone(o)).OfType<HazardChange>()
            .Concat(now.Where(n => !taken.Contains(n)).Select(Come));
        HazardChange[] ofFindings = [.. changes];
        var (earlier, later) = (Context(before), Context(after));
        return OneEvent.Merged(
            OneEvent.Of(ofFindings, StepComparison.Of(earlier, later)).Concat(ProtectionComparison.Of(earlier, later)).OrderByDescending(static change => change.IsWorse)
                .ThenBy(static change => (change.FindingAfter ?? change.FindingBefore)?.Severity ?? (Severity)int.MaxValue)
                .ThenBy(static change => change.Hazard)
                .ThenBy(static change => change.Quantity, StringComparer.Ordinal)
                .ThenBy(static change => (change.FindingAfter ?? change.FindingBefore)?.Id ?? change.Vessel, StringComparer.Ordinal),
            before.Plan,
            after.Plan);
    }

    /// <summary>False for the results of a quiet vessel: no hazard, its numbers are compared step by step.</summary>
    private static bool IsHazard(Finding finding) => finding is not { Code: Vessels.PressureResults.Code, Severity: Severity.Notice };

    private static ScreeningContext Context(ScreenedPlan screened) => new(screened.Plan, screened.Policy, Walk.Follow(screened.Plan, screened.Policy));

    private static HazardChange Come(Placed now) => new()
    {
        Hazard = now.Finding.Hazard,
        Quantity = now.Quantity,
        Effect = ChangeEffect.Introduced,
        After = now.Leading,
        FindingAfter = now.Finding,
        Vessel = now.Finding.Vessel,
        Steps = now.Finding.Steps,
    };

    private static HazardChange Gone(Placed old) => new()
    {
        Hazard = old.Finding.Hazard,
        Quantity = old.Quantity,
        Effect = ChangeEffect.Removed,
        Before = old.Leading,
        FindingBefore = old.Finding,
        Vessel = old.Finding.Vessel,
        Steps = old.Finding.Steps,
    };

    private static HazardChange? Between(Placed old, Placed now)
    {
        // severity first: the same pressure in a weaker vessel is more dangerous
        var worse = old.Finding.Severity.CompareTo(now.Finding.Severity);
        if (worse == 0 && old.Leading is { } was && now.Leading is { } becomes)
        {
            worse = Excess(becomes, was) - Excess(was, becomes);
        }

        if (worse == 0)
        {
            return null;
        }

        // a number that stands still, or goes the other way, is no reason: its share of the limit is
        var shares = old.Share is { } held && now.Share is { } holds && !Same(old.Leading!.Limit!.Value, now.Leading!.Limit!.Value) && !Same(held.Value, holds.Value)
            && (Alike(old.Leading.Value, now.Leading.Value, now.Leading.Unit) || now.Leading.Value > old.Leading.Value != (worse > 0 == (now.Leading.Worse == WorseWhen.Higher)));
        return new HazardChange
        {
            Hazard = now.Finding.Hazard,
            Quantity = shares ? now.Share!.Quantity : now.Quantity,
            Effect = worse > 0 ? ChangeEffect.Raised : ChangeEffect.Lowered,
            Before = shares ? old.Share : old.Leading,
            After = shares ? now.Share : now.Leading,
            FindingBefore = old.Finding,
            FindingAfter = now.Finding,
            Vessel = now.Finding.Vessel,
            Steps = now.Finding.Steps,
        };
    }

    /// <summary>True where two numbers of one quantity differ by no more than they can carry: half of the last figure told, and beside temperatures one in a hundred.</summary>
    internal static bool Alike(double one, double other, string unit) => one.Equals(other) || Math.Abs(one - other) <= unit switch
    {
        // a share of a number on the Celsius scale, or of a distance on it, means nothing
        "°C" or "K" => CarriedK,
        "bar(g)" or "bar" => Math.Max(CarriedBar, CarriedShare * Math.Max(Math.Abs(one), Math.Abs(other))),
        _ => CarriedShare * Math.Max(Math.Abs(one), Math.Abs(other)),
    };

    /// <summary>The same number but for rounding: of limits and ratings, which somebody has set.</summary>
    internal static bool Same(double one, double other) => one.Equals(other) || Math.Abs(one - other) <= SameWithin * Math.Max(Math.Abs(one), Math.Abs(other));

    /// <summary>1 where the number is worse than the other one, else 0. Where their limits differ, their distances to them count: a share, for temperatures a difference.</summary>
    private static int Excess(Evidence one, Evidence other)
    {
        var (value, with) = one is { Limit: { } own } && other is { Limit: { } limit } && !Same(own, limit)
            ? one.Unit is "°C" or "K" || own <= 0 || limit <= 0 ? (one.Value - own, other.Value - limit) : (one.Value / own, other.Value / limit)
            : (one.Value, other.Value);
        return !Alike(value, with, one.Unit) && one.Worse switch { WorseWhen.Higher => value > with, WorseWhen.Lower => value < with, WorseWhen.Neither => false } ? 1 : 0;
    }

    /// <summary>Null: not the same hazard. Higher is more alike.</summary>
    private static int? Likeness(Placed old, Placed now)
    {
        if (old.Finding.Hazard != now.Finding.Hazard || !string.Equals(old.Quantity, now.Quantity, StringComparison.Ordinal))
        {
            return null;
        }

        var substances = old.Substances.Count == 0 && now.Substances.Count == 0 ? 1 : old.Substances.Overlaps(now.Substances) ? 1 : 0;
        var vessel = string.Equals(old.Finding.Vessel, now.Finding.Vessel, StringComparison.Ordinal) ? 2
            : old.VesselKind is { } kind && string.Equals(kind, now.VesselKind, StringComparison.OrdinalIgnoreCase) ? 1
            : 0;
        var steps = old.Actions.SequenceEqual(now.Actions) ? 2 : old.Actions.Intersect(now.Actions).Any() ? 1 : 0;
        if ((substances == 0 && now.Leading is null) || (substances == 0 && vessel == 0 && steps == 0))
        {
            return null;
        }

        var sameNames = old.Finding.Steps.SequenceEqual(now.Finding.Steps, StringComparer.Ordinal) ? 1 : 0;
        return (substances * 8) + (vessel * 3) + (steps * 2) + sameNames;
    }

    /// <summary>A finding with what its identifiers mean in its plan.</summary>
    private sealed class Placed
    {
        public Placed(Finding finding, Plan plan)
        {
            Finding = finding;

            // a rule counts nothing
            var numbers = finding.Evidence.Where(static evidence => evidence.Unit is not "rule").ToArray();
            // results are a caution by the energy they hold; their pressure is compared step by step
            Leading = finding.Code is Vessels.PressureResults.Code ? Array.Find(numbers, static evidence => evidence.Name is "stored energy") : Worst(numbers, Array.Find(numbers, static evidence => evidence.Limit is not null)) ?? numbers.FirstOrDefault();
            Quantity = Leading?.Quantity ?? finding.Code[(finding.Code.IndexOf('.', StringComparison.Ordinal) + 1)..].Replace('-', ' ');
            VesselKind = plan.Vessels.FirstOrDefault(vessel => string.Equals(vessel.Id, finding.Vessel, StringComparison.Ordinal))?.Kind;
            Actions = [.. plan.Steps.Where(step => finding.Steps.Contains(step.Id, StringComparer.Ordinal)).Select(static step => step.Action)];
            Substances = plan.Materials.Where(material => finding.Materials.Contains(material.Id, StringComparer.Ordinal))
                .SelectMany(static material => KeysOf(material.Composition)).ToHashSet(StringComparer.Ordinal);
        }

        public Finding Finding { get; }

        public Evidence? Leading { get; }

        /// <summary>How much of its limit the number is; null where it has none to be a share of.</summary>
        public Evidence? Share => Leading is not { Limit: > 0 and { } limit, Unit: not ("°C" or "K") } ? null
            : Leading.Quantity is Vessels.PressureEvidence.Worst && Finding.Evidence.FirstOrDefault(static one => one.Name is Vessels.PressureEvidence.Share) is { } share ? share
            : Leading with { Name = $"{Leading.Quantity}, share of its limit", Quantity = $"{Leading.Quantity}, share of its limit", Value = Leading.Value / limit, Unit = "fraction", Limit = null };

        public string Quantity { get; }

        public string? VesselKind { get; }

        public IReadOnlyList<StepAction> Actions { get; }

        public HashSet<string> Substances { get; }

        /// <summary>Of several numbers of one quantity, each with its limit, the worst.</summary>
        private static Evidence? Worst(Evidence[] numbers, Evidence? first) => first is null ? null
            : Array.FindAll(numbers, evidence => evidence.Limit is not null && string.Equals(evidence.Quantity, first.Quantity, StringComparison.Ordinal))
                .Aggregate(first, static (worst, one) => Excess(one, worst) > 0 ? one : worst);

        private static IEnumerable<string> KeysOf(Composition composition) => composition switch
        {
            Composition.Pure pure => [pure.Substance.Known?.Key ?? pure.Substance.Key],
            Composition.Solution solution => [solution.Solute.Known?.Key ?? solution.Solute.Key, solution.Solvent.Known?.Key ?? solution.Solvent.Key],
            Composition.Mixture mixture => mixture.Parts.Select(static part => part.Substance.Known?.Key ?? part.Substance.Key),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
    }
}
