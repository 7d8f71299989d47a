using PreApproval.Hazards.Numerics;

namespace PreApproval.Hazards.Mixtures;

/// <content>The Newton step.</content>
internal sealed partial class LiquidGibbs
{
    private const double MostTaken = 0.9;

    // length: at most 1, and short of where a component would be used up
    private bool TryStep(int[] most, out double[] step, out double slope, out double length)
    {
        var places = (from liquid in Enumerable.Range(0, Count) from i in _present where most[i] != liquid select (Liquid: liquid, Component: i)).ToArray();
        var size = places.Length;
        var curvatures = _amounts.ConvertAll(Curvature);
        var hessian = new double[size * size];
        var gradient = new double[size];
        var scale = new double[size];
        for (var row = 0; row < size; row++)
        {
            var (p, i) = places[row];
            gradient[row] = _potentials[p][i] - _potentials[most[i]][i];
            scale[row] = 1 / Math.Sqrt((1 / _amounts[p][i]) + (1 / _amounts[most[i]][i]));
            for (var column = 0; column < size; column++)
            {
                var (q, j) = places[column];
                var at = (i * _components) + j;
                hessian[(row * size) + column] = (p == q ? curvatures[p][at] : 0) - (p == most[j] ? curvatures[p][at] : 0)
                    - (most[i] == q ? curvatures[q][at] : 0) + (most[i] == most[j] ? curvatures[most[i]][at] : 0);
            }
        }

        step = new double[size];
        slope = 0;
        length = 1;
        if (!NewtonStep.TryFind(hessian, gradient, scale, new double[size * size], step))
        {
            return false;
        }

        var taken = new double[_components];
        for (var row = 0; row < size; row++)
        {
            var (p, i) = places[row];
            slope += gradient[row] * step[row];
            taken[i] += step[row];
            length = step[row] < 0 ? Math.Min(length, MostTaken * _amounts[p][i] / -step[row]) : length;
        }

        foreach (var i in _present)
        {
            length = taken[i] > 0 ? Math.Min(length, MostTaken * _amounts[most[i]][i] / taken[i]) : length;
        }

        return true;
    }

    private void Move(double[] step, int[] most, double length, List<double[]> trial)
    {
        trial.Clear();
        trial.AddRange(_amounts.Select(static amounts => (double[])amounts.Clone()));
        var row = 0;
        for (var liquid = 0; liquid < Count; liquid++)
        {
            foreach (var i in _present)
            {
                if (most[i] != liquid)
                {
                    var moved = length * step[row++];
                    trial[liquid][i] += moved;
                    trial[most[i]][i] -= moved;
                }
            }
        }
    }

    // ∂ ln a_i/∂n_j
    private double[] Curvature(double[] liquid)
    {
        var share = Fractions(liquid);
        var result = new double[_components * _components];
        _model.LogActivityDerivatives(_fractions, result);
        foreach (var i in _present)
        {
            foreach (var j in _present)
            {
                var at = (i * _components) + j;
                result[at] = ((i == j ? 1 / _fractions[i] : 0) - 1 + result[at]) / share;
            }
        }

        return result;
    }
}
