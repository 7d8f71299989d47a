namespace PreApproval.Hazards.Structures;

/// <summary>A group of a group-contribution method with the patterns that find it.</summary>
/// <param name="Group">Its name or number in the method.</param>
/// <param name="Patterns">Any of them; every atom of a pattern belongs to the group, what stands in $( ) does not.</param>
public sealed record FragmentRule(string Group, IReadOnlyList<SubstructurePattern> Patterns);

/// <summary>The groups a structure is made of.</summary>
/// <param name="Counts">Groups with how often; empty when the structure cannot be cut up.</param>
/// <param name="Because">Why it cannot, or null.</param>
public sealed record Fragments(IReadOnlyDictionary<string, int> Counts, string? Because)
{
    /// <summary>True when every atom belongs to a group.</summary>
    public bool Complete => Because is null;
}

/// <summary>
/// Cuts a structure into groups: rules are tried in order, each takes atoms that no earlier one took, and every atom beside hydrogen must be
/// taken in the end. The structure is numbered canonically first, so that the result does not depend on the spelling.
/// </summary>
public static class GroupFragments
{
    /// <summary>The groups of a structure by one set of rules.</summary>
    public static Fragments Of(Molecule molecule, IReadOnlyList<FragmentRule> rules)
    {
        ArgumentNullException.ThrowIfNull(molecule);
        ArgumentNullException.ThrowIfNull(rules);
        if (Refusal(molecule) is { } refusal)
        {
            return new Fragments(new Dictionary<string, int>(StringComparer.Ordinal), refusal);
        }

        var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var taken = new bool[molecule.Atoms.Length];
        foreach (var rule in rules)
        {
            foreach (var pattern in rule.Patterns)
            {
                if (pattern.FindAll(molecule) is not { } places)
                {
                    return new Fragments(new Dictionary<string, int>(StringComparer.Ordinal), $"the search for the group {rule.Group} was given up");
                }

                foreach (var place in places)
                {
                    if (Array.TrueForAll(place, a => !taken[a]))
                    {
                        Array.ForEach(place, a => taken[a] = true);
                        counts[rule.Group] = counts.GetValueOrDefault(rule.Group) + 1;
                    }
                }
            }
        }

        var left = Array.IndexOf(taken, value: false);
        return left < 0
            ? new Fragments(counts, null)
            : new Fragments(new Dictionary<string, int>(StringComparer.Ordinal), $"the method has no group for {Described(molecule, left)}");
    }

    /// <summary>The structure with its atoms in canonical order, by which it must be cut.</summary>
    public static Molecule Canonical(Molecule molecule) =>
        SmilesReader.TryRead(StructureKey.Of(molecule).WithoutStereo, out var canonical, out _) ? canonical : molecule;

    internal static IReadOnlyList<FragmentRule> Rules(IEnumerable<IReadOnlyDictionary<string, string>> rows, string name) =>
        [.. rows.Select(row => new FragmentRule(row[name], StructurePatterns.Patterns(row["patterns"])))];

    private static string? Refusal(Molecule molecule)
    {
        foreach (var atom in molecule.Atoms)
        {
            if (atom.Isotope != 0)
            {
                return "the method knows no isotopes";
            }
        }

        return molecule.Charge != 0 ? "the method knows no ions" : IsOnePart(molecule) ? null : "the method knows single molecules, not salts and adducts";
    }

    private static bool IsOnePart(Molecule molecule) => molecule.Bonds.Length - molecule.Rings.Independent == molecule.Atoms.Length - 1;

    private static string Described(Molecule molecule, int atom)
    {
        ref readonly var a = ref molecule.Atoms[atom];
        var neighbours = new List<string>();
        foreach (var (to, _) in molecule.Neighbours(atom))
        {
            neighbours.Add(Elements.Symbol(molecule.Atoms[to].Element));
        }

        neighbours.Sort(StringComparer.Ordinal);
        var ring = molecule.Rings.SmallestAt(atom) > 0 ? " in a ring" : "";
        return neighbours.Count == 0 ? $"{Elements.Symbol(a.Element)} alone" : $"{Elements.Symbol(a.Element)}{ring} bound to {string.Join(", ", neighbours)}";
    }
}
