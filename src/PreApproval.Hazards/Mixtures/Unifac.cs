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
    private readonly UnifacInteraction[] _interactions;
    private readonly double[] _volumes;
    private readonly double[] _raisedVolumes;
    private readonly double[] _surfaces;

    private Unifac(double[] counts, double[] volumeOfGroup, double[] surface, UnifacInteraction[] interactions, int components, double volumeExponent)
    {
        _components = components;
        _groups = surface.Length;
        _counts = counts;
        _surface = surface;
        _interactions = interactions;
        _volumes = new double[components];
        _surfaces = new double[components];
        for (var i = 0; i < components; i++)
        {
            for (var k = 0; k < _groups; k++)
            {
                _volumes[i] += counts[(i * _groups) + k] * volumeOfGroup[k];
                _surfaces[i] += counts[(i * _groups) + k] * surface[k];
            }
        }

        _raisedVolumes = volumeExponent == 1 ? _volumes : Array.ConvertAll(_volumes, v => Math.Pow(v, volumeExponent));
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
        var numbers = Numbers(components);
        var subgroups = Array.ConvertAll(numbers, n => table.Subgroups[n]);
        SortedSet<string>? gaps = null;
        var n = subgroups.Length;
        var interactions = new UnifacInteraction[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                if (table.Interaction(subgroups[i].MainGroup, subgroups[j].MainGroup) is { } a)
                {
                    interactions[(i * n) + j] = a;
                }
                else
                {
                    var (first, second) = i < j ? (i, j) : (j, i);
                    (gaps ??= new(StringComparer.Ordinal)).Add($"{subgroups[first].MainLabel} with {subgroups[second].MainLabel}");
                }
            }
        }

        missing = gaps is null ? [] : [.. gaps];
        if (gaps is not null)
        {
            return null;
        }

        var counts = new double[components.Count * n];
        for (var c = 0; c < components.Count; c++)
        {
            for (var k = 0; k < n; k++)
            {
                counts[(c * n) + k] = components[c].GetValueOrDefault(numbers[k]);
            }
        }

        return new Unifac(counts, Array.ConvertAll(subgroups, s => s.Volume), Array.ConvertAll(subgroups, s => s.Surface), interactions, components.Count, table.VolumeExponent);
    }

    private static int[] Numbers(IReadOnlyList<IReadOnlyDictionary<int, int>> components)
    {
        var numbers = new SortedSet<int>();
        foreach (var component in components)
        {
            numbers.UnionWith(component.Keys);
        }

        return [.. numbers];
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
