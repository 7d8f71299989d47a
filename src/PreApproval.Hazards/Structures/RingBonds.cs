namespace PreApproval.Hazards.Structures;

/// <summary>Finds the bonds that are part of a ring: those whose removal does not part the structure.</summary>
/// <remarks>Source: Tarjan, Inf. Process. Lett. 2 (1974) 160, doi:10.1016/0020-0190(74)90003-9; time grows with the number of bonds.</remarks>
internal static class RingBonds
{
    public static void Mark(MoleculeDraft draft)
    {
        var n = draft.AtomCount;
        Span<int> work = n <= 128 ? stackalloc int[n * 5] : new int[n * 5];
        work.Clear();
        var seen = work[..n];
        var low = work.Slice(n, n);
        var next = work.Slice(2 * n, n);
        var entered = work.Slice(3 * n, n);
        var stack = work.Slice(4 * n, n);
        var clock = 0;
        for (var root = 0; root < n; root++)
        {
            if (seen[root] != 0)
            {
                continue;
            }

            var depth = 0;
            stack[0] = root;
            entered[root] = -1;
            seen[root] = low[root] = ++clock;
            while (depth >= 0)
            {
                var v = stack[depth];
                var neighbours = draft.NeighboursOf(v);
                if (next[v] < neighbours.Length)
                {
                    var (to, bond) = neighbours[next[v]++];
                    if (bond == entered[v])
                    {
                        continue;
                    }

                    if (seen[to] != 0)
                    {
                        low[v] = Math.Min(low[v], seen[to]);
                        draft.Bonds[bond].InRing = true;
                        continue;
                    }

                    seen[to] = low[to] = ++clock;
                    entered[to] = bond;
                    stack[++depth] = to;
                    continue;
                }

                depth--;
                if (depth >= 0)
                {
                    var parent = stack[depth];
                    low[parent] = Math.Min(low[parent], low[v]);
                    draft.Bonds[entered[v]].InRing = low[v] <= seen[parent];
                }
            }
        }
    }
}
