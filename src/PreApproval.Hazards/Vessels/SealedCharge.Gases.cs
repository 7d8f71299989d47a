using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <content>Gas over the contents: trapped at closing, made since, or charged.</content>
internal sealed partial class SealedCharge
{
    // Trapped, evolved and charged gas, each substance once.
    private List<ChargedPart> Gases()
    {
        var gases = new List<ChargedPart>();
        foreach (var (gas, fraction) in Input.Headspace)
        {
            Add(gases, gas, fraction * TrappedMol);
        }

        Add(gases, ClosedVesselInput.Nitrogen, Input.GasEvolvedMol);
        foreach (var gas in ChargedGases)
        {
            Add(gases, gas.Substance, gas.Mol);
        }

        return gases;
    }

    private static void Add(List<ChargedPart> gases, Substance gas, double mol)
    {
        if (!(mol > 0))
        {
            return;
        }

        var index = gases.FindIndex(g => string.Equals(g.Substance.Key, gas.Key, StringComparison.Ordinal));
        if (index < 0)
        {
            gases.Add(new ChargedPart(gas, mol));
        }
        else
        {
            gases[index] = gases[index] with { Mol = gases[index].Mol + mol };
        }
    }

    private void AddTrappedGas()
    {
        var input = Input;
        var point = new VesselPoint(this, input.FillTemperatureK);
        var free = VolumeM3 - point.CondensedM3 + DryIceShrinkageM3(point);
        var trapped = 0.0;
        if (input.Headspace.Count > 0 && free > 0)
        {
            var dry = input.FillPressurePaAbs;
            if (input.SaturatedAtClosing)
            {
                // without a number for the vapour the gas is taken as dry, which is the cautious side
                var vapour = ModifiedRaoult.Solve(point, 0).State;
                // what boils as it is filled in, such as dry ice, has not driven out the air yet
                dry = vapour.PressurePaAbs >= AtmospherePa && (HasGas(Mixing) || HasGas(Apart)) ? dry : Math.Max(AtmospherePa - (vapour.PressurePaAbs ?? 0), 0);
                free = vapour.LiquidVolumeFraction is { } liquid ? VolumeM3 * (1 - liquid) : free;
            }

            trapped = dry * free / (GasConstant * input.FillTemperatureK);
        }

        TrappedMol = trapped;
        GasMol = trapped + ChargedGasMol + input.GasEvolvedMol;
    }
}
