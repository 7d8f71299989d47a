namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Any number of liquids in equilibrium, as the least Gibbs energy over the amount of every component in every liquid: Newton steps made to lead down
/// and a line search, so that the energy never rises (second-order minimisation: Michelsen, Fluid Phase Equilib. 9 (1982) 21,
/// doi:10.1016/0378-3812(82)85002-4). Slower than successive substitution, and safe where that one creeps, goes round, or has two liquids only to offer.
/// </summary>
internal sealed partial class LiquidGibbs
{
    private const int MaximumIterations = 300;
    private const double Balanced = 1e-11;
    private const double NearlyBalanced = 1e-8;
    private const double Vanishing = 1e-9;
    private const double SameLiquid = 1e-5;

    private readonly Unifac.UnifacAtTemperature _model;
    private readonly int _components;

    // components that are there at all; the others have no part in the energy
    private readonly int[] _present;
    private readonly double[] _fractions;

    // mol of each component in each liquid, for one mole of all; and ln activity there
    private readonly List<double[]> _amounts;
    private readonly List<double[]> _potentials = [];

    /// <summary>Begins with one liquid of the composition of the feed, whose fractions sum to 1.</summary>
    public LiquidGibbs(Unifac.UnifacAtTemperature model, double[] feed)
    {
        _model = model;
        _components = feed.Length;
        _present = [.. Enumerable.Range(0, feed.Length).Where(i => feed[i] > 0)];
        _fractions = new double[feed.Length];
        _amounts = [[.. feed]];
        Energy(_amounts, _potentials);
    }

    public int Count => _amounts.Count;

    /// <summary>Mole fractions and shares of the liquids as they stand.</summary>
    public LiquidPhase[] Liquids() => [.. _amounts.Select(amounts =>
    {
        var share = amounts.Sum();
        return new LiquidPhase(Array.ConvertAll(amounts, mol => mol / share), share);
    })];

    /// <summary>Takes a further liquid out of one that is not stable, as much of it as lowers the energy; false where none does.</summary>
    /// <param name="from">Which liquid it comes out of.</param>
    /// <param name="trial">Its mole fractions.</param>
    public bool TryPart(int from, ReadOnlySpan<double> trial)
    {
        var whole = _amounts[from];
        var before = Energy(_amounts, _potentials);
        var share = double.PositiveInfinity;
        foreach (var i in _present)
        {
            share = Math.Min(share, 0.5 * whole[i] / trial[i]);
        }

        List<double[]> parted = [.. _amounts.Select(static amounts => (double[])amounts.Clone()), new double[_components]];
        for (var halving = 0; halving < 60; halving++, share *= 0.5)
        {
            foreach (var i in _present)
            {
                parted[^1][i] = share * trial[i];
                parted[from][i] = whole[i] - parted[^1][i];
            }

            if (Energy(parted, _potentials) < before)
            {
                Take(parted);
                return true;
            }
        }

        return false;
    }

    /// <summary>Goes down to where the activities of every component are the same in all liquids; liquids that vanish or become alike on the way are one afterwards. False where it does not get there.</summary>
    public bool TrySettle()
    {
        List<double[]> trial = [];
        List<double[]> trialPotentials = [];
        var energy = Energy(_amounts, _potentials);
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            if (TryUnite())
            {
                energy = Energy(_amounts, _potentials);
            }

            if (Count == 1)
            {
                return true;
            }

            var most = MostOf();
            var norm = Norm(_potentials, most);
            if (norm < Balanced)
            {
                return true;
            }

            if (!TryStep(most, out var step, out var slope, out var length))
            {
                return false;
            }

            var moved = false;
            for (var halving = 0; halving < 50 && !moved; halving++, length *= 0.5)
            {
                Move(step, most, length, trial);
                var next = Energy(trial, trialPotentials);
                // below the rounding of the energy, the activities tell
                moved = next < energy + (1e-4 * length * slope) || (Math.Abs(next - energy) < 1e-13 && Norm(trialPotentials, most) < norm);
                energy = moved ? next : energy;
            }

            if (!moved)
            {
                return norm < NearlyBalanced;
            }

            Take(trial);
            Energy(_amounts, _potentials);
        }

        return Norm(_potentials, MostOf()) < NearlyBalanced;
    }

    private void Take(List<double[]> amounts)
    {
        _amounts.Clear();
        _amounts.AddRange(amounts.Select(static each => (double[])each.Clone()));
    }

    // Σ n (ln x + ln γ) over all liquids, in units of R T
    private double Energy(List<double[]> amounts, List<double[]> potentials)
    {
        potentials.Clear();
        double energy = 0;
        foreach (var liquid in amounts)
        {
            var share = Fractions(liquid);
            var potential = new double[_components];
            _model.LogActivityCoefficients(_fractions, potential);
            foreach (var i in _present)
            {
                potential[i] += Math.Log(liquid[i] / share);
                energy += liquid[i] * potential[i];
            }

            potentials.Add(potential);
        }

        return energy;
    }

    private double Fractions(double[] liquid)
    {
        var share = liquid.Sum();
        for (var i = 0; i < _components; i++)
        {
            _fractions[i] = liquid[i] / share;
        }

        return share;
    }

    // The liquid with the most of each component holds what the others leave: a difference there loses no digits.
    private int[] MostOf()
    {
        var most = new int[_components];
        for (var liquid = 1; liquid < Count; liquid++)
        {
            foreach (var i in _present)
            {
                most[i] = _amounts[liquid][i] > _amounts[most[i]][i] ? liquid : most[i];
            }
        }

        return most;
    }

    private double Norm(List<double[]> potentials, int[] most)
    {
        double norm = 0;
        foreach (var potential in potentials)
        {
            foreach (var i in _present)
            {
                norm = Math.Max(norm, Math.Abs(potential[i] - potentials[most[i]][i]));
            }
        }

        return norm;
    }

    // A liquid of next to nothing that would rather not be, and a second one like the first.
    private bool TryUnite()
    {
        var united = false;
        for (var liquid = Count - 1; liquid >= 0 && Count > 1; liquid--)
        {
            for (var other = 0; other < Count; other++)
            {
                if (other != liquid && (AreAlike(_amounts[liquid], _amounts[other]) || Vanishes(liquid, other)))
                {
                    foreach (var i in _present)
                    {
                        _amounts[other][i] += _amounts[liquid][i];
                    }

                    _amounts.RemoveAt(liquid);
                    _potentials.RemoveAt(liquid);
                    united = true;
                    break;
                }
            }
        }

        return united;
    }

    private bool Vanishes(int liquid, int other)
    {
        var share = _amounts[liquid].Sum();
        return share < Vanishing && _amounts[other].Sum() > share && _present.Sum(i => _amounts[liquid][i] * (_potentials[liquid][i] - _potentials[other][i])) > 0;
    }

    private bool AreAlike(double[] first, double[] second)
    {
        var firstShare = first.Sum();
        var secondShare = second.Sum();
        return Array.TrueForAll(_present, i => Math.Abs((first[i] / firstShare) - (second[i] / secondShare)) < SameLiquid);
    }
}
