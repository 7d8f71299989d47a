using BenchmarkDotNet.Attributes;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Benchmarks;

/// <summary>The state of a closed vessel with four liquids, at one temperature and along a curve.</summary>
[MemoryDiagnoser]
[System.Diagnostics.CodeAnalysis.SuppressMessage("Performance", "CA1822", Justification = "benchmarks are instance methods")]
public class VesselBenchmarks
{
    private readonly SealedCharge _charge = new(Charges.Input);
    private readonly Substance[] _liquids = [.. Charges.Cas.Select(Charges.Find)];

    /// <summary>The fast and the slow way must agree before their times mean anything.</summary>
    [GlobalSetup]
    public void Agree()
    {
        Check(ModifiedRaoult().PressurePaAbs!.Value, ModifiedRaoultSlow());
        Check(PengRobinson().PressurePaAbs!.Value, PengRobinsonSlow());
    }

    [Benchmark]
    public ModelState ModifiedRaoult() => Vessels.Raoult(_charge, Charges.TemperatureK);

    [Benchmark]
    public double ModifiedRaoultSlow() => SlowReference.ModifiedRaoult(_liquids, Charges.Mol, Charges.Input.VesselVolumeM3, Charges.TemperatureK);

    [Benchmark]
    public ModelState PengRobinson() => EquationOfStateVessel.PengRobinson(new VesselPoint(_charge, Charges.TemperatureK));

    [Benchmark]
    public double PengRobinsonSlow()
    {
        EquationComponent[] components = _charge.EquationComponents!;
        Substance[] all = [.. _liquids, Charges.Find("7727-37-9"), Charges.Find("7782-44-7")];
        return SlowReference.PengRobinson(all, [.. Charges.Mol, components[^2].Mol, components[^1].Mol], Charges.Input.VesselVolumeM3, Charges.TemperatureK);
    }

    [Benchmark]
    public ModelState Psrk() => EquationOfStateVessel.Psrk(new VesselPoint(_charge, Charges.TemperatureK));

    [Benchmark]
    public VesselState AllModelsFromTheInput() => ClosedVessel.At(Charges.Input, Charges.TemperatureK);

    /// <summary>What sorting the contents and looking up all group parameters costs once.</summary>
    [Benchmark]
    public object Charge() => new SealedCharge(Charges.Input);

    [Benchmark]
    public double Curve100Points()
    {
        var charge = new SealedCharge(Charges.Input);
        double sum = 0;
        for (int i = 0; i < 100; i++)
        {
            sum += charge.GoverningAt(293.15 + i).PressurePaAbs!.Value;
        }

        return sum;
    }

    [Benchmark]
    public double? HighestTemperature() => ClosedVessel.HighestTemperatureK(Charges.Input, 5e5);

    private static void Check(double fast, double slow)
    {
        if (!(Math.Abs((fast / slow) - 1) < 1e-6))
        {
            throw new InvalidOperationException(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"fast {fast}, slow {slow}"));
        }
    }

    private static class Vessels
    {
        public static ModelState Raoult(SealedCharge charge, double temperatureK) => PreApproval.Hazards.Vessels.ModifiedRaoult.Solve(new VesselPoint(charge, temperatureK), charge.GasMol).State;
    }
}
