using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Sorts pairs into those without a known hazard, by their basis, and those that are not assessed.</summary>
internal sealed class StripPairs
{
    private static readonly HarmlessBasis OneBottle = new("one-bottle", "they come in one bottle, in which they keep", ["common-practice"]);

    private static readonly HarmlessBasis Reacted = new("reacted", "by then one of the two has reacted, dosed in the cold, or matters are no worse than told at an earlier step", ["common-practice"]);

    private readonly List<(HarmlessBasis[] Bases, List<StripPair> Pairs)> noneKnown = [];
    private readonly List<StripPair> notAssessed = [];

    public IReadOnlyList<StripNoneKnown> NoneKnown =>
    [
        .. noneKnown.Select(static entry => new StripNoneKnown(
            Wording.Capital(string.Join("; ", entry.Bases.Select(static basis => basis.Basis))),
            References.Full(entry.Bases.SelectMany(static basis => basis.Sources)),
            entry.Pairs)),
    ];

    public IReadOnlyList<StripPair> NotAssessed => notAssessed;

    /// <summary>Two that meet here and that no finding tells.</summary>
    /// <param name="a">The one.</param>
    /// <param name="b">The other.</param>
    /// <param name="isTold">True when a row speaks of them here and the report has told it at another step.</param>
    public void Add(PairPartner a, PairPartner b, bool isTold)
    {
        var pair = new StripPair(a.Name, b.Name);
        if (isTold)
        {
            Put([Reacted], pair);
        }
        else if (PairAssessment.Bases(a.Families, b.Families) is { Count: > 0 } bases)
        {
            Put([.. bases], pair);
        }
        else if (IsKnownHazard(a, b))
        {
            Put([OneBottle], pair);
        }
        else
        {
            notAssessed.Add(pair);
        }
    }

    /// <summary>A row that holds at any temperature and yet did not fire: the two are sold in one bottle (Data/stock-solutions.tsv).</summary>
    private static bool IsKnownHazard(PairPartner a, PairPartner b) =>
        PairAssessment.Judge(a, b, static row => row is { C: null, AboveK: null, BelowK: null }).Assessment == Assessment.Hazard;

    private void Put(HarmlessBasis[] bases, StripPair pair)
    {
        var index = noneKnown.FindIndex(entry => entry.Bases.Length == bases.Length && entry.Bases.Zip(bases).All(static both => string.Equals(both.First.Key, both.Second.Key, StringComparison.Ordinal)));
        if (index < 0)
        {
            index = noneKnown.Count;
            noneKnown.Add((bases, []));
        }

        noneKnown[index].Pairs.Add(pair);
    }
}
