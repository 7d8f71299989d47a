using System.Globalization;
using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// The heat of a dosed reaction against what a flask of this size gives off to its bath: U A ΔT with 150 W/(m² K), half of a sphere of the contents wetted, and a bath 20 K colder.
/// Method: docs/methods/runaway.md.
/// </summary>
internal static class DosingScreen
{
    /// <summary>Heat transfer of a stirred glass flask in W/(m² K), lower end of 150 to 250. Common practice, no source.</summary>
    internal const double TransferWPerM2K = 150;

    /// <summary>Contents less bath in K. Common practice, no source.</summary>
    internal const double BathDifferenceK = 20;

    /// <summary>Share of the surface that the bath wets. Common practice, no source.</summary>
    internal const double WettedShare = 0.5;

    /// <summary>Adiabatic rise in K below which dosing needs no look. Common practice, no source.</summary>
    private const double LeastRiseK = 20;

    /// <summary>The finding where the dosing outruns the cooling, or where the volume for that is not known; null where it does not, or nothing is dosed.</summary>
    public static Finding? Of(IScreen screen, StepState state, ReactionHeat heat, HeatBasis basis, ScreeningContext context)
    {
        if (state.Step.OverS is not > 0 || state.Step.Materials.Count == 0 || heat.AdiabaticRiseK < LeastRiseK || heat.HeatJ is not { } joule)
        {
            return null;
        }

        var over = state.Step.OverS.Value;
        var volume = state.Contents.Sum(Fire.OpenFlammables.VolumeM3);
        if (!(volume > 0))
        {
            return NoVolume(state);
        }

        var power = HeatBalance.DosingW(joule, over);
        var cooling = HeatBalance.CoolingW(TransferWPerM2K, WettedShare * HeatBalance.SphereSurfacePerVolume(volume) * volume, BathDifferenceK);
        if (power <= cooling)
        {
            return null;
        }

        var minutes = Math.Ceiling((joule / cooling / 60) + 1e-9);
        var finding = new Finding
        {
            Code = "heat.dosed-too-fast",
            Hazard = Hazard.Heat,
            Severity = Severity.Caution,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = [.. state.Step.Materials.Select(static use => use.MaterialId).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = $"Dosed over {Wording.Figures(over / 60)} min, step {state.Step.Id} gives about {Wording.Figures(power)} W{basis.Words}; {Findings.Litres(volume)} in a flask gives off about {Wording.Figures(cooling)} W to a bath {Wording.Text(BathDifferenceK)} K colder: dose over at least {minutes.ToString(CultureInfo.InvariantCulture)} min, or watch the temperature of the contents and stop when it rises.",
            Evidence =
            [
                Findings.Number("heat while dosing", power, "W", cooling, $"{basis.Model}, spread evenly over the addition", basis.Quality, [.. basis.Sources, "stoessel"]),
                Findings.Number("heat given off to the bath", cooling, "W", null, $"U A ΔT with {Wording.Text(TransferWPerM2K)} W/(m² K), half of a sphere of the contents, {Wording.Text(BathDifferenceK)} K", Quality.Assumed, "common-practice") with { Worse = WorseWhen.Lower },
            ],
        };
        return context.IsTrial
            ? finding
            : finding with { ClearedBy = Findings.Tried(screen, finding, context, new Clearing("time of addition", Findings.Step(state.Index, "over"), minutes, "min", null)) };
    }

    private static Finding NoVolume(StepState state) => new()
    {
        Code = "data.dosing-volume",
        Hazard = Hazard.Data,
        Severity = Severity.Notice,
        Steps = [state.Step.Id],
        Vessel = state.Vessel.Id,
        Statement = $"Step {state.Step.Id} doses what gives heat, but the volume of what “{state.Vessel.Id}” holds is not known: whether the bath keeps up is not computed.",
    };
}
