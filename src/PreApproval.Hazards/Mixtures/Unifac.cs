namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Activity coefficients of a liquid mixture by original UNIFAC: Fredenslund, Jones and Prausnitz, AIChE J. 21 (1975) 1086,
/// doi:10.1002/aic.690210607, with the published interaction parameters, or by a variant of it (<see cref="UnifacTable"/>). Immutable
/// and safe for concurrent use.
/// </summary>
public sealed class Unifac
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
        var numbers = components.SelectMany(c => c.Keys).Distinct().Order().ToArray();
        var subgroups = Array.ConvertAll(numbers, n => table.Subgroups[n]);
        var gaps = new SortedSet<string>(StringComparer.Ordinal);
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
                    gaps.Add($"{subgroups[first].MainLabel} with {subgroups[second].MainLabel}");
                }
            }
        }

        missing = [.. gaps];
        if (gaps.Count > 0)
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

    /// <summary>UNIFAC at one temperature. Not for sharing between threads: it keeps its work space.</summary>
    public sealed class UnifacAtTemperature
    {
        private readonly Unifac _model;
        private readonly double[] _psi;
        private readonly double[] _pure;
        private readonly double[] _theta;
        private readonly double[] _denominator;
        private readonly double[] _logGroup;

        internal UnifacAtTemperature(Unifac model, double temperatureK)
        {
            _model = model;
            var n = model._groups;
            _psi = new double[n * n];
            for (var k = 0; k < _psi.Length; k++)
            {
                var (a, b, c) = model._interactions[k];
                _psi[k] = a == 0 && b == 0 && c == 0 ? 1 : Math.Exp(-((a / temperatureK) + b + (c * temperatureK)));
            }

            _theta = new double[n];
            _denominator = new double[n];
            _logGroup = new double[n];
            _pure = new double[model._components * n];
            for (var i = 0; i < model._components; i++)
            {
                LogGroupCoefficients(model._counts.AsSpan(i * n, n), _pure.AsSpan(i * n, n));
            }
        }

        /// <summary>Natural logarithms of the activity coefficients for mole fractions that sum to 1.</summary>
        public void LogActivityCoefficients(ReadOnlySpan<double> moleFractions, Span<double> logCoefficients)
        {
            var n = _model._groups;
            Span<double> amounts = n <= 64 ? stackalloc double[n] : new double[n];
            amounts.Clear();
            double volume = 0;
            double raised = 0;
            double surface = 0;
            for (var i = 0; i < _model._components; i++)
            {
                volume += moleFractions[i] * _model._volumes[i];
                raised += moleFractions[i] * _model._raisedVolumes[i];
                surface += moleFractions[i] * _model._surfaces[i];
                for (var k = 0; k < n; k++)
                {
                    amounts[k] += moleFractions[i] * _model._counts[(i * n) + k];
                }
            }

            LogGroupCoefficients(amounts, _logGroup);
            for (var i = 0; i < _model._components; i++)
            {
                // Staverman–Guggenheim part with z = 10, written without the mole fraction so that x = 0 needs no special case
                var v = _model._volumes[i] / volume;
                var f = v * surface / _model._surfaces[i];
                var w = _model._raisedVolumes[i] / raised;
                var combinatorial = 1 - w + Math.Log(w) - (5 * _model._surfaces[i] * (1 - f + Math.Log(f)));
                double residual = 0;
                for (var k = 0; k < n; k++)
                {
                    var count = _model._counts[(i * n) + k];
                    if (count != 0)
                    {
                        residual += count * (_logGroup[k] - _pure[(i * n) + k]);
                    }
                }

                logCoefficients[i] = combinatorial + residual;
            }
        }

        // ln Γ_k = Q_k [1 - ln Σ_m θ_m ψ_mk - Σ_m θ_m ψ_km / Σ_n θ_n ψ_nm]
        private void LogGroupCoefficients(ReadOnlySpan<double> amounts, Span<double> result)
        {
            var n = _model._groups;
            double total = 0;
            for (var k = 0; k < n; k++)
            {
                _theta[k] = amounts[k] * _model._surface[k];
                total += _theta[k];
            }

            // a molecule of groups without surface (a bare carbon) has no residual part
            if (total <= 0)
            {
                result.Clear();
                return;
            }

            for (var k = 0; k < n; k++)
            {
                _theta[k] /= total;
            }

            for (var k = 0; k < n; k++)
            {
                double sum = 0;
                for (var m = 0; m < n; m++)
                {
                    sum += _theta[m] * _psi[(m * n) + k];
                }

                _denominator[k] = sum;
            }

            for (var k = 0; k < n; k++)
            {
                double sum = 0;
                for (var m = 0; m < n; m++)
                {
                    sum += _theta[m] * _psi[(k * n) + m] / _denominator[m];
                }

                result[k] = _model._surface[k] * (1 - Math.Log(_denominator[k]) - sum);
            }
        }
    }
}
