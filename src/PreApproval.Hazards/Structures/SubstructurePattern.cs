using System.Diagnostics.CodeAnalysis;
using System.Numerics;
using System.Runtime.InteropServices;

namespace PreApproval.Hazards.Structures;

/// <summary>Whether a pattern is in a structure.</summary>
public enum PatternMatch
{
    Absent,
    Present,

    /// <summary>The search was given up after its bound of steps: nobody knows.</summary>
    Undecided,
}

/// <summary>A bond of a pattern.</summary>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct PatternBond(int First, int Second, ushort Test);

/// <summary>A substructure to look for, read from a subset of SMARTS. Immutable and safe for concurrent use.</summary>
/// <remarks>
/// Language: Daylight theory manual, chapter 4 (SMARTS); docs/methods/structures.md names the terms that are read. Search: depth first with
/// back-tracking along the bonds of the pattern, after Cordella et al., IEEE Trans. Pattern Anal. 26 (2004) 1367,
/// doi:10.1109/TPAMI.2004.75, bounded by <see cref="MaximumSteps"/>.
/// </remarks>
public sealed class SubstructurePattern
{
    /// <summary>Longest pattern that is read.</summary>
    public const int MaximumLength = 1000;

    /// <summary>Most atoms of a pattern, those of an environment $( ) counted apart.</summary>
    public const int MaximumAtoms = 64;

    /// <summary>Steps after which a search is given up.</summary>
    public const int MaximumSteps = 200_000;

    /// <summary>Most places of a pattern that are listed.</summary>
    public const int MaximumMatches = 1000;

    private readonly ulong[] _bondMasks;
    private readonly ulong[] _atomMasks;

    internal SubstructurePattern(string text, AtomTest[] atoms, PatternBond[] bonds)
    {
        Text = text;
        Atoms = atoms;
        Bonds = bonds;
        _atomMasks = Array.ConvertAll(atoms, Mask);
        _bondMasks = Array.ConvertAll(bonds, BondMask);
        FromFirst = Plan(start: 0);
        Search = Plan(RarestAtom());
    }

    /// <summary>The pattern as written.</summary>
    public string Text { get; }

    internal AtomTest[] Atoms { get; }

    internal PatternBond[] Bonds { get; }

    /// <summary>Order of the search that begins with the first atom, for environments.</summary>
    internal SearchStep[] FromFirst { get; }

    /// <summary>Order of the search that begins with the atom that passes fewest kinds.</summary>
    internal SearchStep[] Search { get; }

    /// <summary>Reads a pattern, or says at which character it cannot be read.</summary>
    public static bool TryParse(string smarts, [NotNullWhen(true)] out SubstructurePattern? pattern, [NotNullWhen(false)] out StructureError? error)
    {
        ArgumentNullException.ThrowIfNull(smarts);
        if (smarts.Length > MaximumLength)
        {
            pattern = null;
            error = new StructureError(MaximumLength, $"the pattern has {smarts.Length} characters; patterns up to {MaximumLength} are read");
            return false;
        }

        return SmartsReader.TryRead(smarts, depth: 0, out pattern, out error);
    }

    /// <summary>Whether the pattern is in the structure.</summary>
    public PatternMatch Match(Molecule molecule)
    {
        ArgumentNullException.ThrowIfNull(molecule);
        if (!MayBeIn(molecule))
        {
            return PatternMatch.Absent;
        }

        var search = new SubstructureSearch(molecule);
        return search.Match(this);
    }

    /// <summary>
    /// The sets of atoms the pattern covers, each in the order of the pattern's atoms, every set once; null when the search was given up or
    /// there are more than <see cref="MaximumMatches"/>.
    /// </summary>
    public IReadOnlyList<int[]>? FindAll(Molecule molecule)
    {
        ArgumentNullException.ThrowIfNull(molecule);
        if (!MayBeIn(molecule))
        {
            return [];
        }

        var search = new SubstructureSearch(molecule);
        var found = search.All(this, MaximumMatches + 1);
        return search.GaveUp || found.Count > MaximumMatches ? null : found;
    }

    internal ulong AtomMask(int atom) => _atomMasks[atom];

    internal bool MayBeIn(Molecule molecule)
    {
        if (molecule.Atoms.Length < Atoms.Length)
        {
            return false;
        }

        var kinds = molecule.Kinds;
        foreach (var mask in _atomMasks)
        {
            if ((mask & kinds.Atoms) == 0)
            {
                return false;
            }
        }

        foreach (var mask in _bondMasks)
        {
            if ((mask & kinds.Bonds) == 0)
            {
                return false;
            }
        }

        return true;
    }

    private static ulong Mask(AtomTest test)
    {
        var mask = 0UL;
        for (var kind = 0; kind < AtomKinds.Classes * 3; kind++)
        {
            if (test.CanPass(kind))
            {
                mask |= 1UL << kind;
            }
        }

        return mask;
    }

    private ulong BondMask(PatternBond bond)
    {
        var mask = 0UL;
        for (var one = 0; one < AtomKinds.Classes; one++)
        {
            for (var other = 0; other < AtomKinds.Classes; other++)
            {
                if (!Passes(bond.First, one) || !Passes(bond.Second, other))
                {
                    continue;
                }

                for (var order = 0; order <= 4; order++)
                {
                    if (BondTest.Allows(bond.Test, order))
                    {
                        mask |= 1UL << AtomKinds.BondBit(one, other, order);
                    }
                }
            }
        }

        return mask;
    }

    private bool Passes(int atom, int kindClass) => (_atomMasks[atom] >> (kindClass * 3) & 7) != 0;

    private int RarestAtom()
    {
        // carbon is everywhere; then the fewer kinds the better
        const ulong carbon = 0x3FUL << 6;
        var best = 0;
        var least = int.MaxValue;
        for (var a = 0; a < Atoms.Length; a++)
        {
            var score = BitOperations.PopCount(_atomMasks[a]) + ((_atomMasks[a] & carbon) != 0 ? 100 : 0);
            if (score < least)
            {
                (best, least) = (a, score);
            }
        }

        return best;
    }

    private SearchStep[] Plan(int start)
    {
        var steps = new List<SearchStep>(Atoms.Length);
        var placed = new bool[Atoms.Length];
        Place(start, -1, default);
        while (steps.Count < Atoms.Length)
        {
            var next = NextBond(placed);
            if (next >= 0)
            {
                var bond = Bonds[next];
                var (from, to) = placed[bond.First] ? (bond.First, bond.Second) : (bond.Second, bond.First);
                Place(to, from, bond.Test);
            }
            else
            {
                Place(Array.IndexOf(placed, value: false), -1, default);
            }
        }

        return [.. steps];

        void Place(int atom, int parent, ushort test)
        {
            placed[atom] = true;
            var closures = Bonds
                .Where(b => (b.First == atom && b.Second != parent && placed[b.Second]) || (b.Second == atom && b.First != parent && placed[b.First]))
                .Select(b => (b.First == atom ? b.Second : b.First, b.Test));
            steps.Add(new SearchStep(atom, parent, test, [.. closures]));
        }
    }

    private int NextBond(bool[] placed)
    {
        for (var b = 0; b < Bonds.Length; b++)
        {
            if (placed[Bonds[b].First] != placed[Bonds[b].Second])
            {
                return b;
            }
        }

        return -1;
    }
}

/// <summary>One atom of a pattern in the order of the search: which placed atom it hangs on and which rings it closes.</summary>
internal sealed record SearchStep(int Atom, int Parent, ushort Bond, (int Atom, ushort Bond)[] Closures);
