namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Activity coefficients of a liquid mixture by original UNIFAC: Fredenslund, Jones and Prausnitz, AIChE J. 21 (1975) 1086,
/// doi:10.1002/aic.690210607, with the published interaction parameters, or by a variant of it (<see cref="UnifacTable"/>). Immutable
/// and safe for concurrent use.
/// </summary>
public sealed partial class Unifac
{
    private readonly int _components;
    private readonly int _groups;
    private readonly double[] _counts;
    private readonly double[] _surface;
    private readonly UnifacTable _table;
    private readonly int[] _rows;
    private readonly double[] _volumes;
    private readonly double[] _raisedVolumes;
    private readonly double[] _surfaces;

    private Unifac(UnifacTable table, UnifacSubgroup[] groups, double[] counts, int components)
    {
        _table = table;
        _components = components;
        _groups = groups.Length;
        _counts = counts;
        _surface = Array.ConvertAll(groups, static group => group.Surface);
        _rows = Array.ConvertAll(groups, group => table.RowOf(group.MainGroup));
        _volumes = new double[components];
        _surfaces = new double[components];
        for (var i = 0; i < components; i++)
        {
            for (var k = 0; k < _groups; k++)
            {
                _volumes[i] += counts[(i * _groups) + k] * groups[k].Volume;
                _surfaces[i] += counts[(i * _groups) + k] * _surface[k];
            }
        }

        _raisedVolumes = table.VolumeExponent == 1 ? _volumes : Array.ConvertAll(_volumes, Raised);
    }

    /// <summary>
    /// Builds the model of a mixture from the subgroups of each component. Returns null when interaction parameters are not
    /// published for a pair of main groups; <paramref name="missing"/> then names each pair.
    /// </summary>
    public static Unifac? TryCreate(IReadOnlyList<IReadOnlyDictionary<int, int>> components, out IReadOnlyList<string> missing) =>
        TryCreate(UnifacTable.Default, components, out missing);

    /// <summary>The same with the groups and parameters of another published table.</summary>
    public static Unifac? TryCreate(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components, out IReadOnlyList<string> missing)
    {
        if (Kept(table, components) is { } known)
        {
            missing = known.Missing;
            return known.Model;
        }

        var model = Create(table, components, out missing);
        Keep(table, components, model, missing);
        return model;
    }

    private static Unifac? Create(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components, out IReadOnlyList<string> missing)
    {
        var groups = Groups(table, components);
        missing = Gaps(table, groups);
        if (missing.Count > 0)
        {
            return null;
        }

        var n = groups.Length;
        var counts = new double[components.Count * n];
        for (var c = 0; c < components.Count; c++)
        {
            for (var k = 0; k < n; k++)
            {
                counts[(c * n) + k] = components[c].GetValueOrDefault(groups[k].Number);
            }
        }

        return new Unifac(table, groups, counts, components.Count);
    }

    private double Raised(double volume) => Math.Pow(volume, _table.VolumeExponent);

    /// <summary>Every subgroup of the components once, by number.</summary>
    private static UnifacSubgroup[] Groups(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components)
    {
        var most = 0;
        for (var c = 0; c < components.Count; c++)
        {
            most += components[c].Count;
        }

        Span<int> numbers = most <= 128 ? stackalloc int[most] : new int[most];
        var count = 0;
        for (var c = 0; c < components.Count; c++)
        {
            // the enumerator of the dictionary itself is no object
            if (components[c] is Dictionary<int, int> own)
            {
                foreach (var (number, _) in own)
                {
                    Add(numbers, ref count, number);
                }
            }
            else
            {
                foreach (var (number, _) in components[c])
                {
                    Add(numbers, ref count, number);
                }
            }
        }

        numbers[..count].Sort();
        var groups = new UnifacSubgroup[count];
        for (var k = 0; k < count; k++)
        {
            groups[k] = table.Subgroups[numbers[k]];
        }

        return groups;

        static void Add(Span<int> numbers, ref int count, int number)
        {
            if (!numbers[..count].Contains(number))
            {
                numbers[count++] = number;
            }
        }
    }

    private static IReadOnlyList<string> Gaps(UnifacTable table, UnifacSubgroup[] groups)
    {
        SortedSet<string>? gaps = null;
        for (var i = 0; i < groups.Length; i++)
        {
            for (var j = 0; j < groups.Length; j++)
            {
                if (!table.Has(table.RowOf(groups[i].MainGroup), table.RowOf(groups[j].MainGroup)))
                {
                    var (first, second) = i < j ? (i, j) : (j, i);
                    (gaps ??= new(StringComparer.Ordinal)).Add($"{groups[first].MainLabel} with {groups[second].MainLabel}");
                }
            }
        }

        return gaps is null ? [] : [.. gaps];
    }

    /// <summary>The model at one temperature in K, with everything that depends on temperature alone worked out.</summary>
    public UnifacAtTemperature At(double temperatureK) => new(this, temperatureK);

    /// <summary>Activity coefficients at a temperature in K for mole fractions that sum to 1.</summary>
    public double[] ActivityCoefficients(double temperatureK, ReadOnlySpan<double> moleFractions)
    {
        var result = new double[_components];
        At(temperatureK).LogActivityCoefficients(moleFractions, result);
        for (var i = 0; i < result.Length; i++)
        {
            result[i] = Math.Exp(result[i]);
        }

        return result;
    }
}
