namespace PreApproval.Hazards.Structures;

/// <summary>One search of a pattern in a structure, with its count of steps.</summary>
internal sealed class SubstructureSearch(Molecule molecule)
{
    private int _steps;

    public Molecule Molecule { get; } = molecule;

    public bool GaveUp => _steps > SubstructurePattern.MaximumSteps;

    /// <summary>Starts the count of steps anew, for the next pattern.</summary>
    public void Restart() => _steps = 0;

    /// <summary>Whether the pattern is there. A search that was given up decides nothing: what an environment was not found in may be there.</summary>
    public PatternMatch Match(SubstructurePattern pattern)
    {
        Span<short> map = stackalloc short[pattern.Atoms.Length];
        var found = Place(pattern, pattern.Search, 0, map, null);
        return GaveUp ? PatternMatch.Undecided : found ? PatternMatch.Present : PatternMatch.Absent;
    }

    /// <summary>Whether the pattern is there with its first atom on the given one.</summary>
    public bool MatchesAt(SubstructurePattern pattern, int atom)
    {
        if ((pattern.AtomMask(0) >> Molecule.Kinds[atom] & 1) == 0 || !pattern.Atoms[0].Matches(this, atom))
        {
            return false;
        }

        if (pattern.Atoms.Length == 1)
        {
            return true;
        }

        Span<short> map = stackalloc short[pattern.Atoms.Length];
        map[0] = (short)atom;
        return Place(pattern, pattern.FromFirst, 1, map, null);
    }

    public IReadOnlyList<int[]> All(SubstructurePattern pattern, int most)
    {
        Span<short> map = stackalloc short[pattern.Atoms.Length];
        var found = new Found(most);
        Place(pattern, pattern.Search, 0, map, found);
        return found.Matches;
    }

    // true when the search may end: the first match, or as many as wanted
    private bool Place(SubstructurePattern pattern, SearchStep[] plan, int depth, Span<short> map, Found? found)
    {
        if (depth == plan.Length)
        {
            return found is null || found.Add(map);
        }

        var step = plan[depth];
        if (step.Parent >= 0)
        {
            foreach (var (candidate, bond) in Molecule.Neighbours(map[step.Parent]))
            {
                if ((BondTest.Of(Molecule.Bonds[bond]) & step.Bond) != 0 && Try(pattern, plan, depth, map, candidate, found))
                {
                    return true;
                }

                if (GaveUp)
                {
                    return false;
                }
            }

            return false;
        }

        for (short candidate = 0; candidate < Molecule.Atoms.Length; candidate++)
        {
            if (Try(pattern, plan, depth, map, candidate, found))
            {
                return true;
            }

            if (GaveUp)
            {
                return false;
            }
        }

        return false;
    }

    private bool Try(SubstructurePattern pattern, SearchStep[] plan, int depth, Span<short> map, short candidate, Found? found)
    {
        var step = plan[depth];
        _steps++;
        if ((pattern.AtomMask(step.Atom) >> Molecule.Kinds[candidate] & 1) == 0)
        {
            return false;
        }

        for (var i = 0; i < depth; i++)
        {
            if (map[plan[i].Atom] == candidate)
            {
                return false;
            }
        }

        foreach (var (other, test) in step.Closures)
        {
            var bond = Molecule.BondBetween(candidate, map[other]);
            if (bond < 0 || (BondTest.Of(Molecule.Bonds[bond]) & test) == 0)
            {
                return false;
            }
        }

        if (!pattern.Atoms[step.Atom].Matches(this, candidate))
        {
            return false;
        }

        map[step.Atom] = candidate;
        return Place(pattern, plan, depth + 1, map, found);
    }

    private sealed class Found(int most)
    {
        private readonly HashSet<string> _seen = new(StringComparer.Ordinal);

        public List<int[]> Matches { get; } = [];

        public bool Add(ReadOnlySpan<short> map)
        {
            var atoms = new int[map.Length];
            for (var i = 0; i < atoms.Length; i++)
            {
                atoms[i] = map[i];
            }

            int[] sorted = [.. atoms];
            Array.Sort(sorted);
            if (_seen.Add(string.Join(',', sorted)))
            {
                Matches.Add(atoms);
            }

            return Matches.Count >= most;
        }
    }
}
