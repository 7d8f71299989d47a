using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Reactivity;

/// <summary>One gas that a step makes in an open vessel.</summary>
/// <param name="Name">As the table or the plan names it.</param>
/// <param name="Gas">The substance, or the one whose limits stand for it; null when nobody knows.</param>
/// <param name="Mol">Up to the limiting partner; null when an amount is missing.</param>
/// <param name="Limit">What limits it, in words.</param>
/// <param name="Materials">Materials that make it.</param>
internal sealed record OpenGas(string Name, Substance? Gas, double? Mol, string Limit, IReadOnlyList<string> Materials)
{
    /// <summary>Gas in mol from the amounts that are known; <see cref="Mol"/> where none is missing, null where none is known.</summary>
    public double? CountedMol { get; init; } = Mol;

    /// <summary>True for gas that the step brings, not makes.</summary>
    public bool IsLedIn { get; init; }

    private static readonly FrozenDictionary<string, string> StandIns =
        EmbeddedTable.Rows("gas-stand-ins.tsv").ToFrozenDictionary(static row => row["gas"], static row => row["substance"], StringComparer.Ordinal);

    /// <summary>The substance of a gas named in the table of encounters.</summary>
    public static Substance? Known(string name) => Catalog.Default.TryFindByName(StandIns.GetValueOrDefault(name, name), out var gas) ? gas : null;

    /// <summary>The same, where the partners say which of the gases of that kind it is: a bromide without chlorine gives hydrogen bromide.</summary>
    public static Substance? Known(string name, Meeting meeting) =>
        name is "hydrogen halide" && meeting.Everyone.Any(static content => Holds(content, "Br")) && !meeting.Everyone.Any(static content => Holds(content, "Cl"))
            ? Known("hydrogen bromide")
            : Known(name);

    private static bool Holds(Content content, string element) =>
        (content.Substance.Known?.Identity.Formula ?? content.Substance.Structure?.Molecule?.Formula) is { } formula && Formula.TryCount(formula, out var atoms) && atoms.ContainsKey(element);

    /// <summary>
    /// Gas of the steps in open vessels: of declared reactions, and of encounters where they happen first or the step adds to them; of a gas that both may give of one partner, whichever is more.
    /// One partner loses its gas only once, whoever it meets: of several rows the one with most counts.
    /// </summary>
    public static IReadOnlyDictionary<StepState, IReadOnlyList<OpenGas>> Of(ScreeningContext context)
    {
        var made = new Dictionary<StepState, IReadOnlyList<OpenGas>>(ReferenceEqualityComparer.Instance);
        foreach (var state in context.Walk.States.Where(static state => !state.Sealed && state.GasMade.Count > 0))
        {
            made[state] = [.. state.GasMade.Select(gas => new OpenGas(gas.Gas.Name, gas.Gas.Known, gas.Mol, "the declared reaction", BesideDeclared.UsedFor(gas.Gas, state)))];
        }

        foreach (var step in context.Happenings.Where(static happening => !happening.State.Sealed && happening.Meeting.Encounter.Gases.Count > 0 && (happening.IsNews || AddsTo(happening))).GroupBy(static happening => happening.State, ReferenceEqualityComparer.Instance))
        {
            var state = (StepState)step.Key!;
            var declared = made.GetValueOrDefault(state, []);
            var undeclared = Undeclared(step
                .GroupBy(static happening => happening.Meeting.Gasser, StringComparer.Ordinal)
                .Select(static group => group.MaxBy(static happening => (happening.Meeting.GasMol ?? double.MaxValue, happening.Meeting.CountedGasMol, happening.Meeting.Encounter.Key))!.Meeting));
            // of a gas that the plan declares too, whichever is more counts, and once; what others give comes besides
            var (same, besides) = Sorted(undeclared, declared, state);
            made[state] =
            [
                .. declared.Where(gas => !(Total(same, gas) > Total(declared, gas))),
                .. same.Where(gas => Total(same, gas) is { } more && !(more <= Total(declared, gas))),
                .. besides,
            ];
        }

        return made;
    }

