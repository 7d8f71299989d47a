using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Gas that encounters make although the plan does not declare it.</summary>
/// <param name="Mol">Amount in mol; null when it cannot be had.</param>
/// <param name="Words">For a sentence, for instance <c>hydrogen from sodium hydride and water, which the plan does not declare</c>.</param>
internal sealed record UndeclaredGas(double? Mol, string Words)
{
    /// <summary>Materials that make it.</summary>
    public IReadOnlyList<string> Materials { get; init; } = [];
}

/// <summary>
/// Gas up to the limiting partner of what the declared reactions have left. Partners that react at once and met in the open
/// have given their gas off there; slow ones (borohydride in an alcohol, peroxide, a metal in acid) gas on behind the closure.
/// </summary>
internal static class GasEvolution
{
    private static readonly string[] WaterOrAcid = ["water", "mineral acids", "organic acids", "concentrated sulfuric and superacids"];

    private static readonly string[] SlowInAlcohol = ["alkali metals", "saline hydrides", "borohydrides"];

    /// <summary>What can still form in a closed vessel; null when it is open or nothing gasses.</summary>
    public static UndeclaredGas? Undeclared(StepState state) => Sum(Strongest(StillForming(state)), ", which the plan does not declare");

    /// <summary>The same by encounter, each with its gas in mol; of several encounters of one partner the one with most.</summary>
    public static IReadOnlyList<(Meeting Meeting, double? Mol)> UndeclaredMeetings(StepState state) => Strongest(StillForming(state));

    private static List<(Meeting Meeting, double? Mol)> StillForming(StepState state)
    {
        if (state.Closing is not { } closing)
        {
            return [];
        }

        var gassing = Gassing(state, state.Remaining);
        if (gassing.Count == 0)
        {
            return [];
        }

        var metOpen = closing.MetOpen.Count == 0 ? [] : Gassing(state, closing.MetOpen);
        return Formable(gassing, metOpen, closing, state);
    }

    private static List<(Meeting Meeting, double? Mol)> Formable(List<Meeting> gassing, List<Meeting> metOpen, Closing closing, StepState state) =>
        gassing.ConvertAll(meeting => (meeting, Formable(meeting, metOpen.Find(earlier => ReferenceEquals(earlier.Encounter, meeting.Encounter)), closing, state)));

    /// <summary>What reacts at once and met in the open before closing; null when nothing did, or the vessel is open.</summary>
    public static UndeclaredGas? GivenOffOpen(StepState state) =>
        state.Closing is not { MetOpen.Count: > 0 } closing
            ? null
            : Sum(Strongest(Gassing(state, closing.MetOpen).FindAll(IsAtOnce).ConvertAll(static meeting => (meeting, meeting.GasMol))), "");

    private static List<Meeting> Gassing(StepState state, IReadOnlyList<Content> contents)
    {
        var meetings = (ReferenceEquals(contents, state.Contents) ? state : state with { Contents = contents }).Meetings;
        var gassing = new List<Meeting>();
        for (var index = 0; index < meetings.Count; index++)
        {
            if (Gasses(meetings[index]))
            {
                gassing.Add(meetings[index]);
            }
        }

        return gassing;
    }

    private static bool Gasses(Meeting meeting) => meeting.Encounter.Gas is not null;

    private static double? Formable(Meeting meeting, Meeting? metOpen, Closing closing, StepState state)
    {
        var mol = meeting.GasMol;
        if (metOpen is not null && IsAtOnce(meeting))
        {
            mol = meeting.Everyone.All(partner => closing.MetOpen.Any(earlier => IsSame(earlier, partner))) ? 0 : Math.Max((mol - metOpen.GasMol) ?? double.NaN, 0);
            mol = double.IsNaN(mol.Value) ? null : mol;
        }

        // a declared reaction that names no partners can only be matched by its gas
        var declared = state.Reactions.Count == 0 || state.Reactions.All(static reaction => reaction.Consumes.Count > 0)
            ? 0
            : state.GasMade.Where(gas => string.Equals(gas.Gas.Name, meeting.Encounter.Gas, StringComparison.OrdinalIgnoreCase)).Sum(static gas => gas.Mol ?? 0);
        return mol is { } formed ? Math.Max(formed - declared, 0) : null;
    }

    /// <summary>One partner can lose its gas only once, whoever it meets.</summary>
    private static (Meeting Meeting, double? Mol)[] Strongest(List<(Meeting Meeting, double? Mol)> gassing) => gassing.Count == 0 ? [] :
    [
        .. gassing.Where(static entry => entry.Mol is null or > 0)
            .GroupBy(static entry => entry.Meeting.Gasser, StringComparer.Ordinal)
            .Select(static group => group.MaxBy(static entry => (entry.Mol ?? double.MaxValue, entry.Meeting.Encounter.Key)))
            .GroupBy(static entry => entry.Meeting.Encounter is { Gases: [var only] } ? OpenGas.Known(only.Name, entry.Meeting)?.Key ?? only.Name : entry.Meeting.Encounter.Key, StringComparer.Ordinal)
            .SelectMany(static group => Once([.. group])),
    ];

    private static IEnumerable<(Meeting Meeting, double? Mol)> Once((Meeting Meeting, double? Mol)[] sources)
    {
        var mol = GasOnce.Trimmed([.. sources.Select(static source => (source.Meeting, source.Mol, source.Meeting.Encounter.GasPerEquivalent))]);
        return sources.Select((source, index) => (source.Meeting, Mol: mol[index])).Where(static entry => entry.Mol is null or > 0);
    }

    private static UndeclaredGas? Sum((Meeting Meeting, double? Mol)[] strongest, string ending)
    {
        if (strongest.Length == 0)
        {
            return null;
        }

        var mol = Array.Exists(strongest, static entry => entry.Mol is null) ? null : (double?)strongest.Sum(static entry => entry.Mol!.Value);
        var words = strongest.Select(static entry => $"{entry.Meeting.Encounter.Gas} from {Name(entry.Meeting.A, entry.Meeting.Encounter.A)} and {Name(entry.Meeting.B, entry.Meeting.Encounter.B)}");
        return new UndeclaredGas(mol, Screening.Wording.List(words) + ending) { Materials = Confinement.Findings.Ids(strongest.SelectMany(static entry => entry.Meeting.Everyone)) };
    }

    private static string Name(IReadOnlyList<Content> members, string family) => members.Count > 0 ? members[0].Substance.Name : family;

    private static bool IsAtOnce(Meeting meeting)
    {
        var (a, b) = (meeting.Encounter.A, meeting.Encounter.B);
        if (a is "carbonates")
        {
            return true;
        }

        if (!meeting.A.Any(static content => FamilyTable.Default.IsDestroyedByQuench(content.Substance)))
        {
            return false;
        }

        return b is "alcohols" ? !SlowInAlcohol.Contains(a, StringComparer.Ordinal)
            : WaterOrAcid.Contains(b, StringComparer.Ordinal) && !(a is "borohydrides" && b is "water");
    }

    private static bool IsSame(Content one, Content other) =>
        string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal)
        && string.Equals(one.MaterialId, other.MaterialId, StringComparison.Ordinal)
        && other.Mol <= one.Mol * (1 + 1e-9);
}
