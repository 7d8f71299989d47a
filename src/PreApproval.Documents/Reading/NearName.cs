namespace PreApproval.Documents.Reading;

/// <summary>Finds the name a person probably meant.</summary>
internal static class NearName
{
    private const int LongestCompared = 40;

    /// <summary>
    /// The nearest candidate by edit distance, letter case aside; null when none is near. Insertion, deletion, substitution
    /// and the swap of two neighbours count one each (Damerau 1964, as optimal string alignment).
    /// </summary>
    public static string? Of(string typed, IEnumerable<string> candidates)
    {
        if (typed.Length is 0 or > LongestCompared)
        {
            return null;
        }

        string? best = null;
        int most = Math.Max(1, typed.Length / 3);
        foreach (string candidate in candidates)
        {
            int distance = Distance(typed.ToUpperInvariant(), candidate.ToUpperInvariant());
            if (distance <= most && distance < candidate.Length)
            {
                (best, most) = (candidate, distance - 1);
            }
        }

        return best;
    }

    private static int Distance(string a, string b)
    {
        int[] beforePrevious = new int[b.Length + 1];
        int[] previous = [.. Enumerable.Range(0, b.Length + 1)];
        int[] current = new int[b.Length + 1];
        for (int i = 1; i <= a.Length; i++)
        {
            current[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int substitution = previous[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                current[j] = Math.Min(substitution, Math.Min(previous[j], current[j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    current[j] = Math.Min(current[j], beforePrevious[j - 2] + 1);
                }
            }

            (beforePrevious, previous, current) = (previous, current, beforePrevious);
        }

        return previous[b.Length];
    }
}
