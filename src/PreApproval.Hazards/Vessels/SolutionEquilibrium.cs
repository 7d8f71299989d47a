using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// A closed vessel with gases or volatile acids in solution: every content keeps n = l + p(l) V_gas/(R T), with the partial pressures of
/// <see cref="SolutionVapour"/> for the solutes and their water, and modified Raoult for other liquids. Solved one content at a time by a
/// bracketed secant, in sweeps until nothing moves; each equation rises with its own l, so every step has exactly one answer.
/// </summary>
/// <remarks>
/// Water takes the solute before other liquids do: with both, the solute counts as dissolved in the water alone, which bounds its
/// pressure unless the other liquid salts it out; <see cref="Doubts"/> says so. Without water, see <see cref="SolutionVapour.OrganicPa"/>.
/// </remarks>
internal sealed partial class SolutionEquilibrium
{
    private const int MaximumSweeps = 400;
    private const double Convergence = 1e-12;
    private readonly VesselPoint point;
    private readonly ChargedPart[] solutes;
    private readonly VolatilePart[] solvents;
    private readonly int water;
    private readonly double[] liquid;
    private readonly double[] logGamma;
    private readonly Unifac.UnifacAtTemperature? model;
    private readonly double rt;

    private SolutionEquilibrium(VesselPoint point)
    {
        this.point = point;
        solutes = point.Charge.Dissolved;
        solvents = point.Mixing;
        water = Array.FindIndex(solvents, static part => part.Key is SolutionVapour.Water);
        liquid = [.. solvents.Select(static part => part.Mol), .. solutes.Select(static part => part.Mol)];
        logGamma = new double[solvents.Length];
        model = point.Charge.ActivitiesAt(point.TemperatureK);
        rt = GasConstant * point.TemperatureK;
        OneLiquid = solvents.Length < 2 || (model is not null && IsOneLiquid());
    }

    private bool OneLiquid { get; }

    /// <summary>Partial pressures in Pa of the solutes with everything in the liquid, in the order of the charge.</summary>
    public static double[] DissolvedPa(VesselPoint point)
    {
        if (point.Charge.Dissolved.Length == 0)
        {
            return [];
        }

        var state = new SolutionEquilibrium(point);
        return [.. Enumerable.Range(0, state.solutes.Length).Select(i => state.PartialPa(state.solvents.Length + i))];
    }

    /// <summary>What is not published of this mixture, in words for a sentence; empty when the data cover it.</summary>
    public static IReadOnlyList<string> Doubts(SealedCharge charge)
    {
        if (charge.Dissolved.Length == 0)
        {
            return [];
        }

        var doubts = new List<string>();
        var others = charge.Mixing.Where(static part => part.Substance.Key is not SolutionVapour.Water).Select(static part => part.Substance).ToArray();
        var inWater = others.Length < charge.Mixing.Length;
        foreach (var solute in charge.Dissolved.Select(static part => part.Substance))
        {
            if (inWater && others.Length > 0)
            {
                doubts.Add($"what {ImmiscibleBound.Names(others)} changes in the pressure of {solute.Identity.Name} over water");
            }
            else if (!inWater && Array.FindAll(others, solvent => !SolutionVapour.HasSolvent(solute.Key, solvent.Key)) is { Length: > 0 } unlisted)
            {
                doubts.Add($"the solubility of {solute.Identity.Name} in {ImmiscibleBound.Names(unlisted)} (counted as in an alkane)");
            }
        }

        return doubts;
    }

    public static RaoultAnswer Solve(VesselPoint point, double gasMol) => new SolutionEquilibrium(point).Answer(gasMol);

