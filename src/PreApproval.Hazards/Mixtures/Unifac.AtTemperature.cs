namespace PreApproval.Hazards.Mixtures;

/// <content>What depends on the temperature.</content>
public sealed partial class Unifac
{
    /// <summary>UNIFAC at one temperature. Not for sharing between threads: it keeps its work space.</summary>
    public sealed class UnifacAtTemperature
    {
        private readonly Unifac _model;

        // ψ_km by rows
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
            _theta = new double[n];
            _denominator = new double[n];
            _logGroup = new double[n];
            _pure = new double[model._components * n];
            MoveTo(temperatureK);
        }

        /// <summary>Temperature in K.</summary>
        public double TemperatureK { get; private set; }

        /// <summary>The same mixture at another temperature in K, in the same work space: for searches over temperature.</summary>
        internal void MoveTo(double temperatureK)
        {
            if (temperatureK == TemperatureK)
            {
                return;
            }

            TemperatureK = temperatureK;
            var n = _model._groups;
            for (var k = 0; k < n; k++)
            {
                for (var m = 0; m < n; m++)
                {
                    var (a, b, c) = _model._table.Of(_model._rows[k], _model._rows[m]);
                    _psi[(k * n) + m] = a == 0 && b == 0 && c == 0 ? 1 : Math.Exp(-((a / temperatureK) + b + (c * temperatureK)));
                }
            }

            for (var i = 0; i < _model._components; i++)
            {
                LogGroupCoefficients(_model._counts.AsSpan(i * n, n), _pure.AsSpan(i * n, n));
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
                var x = moleFractions[i];
                var counts = _model._counts.AsSpan(i * n, n);
                volume += x * _model._volumes[i];
                raised += x * _model._raisedVolumes[i];
                surface += x * _model._surfaces[i];
                for (var k = 0; k < counts.Length; k++)
                {
                    amounts[k] += x * counts[k];
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
                var counts = _model._counts.AsSpan(i * n, n);
                var pure = _pure.AsSpan(i * n, n);
                for (var k = 0; k < counts.Length; k++)
                {
                    if (counts[k] != 0)
                    {
                        residual += counts[k] * (_logGroup[k] - pure[k]);
                    }
                }

                logCoefficients[i] = combinatorial + residual;
            }
        }

        /// <summary>∂ ln γ_i/∂n_j, by rows, for mole fractions that sum to 1 as amounts in mol: central differences, as ln γ is smooth through x = 0.</summary>
        internal void LogActivityDerivatives(ReadOnlySpan<double> moleFractions, Span<double> derivatives)
        {
            const double by = 1e-5;
            var n = moleFractions.Length;
            Span<double> moved = stackalloc double[n];
            Span<double> above = stackalloc double[n];
            Span<double> below = stackalloc double[n];
            for (var j = 0; j < n; j++)
            {
                for (var i = 0; i < n; i++)
                {
                    moved[i] = (moleFractions[i] + (i == j ? by : 0)) / (1 + by);
                }

                LogActivityCoefficients(moved, above);
                for (var i = 0; i < n; i++)
                {
                    moved[i] = (moleFractions[i] - (i == j ? by : 0)) / (1 - by);
                }

                LogActivityCoefficients(moved, below);
                for (var i = 0; i < n; i++)
                {
                    derivatives[(i * n) + j] = (above[i] - below[i]) / (2 * by);
                }
            }
        }

        // ln Γ_k = Q_k [1 - ln Σ_m θ_m ψ_mk - Σ_m θ_m ψ_km / Σ_n θ_n ψ_nm]
        private void LogGroupCoefficients(ReadOnlySpan<double> amounts, Span<double> result)
        {
            var surface = _model._surface;
            var theta = _theta.AsSpan();
            double total = 0;
            for (var k = 0; k < theta.Length; k++)
            {
                theta[k] = amounts[k] * surface[k];
                total += theta[k];
            }

            // a molecule of groups without surface (a bare carbon) has no residual part
            if (total <= 0)
            {
                result.Clear();
                return;
            }

            for (var k = 0; k < theta.Length; k++)
            {
                theta[k] /= total;
            }

            var denominator = _denominator.AsSpan(0, theta.Length);
            denominator.Clear();
            for (var m = 0; m < theta.Length; m++)
            {
                var psi = _psi.AsSpan(m * theta.Length, theta.Length);
                for (var k = 0; k < denominator.Length; k++)
                {
                    denominator[k] += theta[m] * psi[k];
                }
            }

            for (var k = 0; k < result.Length; k++)
            {
                var psi = _psi.AsSpan(k * theta.Length, theta.Length);
                double sum = 0;
                for (var m = 0; m < theta.Length; m++)
                {
                    sum += theta[m] * psi[m] / denominator[m];
                }

                result[k] = surface[k] * (1 - Math.Log(denominator[k]) - sum);
            }
        }
    }
}
