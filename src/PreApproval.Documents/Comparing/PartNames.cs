namespace PreApproval.Documents.Comparing;

/// <summary>What the later document calls the parts of the earlier one. A part that it has no longer keeps its name.</summary>
internal sealed class PartNames
{
    private readonly Dictionary<string, string> _later = new(StringComparer.Ordinal);

    public void Add(string before, string after) => _later.TryAdd(before, after);

    public bool Knows(string before) => _later.ContainsKey(before);

    public bool IsTaken(string after) => _later.ContainsValue(after);

    /// <summary>Where something else has taken the name of what is gone, the two are kept apart.</summary>
    public string Of(string before) => _later.TryGetValue(before, out string? later) ? later : IsTaken(before) ? $"former {before}" : before;

    /// <summary>Pairs entries of one name, then those that are still free and of one key, in their order.</summary>
    public static PartNames Matching<T>(IReadOnlyList<T> before, IReadOnlyList<T> after, Func<T, string> name, Func<T, string> key)
    {
        var names = new PartNames();
        foreach (string same in before.Select(name).Intersect(after.Select(name), StringComparer.Ordinal))
        {
            names.Add(same, same);
        }

        names.AddFree(before, after, name, key);
        return names;
    }

    /// <summary>Pairs those that are still free and of one key, in their order.</summary>
    public void AddFree<T>(IReadOnlyList<T> before, IReadOnlyList<T> after, Func<T, string> name, Func<T, string> key)
    {
        foreach (T one in before.Where(one => !Knows(name(one))))
        {
            if (after.FirstOrDefault(other => !IsTaken(name(other)) && string.Equals(key(one), key(other), StringComparison.OrdinalIgnoreCase)) is { } found)
            {
                Add(name(one), name(found));
            }
        }
    }
}
