namespace PreApproval.Hazards.Reactivity;

/// <summary>Which names have met in which vessel.</summary>
internal sealed class MetPairs
{
    private const int BitsPerWord = 64;

    private readonly List<string> names = [];

    // for each vessel one bit for each pair of names: a set of pairs would grow with every step
    private readonly List<List<ulong>> met = [];

    /// <summary>True the first time that the two meet in a vessel, in whatever order they are named.</summary>
    public bool Add(int vessel, string one, string other)
    {
        while (met.Count <= vessel)
        {
            met.Add([]);
        }

        var (first, second) = (IndexOf(one), IndexOf(other));
        var (low, high) = (Math.Min(first, second), Math.Max(first, second));
        var (word, bit) = Math.DivRem((high * (high + 1) / 2) + low, BitsPerWord);
        var words = met[vessel];
        while (words.Count <= word)
        {
            words.Add(0);
        }

        var isNew = (words[word] & (1UL << bit)) == 0;
        words[word] |= 1UL << bit;
        return isNew;
    }

    private int IndexOf(string name)
    {
        var index = names.IndexOf(name);
        if (index < 0)
        {
            index = names.Count;
            names.Add(name);
        }

        return index;
    }
}
