using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// Vessels under vacuum: shapes that implode, Dewars without a guard, large glass, and liquids that boil at once when they are
/// pumped on. The energy of an implosion is the work of the atmosphere, p·V. Thresholds: docs/methods/cryogens-and-vacuum.md.
/// </summary>
public sealed class VacuumScreen : IScreen
{
    /// <summary>Flat-bottomed and conical glass above this is not evacuated, in m³ (0.1 L a caution below). Common practice, no source.</summary>
    private const double SmallM3 = 0.1e-3;

    /// <summary>From here an unsuitable shape is a danger, in m³ (1 L: 101 J). Common practice, no source.</summary>
    private const double LargeWeakM3 = 1e-3;

    /// <summary>From here even round glass needs a guard, in m³ (2 L: 203 J). Common practice, no source.</summary>
    private const double LargeRoundM3 = 2e-3;

    /// <summary>So far below a boiling point a liquid leaves an open flask only slowly, in K. Common practice, no source.</summary>
    private const double BoilsAnywayK = 10;

    /// <summary>From this vapour pressure a liquid that is pumped on boils and bumps, in Pa. Common practice, no source.</summary>
    private const double BoilsUnderPumpPa = 1e3;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => [.. Implosion(context), .. Dewars(context), .. Boiling(context)];

