using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Sorts pairs into those without a known hazard, by their basis, and those that are not assessed.</summary>
internal sealed class StripPairs
{
    private static readonly HarmlessBasis[] OneBottle = [new("one-bottle", "they come in one bottle, in which they keep", ["common-practice"])];

    private static readonly HarmlessBasis[] Reacted = [new("reacted", "by then one of the two has reacted, dosed in the cold, or matters are no worse than told at an earlier step", ["common-practice"])];

    private List<(IReadOnlyList<HarmlessBasis> Bases, List<StripPair> Pairs)>? noneKnown;
    private List<StripPair>? notAssessed;

    public IReadOnlyList<StripNoneKnown> NoneKnown => noneKnown is null ? [] : noneKnown.ConvertAll(static entry => Words(entry.Bases, entry.Pairs));

    public bool IsEmpty => noneKnown is null && notAssessed is null;

    public IReadOnlyList<StripPair> NotAssessed => notAssessed ?? (IReadOnlyList<StripPair>)[];

    /// <summary>Two that meet here and that no finding tells.</summary>
    /// <param name="a">The one.</param>
    /// <param name="b">The other.</param>
    /// <param name="isTold">True when a row speaks of them here and the report has told it at another step.</param>
    /// <param name="here">What is together, to see who comes in one bottle; empty for what does not come from the plan's materials.</param>
    public void Add(PairPartner a, PairPartner b, bool isTold, IReadOnlyList<Content> here)
    {
        var pair = new StripPair(a.Name, b.Name);
        if (isTold)
        {
            Put(Reacted, pair);
        }
        else if (PairAssessment.Bases(a.Families, b.Families) is { Count: > 0 } bases)
        {
            Put(bases, pair);
        }
        else if (KeepInOneBottle(a, b, here))
        {
            Put(OneBottle, pair);
        }
        else
        {
            (notAssessed ??= []).Add(pair);
        }
    }

    /// <summary>Rows that hold at any temperature speak of the two, and each is one that Data/stock-solutions.tsv sets aside for the material that brings both.</summary>
    private static bool KeepInOneBottle(PairPartner a, PairPartner b, IReadOnlyList<Content> here)
    {
        return PairAssessment.Between(a, b, static row => row is { C: null, AboveK: null, BelowK: null }) is { } rows && rows.TrueForAll(row => IsSetAside(row, a, b, here));
    }

    private static bool IsSetAside(Encounter row, PairPartner a, PairPartner b, IReadOnlyList<Content> here)
    {
        foreach (var one in here)
        {
            foreach (var other in here)
            {
                if (((Is(one, a) && Is(other, b)) || (Is(one, b) && Is(other, a))) && Meeting.KeepsInOneBottle(row, one, other))
                {
                    return true;
                }
            }
        }

        return false;

        static bool Is(Content content, PairPartner partner) => string.Equals(content.Substance.Name, partner.Name, StringComparison.Ordinal);
    }

    private static StripNoneKnown Words(IReadOnlyList<HarmlessBasis> bases, List<StripPair> pairs) => bases.Count == 1
        ? new StripNoneKnown(bases[0].Sentence, bases[0].References, pairs)
        : new StripNoneKnown(
            Wording.Capital(string.Join("; ", bases.Select(static basis => basis.Basis))),
            References.Full(bases.SelectMany(static basis => basis.Sources)),
            pairs);

    private void Put(IReadOnlyList<HarmlessBasis> bases, StripPair pair)
    {
        // one basis, as a rule
        noneKnown ??= new(1);
        foreach (var (known, pairs) in noneKnown)
        {
            if (AreSame(known, bases))
            {
                pairs.Add(pair);
                return;
            }
        }

        noneKnown.Add((bases, [pair]));
    }

    private static bool AreSame(IReadOnlyList<HarmlessBasis> one, IReadOnlyList<HarmlessBasis> other)
    {
        for (var index = 0; index < one.Count && index < other.Count; index++)
        {
            if (!string.Equals(one[index].Key, other[index].Key, StringComparison.Ordinal))
            {
                return false;
            }
        }

        return one.Count == other.Count;
    }
}
