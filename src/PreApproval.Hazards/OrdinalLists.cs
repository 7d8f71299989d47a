namespace PreApproval.Hazards;

/// <summary>Look-ups in short lists of names. They stand in for those of LINQ, which make an enumerator for each question; the screens ask thousands.</summary>
internal static class OrdinalLists
{
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
}
