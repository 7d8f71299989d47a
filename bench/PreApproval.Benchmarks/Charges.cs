using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Benchmarks;

/// <summary>The vessel of every comparison: acetone, methanol, ethyl acetate and water in 50 mL under air.</summary>
internal static class Charges
{
    public const double TemperatureK = 373.15;

    public static readonly string[] Cas = ["67-64-1", "67-56-1", "141-78-6", "7732-18-5"];
    public static readonly double[] Mol = [0.08, 0.10, 0.05, 0.20];

    public static ClosedVesselInput Input { get; } = new()
    {
        VesselVolumeM3 = 50e-6,
        Contents = [.. Cas.Select(static (cas, i) => new ChargedSubstance(Find(cas), Mol[i]))],
    };

    public static Substance Find(string cas) => Catalog.Default.TryFindByCas(cas, out Substance? substance) ? substance : throw new InvalidOperationException(cas);
}
