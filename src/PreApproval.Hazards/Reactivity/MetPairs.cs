namespace PreApproval.Hazards.Reactivity;

/// <summary>Which names have met in which vessel.</summary>
internal sealed class MetPairs
{
    private readonly List<string> names = [];
    private readonly HashSet<(int Vessel, int One, int Other)> pairs = [];

    /// <summary>True the first time that the two meet in a vessel, in whatever order they are named.</summary>
    public bool Add(int vessel, string one, string other)
    {
        var (first, second) = (IndexOf(one), IndexOf(other));
        return pairs.Add(first <= second ? (vessel, first, second) : (vessel, second, first));
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
