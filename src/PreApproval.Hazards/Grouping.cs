namespace PreApproval.Hazards;

/// <summary>Puts what belongs together into one list; for the short lists of a plan, in place of LINQ's groups, which make a table and a key for each question.</summary>
internal static class Grouping
{
    // the working room for so many is on the stack
    private const int FewItems = 256;

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
    public static T[][] Of<T>(IReadOnlyList<T> items, Predicate<T> counts, Func<T, T, bool> belong)
    {
        // first who belongs where, so that each group is made in its size
        Span<int> groupOf = items.Count <= FewItems ? stackalloc int[items.Count] : new int[items.Count];
        Span<int> firsts = items.Count <= FewItems ? stackalloc int[items.Count] : new int[items.Count];
        var groups = 0;
        for (var index = 0; index < items.Count; index++)
        {
            groupOf[index] = -1;
            var item = items[index];
            if (!counts(item))
            {
                continue;
            }

            var at = 0;
            while (at < groups && !belong(items[firsts[at]], item))
            {
                at++;
            }

            if (at == groups)
            {
                firsts[groups++] = index;
            }

            groupOf[index] = at;
        }

        var grouped = groups == 0 ? [] : new T[groups][];
        for (var group = 0; group < groups; group++)
        {
            grouped[group] = Members(items, groupOf, group);
        }

        return grouped;
    }

    private static T[] Members<T>(IReadOnlyList<T> items, ReadOnlySpan<int> groupOf, int group)
    {
        var members = new T[groupOf.Count(group)];
        for (int index = 0, at = 0; at < members.Length; index++)
        {
            if (groupOf[index] == group)
            {
                members[at++] = items[index];
            }
        }

        return members;
    }
}