    private RaoultAnswer Answer(double gasMol)
    {
        for (var sweep = 0; sweep < MaximumSweeps; sweep++)
        {
            UpdateGamma();
            double change = 0;
            for (var i = 0; i < liquid.Length; i++)
            {
                var before = liquid[i];
                liquid[i] = OwnLiquid(i);
                change = Math.Max(change, Math.Abs(liquid[i] - before) / Mol(i));
            }

            if (change < Convergence)
            {
                break;
            }
        }

        var free = FreeM3();
        var partial = new SpeciesValues(liquid.Length + point.Apart.Length + 1);
        var fractions = new SpeciesValues(liquid.Length);
        var coefficients = new SpeciesValues(solvents.Length);
        var total = liquid.Sum();
        var pressure = gasMol * rt / free;
        if (gasMol > 0)
        {
            partial["headspace"] = pressure;
        }

        for (var i = 0; i < liquid.Length; i++)
        {
            var p = (Mol(i) - liquid[i]) * rt / free;
            pressure += p;
            partial[Key(i)] = p;
            if (liquid[i] > 0)
            {
                fractions[Key(i)] = liquid[i] / total;
                if (i < solvents.Length && OneLiquid)
                {
                    coefficients[Key(i)] = p * total / (liquid[i] * solvents[i].SaturationPa);
                }
            }
        }

        foreach (var part in point.Apart)
        {
            var p = Math.Min(part.Mol * rt / free, part.SaturationPa);
            if (part.SaturationPa >= SealedCharge.NegligiblePa)
            {
                pressure += p;
                partial[part.Key] = p;
            }
        }

        return new RaoultAnswer(
            new ModelState
            {
                Model = VesselModel.ModifiedRaoult,
                Phase = total > 0 || point.Charge.TakesRoomAsLiquid ? VesselPhase.TwoPhase : VesselPhase.Vapour,
                PressurePaAbs = pressure,
                PartialPressuresPa = partial,
                LiquidVolumeFraction = Math.Clamp(1 - (free / point.Charge.VolumeM3), 0, 1),
                LiquidMoleFractions = fractions,
                ActivityCoefficients = coefficients,
                Point = point,
                Quality = Quality.Assumed,
            },
            // where the liquids part, each already counts with its own vapour pressure here
            OneLiquid: true);
    }

    /// <summary>The root of l + p(l) V_gas/(R T) = n in l; 0 where the content is all vapour.</summary>
    private double OwnLiquid(int i)
    {
        var mol = Mol(i);
        liquid[i] = 0;
        var low = 0.0;
        var atLow = Excess(i, mol);
        if (atLow >= 0)
        {
            return 0;
        }

        var high = mol;
        liquid[i] = mol;
        var atHigh = Excess(i, mol);
        for (var iteration = 0; iteration < 200 && high - low > 1e-15 * mol; iteration++)
        {
            // Illinois: a secant that halves the weight of an end it keeps
            var next = high - (atHigh * (high - low) / (atHigh - atLow));
            next = next > low && next < high ? next : 0.5 * (low + high);
            liquid[i] = next;
            var value = Excess(i, mol);
            if (value == 0)
            {
                return next;
            }

            if (value < 0)
            {
                (low, atLow) = (next, value);
                atHigh *= 0.5;
            }
            else
            {
                (high, atHigh) = (next, value);
                atLow *= 0.5;
            }

            if (Math.Abs(value) <= 1e-16 * mol)
            {
                break;
            }
        }

        return liquid[i];
    }

    private double Excess(int i, double mol) => liquid[i] + (PartialPa(i) * Math.Max(FreeM3(), 1e-12) / rt) - mol;

    private double FreeM3()
    {
        var free = point.Charge.VolumeM3 - point.RoomM3;
        for (var i = 0; i < liquid.Length; i++)
        {
            free -= liquid[i] * (i < solvents.Length ? solvents[i].M3PerMol : point.DissolvedM3PerMol[i - solvents.Length]);
        }

        foreach (var part in point.Apart)
        {
            free -= part.Mol * part.M3PerMol;
        }

        return free;
    }

    private void UpdateGamma()
    {
        if (model is null || solvents.Length < 2)
        {
            return;
        }

        double sum = 0;
        for (var i = 0; i < solvents.Length; i++)
        {
            sum += liquid[i];
        }

        if (sum <= 0)
        {
            return;
        }

        Span<double> x = stackalloc double[solvents.Length];
        for (var i = 0; i < solvents.Length; i++)
        {
            x[i] = Math.Max(liquid[i] / sum, 1e-12);
        }

        model.LogActivityCoefficients(x, logGamma);
    }

    private bool IsOneLiquid()
    {
        var sum = solvents.Sum(static part => part.Mol);
        return LiquidStability.IsOneLiquid(model!, solvents.Select(part => part.Mol / sum).ToArray());
    }

    private double Mol(int i) => i < solvents.Length ? solvents[i].Mol : solutes[i - solvents.Length].Mol;

    private string Key(int i) => i < solvents.Length ? solvents[i].Key : solutes[i - solvents.Length].Substance.Key;
}
