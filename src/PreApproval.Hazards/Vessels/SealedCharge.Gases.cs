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
        var point = Moved(input.FillTemperatureK);
        var free = VolumeM3 - point.CondensedM3 + DryIceShrinkageM3(point);
        var trapped = 0.0;
        if (input.Headspace.Count > 0 && free > 0)
        {
            var dry = input.FillPressurePaAbs;
            if (input.SaturatedAtClosing)
            {
                // without a number for the vapour the gas is taken as dry, which is the cautious side
                var (vapourPa, liquid) = VapourAlone(point);
                // what boils as it is filled in, such as dry ice, has not driven out the air yet
                dry = vapourPa >= AtmospherePa && (HasGas(Mixing) || HasGas(Apart)) ? dry : Math.Max(AtmospherePa - (vapourPa ?? 0), 0);
                free = liquid is { } share ? VolumeM3 * (1 - share) : free;
            }

            trapped = dry * free / (GasConstant * input.FillTemperatureK);
        }

        TrappedMol = trapped;
        GasMol = trapped + ChargedGasMol + input.GasEvolvedMol;
    }

    /// <summary>What the vapours press with in Pa when no gas is shut in, and the share of the vessel that is liquid; null where modified Raoult has no answer.</summary>
    private (double? PascalAbs, double? LiquidFraction) VapourAlone(VesselPoint point)
    {
        if (IsPlain && point is { Unknown.Count: 0, PastCritical.Count: 0 } && point.CondensedM3 < VolumeM3)
        {
            var (pascal, _, liquid) = ModifiedRaoult.PressureAt(point, 0);
            return (pascal, pascal is null ? null : liquid);
        }

        var vapour = ModifiedRaoult.Solve(point, 0).State;
        return (vapour.PressurePaAbs, vapour.LiquidVolumeFraction);
    }

    // Carbon dioxide is weighed in as dry ice, 1562 kg/m³ (CRC Handbook, from memory), which leaves more room at closing than the liquid.
    private static double DryIceShrinkageM3(VesselPoint point)
    {
        var ice = 0.044009 / 1562;
        return Shrinkage(point.Mixing) + Shrinkage(point.Apart);

        double Shrinkage(VolatilePart[] parts)
        {
            double sum = 0;
            foreach (var part in parts)
            {
                sum += part.Key is "124-38-9" ? part.Mol * Math.Max(part.M3PerMol - ice, 0) : 0;
            }

            return sum;
        }
    }
}
