namespace PreApproval.Hazards;

/// <summary>
/// Look-ups in short lists of names. They stand in for those of LINQ, which make an enumerator, a set or a sorter for each question; the screens ask thousands.
/// </summary>
internal static class OrdinalLists
{
    // up to here a walk along the list is faster than a table
    private const int Short = 32;

    /// <summary>True when the list holds the name.</summary>
    public static bool Contains(this IReadOnlyList<string> list, string name, StringComparer comparer)
    {
        for (var index = 0; index < list.Count; index++)
        {
            if (comparer.Equals(list[index], name))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Each name once, in the order they come.</summary>
    public static NameList Distinct(this IEnumerable<string> names, StringComparer comparer)
    {
        var distinct = new NameList(names.TryGetNonEnumeratedCount(out var count) ? Math.Min(count, Short) : 0);
        HashSet<string>? seen = null;
        foreach (var name in names)
        {
            if (distinct.Count == Short)
            {
                seen ??= distinct.ToHashSet(comparer);
            }

            if (seen is null ? !Contains(distinct, name, comparer) : seen.Add(name))
            {
                distinct.Add(name);
            }
        }

        return distinct;
    }

    /// <summary>The names in order, no two of which are equal. The list is sorted where it stands.</summary>
    public static NameList Order(this NameList names, StringComparer comparer)
    {
        if (names.Count > Short)
        {
            names.Sort(comparer);
            return names;
        }

        for (var index = 1; index < names.Count; index++)
        {
            var name = names[index];
            var at = index;
            for (; at > 0 && comparer.Compare(names[at - 1], name) > 0; at--)
            {
                names[at] = names[at - 1];
            }

            names[at] = name;
        }

        return names;
    }

    /// <summary>Puts a name into a list in ordinal order, unless it is there.</summary>
    public static void AddInOrder(this List<string> ordered, string name)
    {
        if (ordered.BinarySearch(name, StringComparer.Ordinal) is < 0 and var place)
        {
            ordered.Insert(~place, name);
        }
    }

    /// <summary>Names that differ, each of them once.</summary>
    internal sealed class NameList(int capacity) : List<string>(capacity);
}