    private static (OpenGas[] Same, OpenGas[] Besides) Sorted((OpenGas Gas, Meeting Meeting, double MolPerEquivalent)[] undeclared, IReadOnlyList<OpenGas> declared, StepState state)
    {
        var sources = undeclared.ToLookup(source => declared.Any(gas => gas.IsSame(source.Gas) && BesideDeclared.IsTheSame(source.Meeting, gas.Materials)));
        return ([.. sources[true].Select(static source => source.Gas)], [.. sources[false].Select(source => declared.Any(source.Gas.IsSame) ? Capped(source, state) : source.Gas).Where(static gas => gas.CountedMol is not 0)]);
    }

    private static OpenGas Capped((OpenGas Gas, Meeting Meeting, double MolPerEquivalent) source, StepState state)
    {
        var most = BesideDeclared.Left(source.Meeting, state) * source.MolPerEquivalent;
        return source.Gas with { Mol = source.Gas.Mol is { } mol ? Math.Min(mol, most) : null, CountedMol = source.Gas.CountedMol is { } counted ? Math.Min(counted, most) : null };
    }

    private static (OpenGas Gas, Meeting Meeting, double MolPerEquivalent)[] Undeclared(IEnumerable<Meeting> meetings) =>
    [
        .. meetings.SelectMany(static meeting => meeting.Encounter.Gases.Select(share => (Gas: new OpenGas(share.Name, Known(share.Name, meeting), meeting.LimitingEquivalents * share.MolPerEquivalent * meeting.FreedShare, Limiting(meeting), Ids(meeting.Everyone.Select(static content => content.MaterialId).OfType<string>())) { CountedMol = meeting.CountedEquivalents * share.MolPerEquivalent * meeting.FreedShare }, Meeting: meeting, share.MolPerEquivalent)))
            .GroupBy(static made => made.Gas.Gas?.Key ?? made.Gas.Name, StringComparer.Ordinal)
            .SelectMany(static group => Once([.. group])),
    ];

    private static IEnumerable<(OpenGas Gas, Meeting Meeting, double MolPerEquivalent)> Once((OpenGas Gas, Meeting Meeting, double MolPerEquivalent)[] sources)
    {
        if (sources.Length == 1)
        {
            return sources;
        }

        var mol = GasOnce.Trimmed([.. sources.Select(static source => (source.Meeting, source.Gas.Mol, source.MolPerEquivalent))]);
        var counted = GasOnce.Trimmed([.. sources.Select(static source => (source.Meeting, source.Gas.CountedMol, source.MolPerEquivalent))]);
        return sources.Select((source, index) => (Gas: source.Gas with { Mol = mol[index], CountedMol = counted[index] }, source.Meeting, source.MolPerEquivalent)).Where(static source => source.Gas.CountedMol is not 0);
    }

    private static double? Total(IEnumerable<OpenGas> gases, OpenGas gas) =>
        gases.Where(gas.IsSame).Aggregate((double?)0, static (sum, one) => sum + one.CountedMol);

    private bool IsSame(OpenGas other) =>
        string.Equals(Name, other.Name, StringComparison.OrdinalIgnoreCase) || (Gas is not null && other.Gas is not null && string.Equals(Gas.Key, other.Gas.Key, StringComparison.Ordinal));

    private static string[] Ids(IEnumerable<string> materials) => [.. materials.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    private static bool AddsTo(Happening happening) =>
        happening.Meeting.Everyone.Any(content => happening.State.Step.Materials.Any(use => string.Equals(use.MaterialId, content.MaterialId, StringComparison.Ordinal)));

    private static string Limiting(Meeting meeting)
    {
        var first = meeting.Encounter.FirstLimits || (!meeting.Encounter.SecondLimits && (meeting.BEquivalents is not { } other || meeting.AEquivalents <= other));
        var side = first ? meeting.A : meeting.B;
        return side.Count > 0 ? side[0].Substance.Name : first ? meeting.Encounter.A : meeting.Encounter.B;
    }
}
