namespace PreApproval.Hazards;

/// <summary>Puts what belongs together into one list; for the short lists of a plan, in place of LINQ's groups, which make a table and a key for each question.</summary>
internal static class Grouping
{
    /// <summary>The items that count; the array itself where all of them do. The condition is asked twice of each, which costs less than a list that grows.</summary>
    public static T[] Chosen<T>(this T[] items, Predicate<T> counts)
    {
        var count = 0;
        foreach (var item in items)
        {
            count += counts(item) ? 1 : 0;
        }

        if (count == items.Length || count == 0)
        {
            return count == 0 ? [] : items;
        }

        var chosen = new T[count];
        var at = 0;
        foreach (var item in items)
        {
            if (counts(item))
            {
                chosen[at++] = item;
            }
        }

        return chosen;
    }

    /// <summary>The items that count, in groups in the order of their first members.</summary>
    /// <param name="items">All items.</param>
    /// <param name="counts">True for an item that is in a group.</param>
    /// <param name="belong">True when two items belong together; an equivalence.</param>
    public static List<List<T>> Of<T>(IReadOnlyList<T> items, Predicate<T> counts, Func<T, T, bool> belong)
    {
        var groups = new List<List<T>>();
        for (var index = 0; index < items.Count; index++)
        {
            var item = items[index];
            if (!counts(item))
            {
                continue;
            }

            var at = 0;
            while (at < groups.Count && !belong(groups[at][0], item))
            {
                at++;
            }

            if (at == groups.Count)
            {
                groups.Add([]);
            }

            groups[at].Add(item);
        }

        return groups;
    }
}
