using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Activity coefficients of a solvent (1) in water (2) from its measured equilibrium (Data/binary-van-laar.tsv): ln γ1 = A12 [A21 x2/(A12 x1 + A21 x2)]²,
/// ln γ2 = A21 [A12 x1/(A12 x1 + A21 x2)]². A12 is the logarithm of the limiting activity coefficient of the solvent. At 25 °C that is known from
/// Henry's constant; from there it rises with the enthalpy of solution, as far as the constant fitted at the boiling points. Below 25 °C it
/// is held. The equation serves the flash point of aqueous solvents, where original UNIFAC overstates what a dilute alcohol gives off.
/// </summary>
internal sealed record VanLaar
{
    private const double ReferenceK = 298.15;

    private static readonly FrozenDictionary<(string, string), VanLaar> Pairs = EmbeddedTable.Rows("binary-van-laar.tsv").ToFrozenDictionary(
        static row => (row["cas_1"], row["cas_2"]),
        static row => new VanLaar
        {
            BoilingA12 = Number(row["a12"]),
            A21 = Number(row["a21"]),
            ColdA12 = Math.Log(Number(row["limiting_298K"])),
            SlopeK = Number(row["solution_J_per_mol"]) / GasConstant,
            Sources = EmbeddedTable.Entries(row["sources"]),
        });

    /// <summary>A12 at the boiling points of the solutions.</summary>
    public required double BoilingA12 { get; init; }

    public required double A21 { get; init; }

    /// <summary>A12 at 25 °C.</summary>
    public required double ColdA12 { get; init; }

    /// <summary>d ln γ1/d(1/T) of the dilute solution, in K.</summary>
    public required double SlopeK { get; init; }

    public required IReadOnlyList<string> Sources { get; init; }

    /// <summary>The pair of a mixture of exactly two substances, and where they stand; null for any other mixture.</summary>
    public static (VanLaar Pair, int First, int Second)? Find(LiquidMixture mixture)
    {
        var present = Enumerable.Range(0, mixture.Parts.Count).Where(index => mixture.Parts[index].MoleFraction > 0).ToArray();
        if (present is not [var one, var other])
        {
            return null;
        }

        var (first, second) = (mixture.Parts[one].Substance.Key, mixture.Parts[other].Substance.Key);
        return Pairs.TryGetValue((first, second), out var pair) ? (pair, one, other)
            : Pairs.TryGetValue((second, first), out pair) ? (pair, other, one)
            : null;
    }

    /// <summary>Activity coefficients at a mole fraction of the first from 0 to 1 and a temperature in K.</summary>
    public (double First, double Second) ActivityCoefficients(double x, double temperatureK)
    {
        var a12 = Math.Clamp(ColdA12 + (SlopeK * ((1 / temperatureK) - (1 / ReferenceK))), Math.Min(ColdA12, BoilingA12), Math.Max(ColdA12, BoilingA12));
        var sum = (a12 * x) + (A21 * (1 - x));
        var first = A21 * (1 - x) / sum;
        var second = a12 * x / sum;
        return (Math.Exp(a12 * first * first), Math.Exp(A21 * second * second));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
