using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// Water that freezes in a closed vessel takes a ninth more room or so; where that room is not there, the ice breaks the vessel whatever it is rated for. Every other solvent
/// of the catalogue shrinks. Grounds: docs/methods/cryogens-and-vacuum.md.
/// </summary>
public sealed class FreezingScreen : IScreen
{
    private const string Water = "7732-18-5";

    private const double MeltsK = 273.15;

    /// <summary>Enthalpy of fusion of ice in J/mol (CRC Handbook).</summary>
    private const double FusionJPerMol = 6010;

    /// <summary>Volume of ice at 0 °C over that of liquid water at 25 °C: 997.05 over 916.7 kg/m³ (IAPWS-95; IAPWS-06).</summary>
    private const double IceOverWater = 997.05 / 916.7;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var group in Grouping.Of(context.Walk.States, static state => RoomNeededM3(state) > state.Vessel.VolumeM3, static (one, other) => one.VesselIndex == other.VesselIndex && one.Closing!.StepIndex == other.Closing!.StepIndex))
        {
            var worst = group[0];
            for (var index = 1; index < group.Length; index++)
            {
                worst = RoomNeededM3(group[index]) > RoomNeededM3(worst) ? group[index] : worst;
            }

            var finding = Of(group, worst, RoomNeededM3(worst));
            yield return context.IsTrial ? finding : finding with
            {
                ClearedBy = Findings.Tried(this, finding, context, new Clearing("vessel volume", string.Create(CultureInfo.InvariantCulture, $"/vessels/{worst.VesselIndex}/volume"), Math.Ceiling(RoomNeededM3(worst) * 1e6), "mL", null)),
            };
        }
    }

    private static Finding Of(StepState[] states, StepState worst, double neededM3)
    {
        var volume = worst.Vessel.VolumeM3!.Value;
        return new Finding
        {
            Code = "pressure.freezing-fills",
            Hazard = Hazard.Pressure,
            Severity = Severity.Warning,
            Steps = StepIds.Of(states),
            Vessel = worst.Vessel.Id,
            Materials = MaterialIds.Of(worst.Contents.Where(static content => string.Equals(content.Substance.Key, Water, StringComparison.Ordinal))),
            Statement = $"At {Wording.Celsius(worst.TemperatureK)} the water in the closed “{worst.Vessel.Id}” freezes, and the contents then take {Findings.Litres(neededM3)} of its {Findings.Litres(volume)}: ice breaks a vessel whatever its rating.",
            Evidence = [Findings.Number("room that the frozen contents take", neededM3 * 1e6, "mL", volume * 1e6, "water that freezes at 1.088 times its volume at 25 °C, by ideal depression of the freezing point; solids not counted as dissolved", Quality.Estimated, "common-practice")],
        };
    }

    /// <summary>Room in m³ of contents with all their ice; 0 where nothing freezes or the vessel is open.</summary>
    private static double RoomNeededM3(StepState state)
    {
        if (!state.Sealed || state.TemperatureK >= MeltsK || state.Vessel.VolumeM3 is not { } volume)
        {
            return 0;
        }

        double water = 0;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            water += state.Contents[index] is { Mol: { } mol, Spent: false, Substance.Key: Water } ? mol : 0;
        }

        if (water <= 0 || Brines.StaysLiquid(state.Contents, state.TemperatureK))
        {
            return 0;
        }

        var condensed = FillLimits.CondensedM3(state.Contents).M3;
        var ofMol = FillLimits.CondensedM3([new Content(WaterOf(state), null, 1, null)]).M3 * (IceOverWater - 1);
        // most vessels have the room for all of it as ice: nothing more is asked of them
        if (condensed + (water * ofMol) <= volume)
        {
            return 0;
        }

        var frozen = water - StaysLiquid(state);
        return frozen <= 0 ? 0 : condensed + (frozen * ofMol);
    }

    private static PlanSubstance WaterOf(StepState state) => state.Contents.First(static content => string.Equals(content.Substance.Key, Water, StringComparison.Ordinal)).Substance;

    /// <summary>Mol of water that what is dissolved in it keeps liquid, were the solution ideal, each ion a particle: ln x = ΔH/R (1/Tm − 1/T).</summary>
    private static double StaysLiquid(StepState state)
    {
        var share = Math.Exp(FusionJPerMol / GasConstant * ((1 / MeltsK) - (1 / state.TemperatureK)));
        var layers = LiquidLayers.Of(state.Contents, state.TemperatureK);
        double dissolved = 0;
        foreach (var content in state.Contents)
        {
            var liquid = content.Substance.Known is { PhaseAt298K: Phase.Liquid };
            // what may stand beside the water, and what was charged as a solid, keeps nothing liquid
            dissolved += string.Equals(content.Substance.Key, Water, StringComparison.Ordinal) || (liquid ? layers.Mix is not true : content.MassFraction is not < 1) ? 0 : (content.Mol ?? 0) * (liquid ? 1 : Brines.Particles(content.Substance));
        }

        foreach (var layer in layers.Shares)
        {
            dissolved += string.Equals(layer.Substance.Key, Water, StringComparison.Ordinal) ? 0 : layer.AqueousMol;
        }

        return dissolved * share / (1 - share);
    }
}
