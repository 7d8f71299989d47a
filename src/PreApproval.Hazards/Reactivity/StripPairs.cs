using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Sorts pairs into those without a known hazard, by their basis, and those that are not assessed.</summary>
internal sealed class StripPairs
{
    private static readonly HarmlessBasis[] OneBottle = [new("one-bottle", "they come in one bottle, in which they keep", ["common-practice"])];

    private static readonly HarmlessBasis[] Reacted = [new("reacted", "by then one of the two has reacted, dosed in the cold, or matters are no worse than told at an earlier step", ["common-practice"])];

    // in the order they met; one collector serves every place in turn, so that only what a strip keeps is made for it
    private readonly List<Sorted> all = [];

    private readonly record struct Sorted(IReadOnlyList<HarmlessBasis> Bases, StripPair Pair);

    public bool IsEmpty => all.Count == 0;

    /// <summary>The pairs of each basis, the basis that came first in front.</summary>
    public IReadOnlyList<StripNoneKnown> NoneKnown()
    {
        var groups = 0;
        for (var index = 0; index < all.Count; index++)
        {
            groups += IsFirstOfItsBasis(index) ? 1 : 0;
        }

        var known = groups == 0 ? [] : new StripNoneKnown[groups];
        for (int index = 0, at = 0; at < groups; index++)
        {
            if (IsFirstOfItsBasis(index))
            {
                known[at++] = Words(all[index].Bases, PairsOn(all[index].Bases));
            }
        }

        return known;
    }

    public IReadOnlyList<StripPair> NotAssessed() => PairsOn([]);

    /// <summary>Makes it ready for the next place.</summary>
    public void Clear() => all.Clear();

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
            Put([], pair);
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

    private static StripNoneKnown Words(IReadOnlyList<HarmlessBasis> bases, StripPair[] pairs) => bases.Count == 1
        ? new StripNoneKnown(bases[0].Sentence, bases[0].References, pairs)
        : new StripNoneKnown(
            Wording.Capital(string.Join("; ", bases.Select(static basis => basis.Basis))),
            References.Full(bases.SelectMany(static basis => basis.Sources)),
            pairs);

    private void Put(IReadOnlyList<HarmlessBasis> bases, StripPair pair) => all.Add(new Sorted(bases, pair));

    /// <summary>False for a pair without a basis, which is not assessed.</summary>
    private bool IsFirstOfItsBasis(int index)
    {
        var bases = all[index].Bases;
        var first = 0;
        while (!AreSame(all[first].Bases, bases))
        {
            first++;
        }

        return bases.Count > 0 && first == index;
    }

    private StripPair[] PairsOn(IReadOnlyList<HarmlessBasis> bases)
    {
        var count = 0;
        foreach (var sorted in all)
        {
            count += AreSame(sorted.Bases, bases) ? 1 : 0;
        }

        var pairs = count == 0 ? [] : new StripPair[count];
        for (int index = 0, at = 0; at < count; index++)
        {
            if (AreSame(all[index].Bases, bases))
            {
                pairs[at++] = all[index].Pair;
            }
        }

        return pairs;
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