    private IEnumerable<Finding> Implosion(ScreeningContext context)
    {
        foreach (var group in context.Walk.ByVessel)
        {
            var vessel = group.Chosen(static state => UnderVacuum(state) || MayBeUnderVacuum(state));
            if (vessel.Length == 0)
            {
                continue;
            }

            var (state, id) = (vessel[0], vessel[0].Vessel.Id);
            // where one step states a vacuum, what another might be adds nothing
            var stated = vessel.Chosen(UnderVacuum);
            if (stated.Length == 0)
            {
                if (Implied(vessel) is { } implied)
                {
                    yield return implied;
                }

                continue;
            }

            var shape = GlassShape.Of(state.Vessel);
            if (!shape.IsGlass && !shape.IsPlastic)
            {
                continue;
            }

            var volume = state.Vessel.VolumeM3;
            var weak = shape is { TakesVacuum: false } or { IsPlastic: true, TakesVacuum: not true };
            var large = volume >= LargeRoundM3 && !shape.Guarded;
            if (!weak && !large)
            {
                continue;
            }

            var joule = volume * (AtmospherePa - stated.Min(PressurePa));
            var severity = !weak ? Severity.Caution
                : volume < SmallM3 || shape.IsPlastic ? Severity.Caution
                : volume >= LargeWeakM3 && !shape.Guarded ? Severity.Danger
                : Severity.Warning;
            var finding = new Finding
            {
                Code = "vessel.implosion",
                Hazard = Hazard.Pressure,
                Severity = severity,
                Steps = StepIds.Of(stated),
                Vessel = id,
                Statement = weak
                    ? $"“{id}” ({state.Vessel.Kind}) is evacuated{(volume is null ? "" : $" with {Findings.Litres(volume.Value)} inside")}: {(shape.IsPlastic ? "plastic collapses" : "flat and conical glass is weak under outside pressure and implodes")}{Energy(joule)}; use round-bottom or vacuum-rated glass."
                    : $"“{id}” of {Findings.Litres(volume!.Value)} is evacuated without coating or mesh{Energy(joule)}; guard it and put a shield before it.",
                Evidence = joule is { } energy
                    ? [Findings.Number("energy of an implosion", energy, "J", null, "work of the atmosphere, pressure difference times volume", Quality.Estimated, "prudent-practices", "common-practice")]
                    : [],
            };
            // smaller glass of the same kind clears only where the shape itself takes vacuum
            yield return context.IsTrial || weak
                ? finding
                : finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("vessel volume", $"/vessels/{state.VesselIndex.ToString(System.Globalization.CultureInfo.InvariantCulture)}/volume", (LargeRoundM3 * 1e6) - 1, "mL", null)) };
        }
    }

    private static string Energy(double? joule) => joule is { } energy ? $" with about {Wording.Figures(energy)} J" : "";

    private static bool UnderVacuum(StepState state) => state.Headspace is Headspace.Vacuum || Pumped(state) < AtmospherePa / 2;

    private static double PressurePa(StepState state) => Math.Min(state.HeadspacePaAbs, Pumped(state) ?? AtmospherePa);

    /// <summary>Stated pressure of a concentration or distillation, in Pa.</summary>
    private static double? Pumped(StepState state) => state.Step.Action is StepAction.Concentrate or StepAction.Distil ? state.Step.PressurePaAbs : null;

    /// <summary>A concentration of unstated pressure that takes away what does not boil at its temperature: on a rotary evaporator more often than not. A stream of gas is another way.</summary>
    private static bool MayBeUnderVacuum(StepState state) =>
        state.Step is { Action: StepAction.Concentrate, PressurePaAbs: null, Headspace: null } && LosesWhatDoesNotBoil(state);

    private static bool LosesWhatDoesNotBoil(StepState state) => state.Evaporated.Any(content => content.Substance.Known?.BoilingPointK?.Value > state.TemperatureK + BoilsAnywayK);

    private static Finding? Implied(StepState[] states)
    {
        var vessel = states[0].Vessel;
        return GlassShape.Of(vessel) is { IsGlass: true, TakesVacuum: false, HasNeck: true }
            ? new Finding
            {
                Code = "vessel.implosion-if-evacuated",
                Hazard = Hazard.Pressure,
                Severity = vessel.VolumeM3 < SmallM3 ? Severity.Notice : Severity.Caution,
                Steps = StepIds.Of(states),
                Vessel = vessel.Id,
                Statement = $"“{vessel.Id}” ({vessel.Kind}) is concentrated at {Wording.Celsius(states[0].TemperatureK)}, below the boiling point of what goes, and no pressure is stated: on a rotary evaporator flat and conical glass implodes{Energy(vessel.VolumeM3 * AtmospherePa)}; state the pressure, or use a round-bottom flask.",
                Evidence = vessel.VolumeM3 is { } volume
                    ? [Findings.Number("energy of an implosion", volume * AtmospherePa, "J", null, "work of the atmosphere, pressure difference times volume; full vacuum", Quality.Assumed, "prudent-practices", "common-practice")]
                    : [],
            }
            : null;
    }

    private static IEnumerable<Finding> Dewars(ScreeningContext context) =>
        context.Walk.ByVessel
            .Where(static group => GlassShape.Of(group.First().Vessel) is { IsDewar: true, IsGlass: true, Guarded: false })
            .Select(static group => new Finding
            {
                Code = "vessel.dewar-unguarded",
                Hazard = Hazard.Pressure,
                Severity = Severity.Caution,
                Steps = [.. group.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = group[0].Vessel.Id,
                Statement = $"“{group[0].Vessel.Id}” is a Dewar of which no coating, mesh or metal shell is stated: its evacuated walls can implode; guard it and wear a face shield.",
                Evidence = [Findings.Number("pressure on the walls", AtmospherePa / 1e5, "bar", null, "atmosphere against the evacuated jacket", Quality.Assumed, "prudent-practices")],
            });

    /// <summary>A liquid that boils at the pressure of the pump is drawn over, or bumps; a frozen one does not.</summary>
    private IEnumerable<Finding> Boiling(ScreeningContext context)
    {
        foreach (var state in context.Walk.States.Where(static state => state.Step.Action == StepAction.Evacuate))
        {
            var pressure = LiquidVapour.IdealPa(state.Contents, state.TemperatureK, frozenCounts: false);
            var pumped = Math.Max(state.Step.PressurePaAbs ?? 0, BoilsUnderPumpPa);
            if (!(pressure > pumped))
            {
                continue;
            }

            var hot = pressure > AtmospherePa / 2;
            var finding = new Finding
            {
                Code = "vessel.evacuated-boiling",
                Hazard = Hazard.Temperature,
                Severity = hot ? Severity.Warning : Severity.Caution,
                Steps = [state.Step.Id],
                Vessel = state.Vessel.Id,
                Materials = Findings.Ids(state.Contents.Where(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid, Involatile: false })),
                Statement = $"Step {state.Step.Id} pumps on “{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)}, where its liquids have {Wording.Figures(pressure / 100)} mbar: they boil at once{(hot ? ", close to their boiling point, and bump over" : "")}; cool or freeze first.",
                Evidence = [Findings.Number("vapour pressure of the liquids", pressure / 1e5, "bar", pumped / 1e5, "ideal mixture (Raoult)", Quality.Estimated, "common-practice")],
            };
            yield return context.IsTrial || state.TemperatureStep is not { } setBy
                ? finding
                : finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("set temperature", Findings.Step(setBy, "temperature"), Math.Floor(Wording.InCelsius(LiquidVapour.BelowPressureK(state.Contents, state.TemperatureK, pumped))), "°C", null)) };
        }
    }
}
