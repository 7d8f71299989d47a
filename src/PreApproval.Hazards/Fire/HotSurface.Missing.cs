using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <content>Surfaces that are not stated or cannot be, and autoignition temperatures that are not on file.</content>
internal static partial class HotSurface
{
    /// <summary>The surface in K that a heated step states although its contents are hotter; null when it does not.</summary>
    private static double? ColderThanContents(StepState state, Plan plan) =>
        state is { Heated: true, SurfaceStated: false, TemperatureStep: { } setBy } ? plan.Steps[setBy].SurfaceTemperatureK : null;

    private static Finding CannotBe(StepState[] states, double surfaceK) => new()
    {
        Code = "fire.surface-below-contents",
        Hazard = Hazard.Fire,
        Severity = Severity.Caution,
        Steps = StepIds.Of(states),
        Vessel = states[0].Vessel.Id,
        Statement = $"The hottest surface under “{states[0].Vessel.Id}” is stated at {Wording.Celsius(surfaceK)}, colder than the {Wording.Celsius(states[0].TemperatureK)} that it heats its contents to. That cannot be, so it counts as not stated: check both.",
        Evidence =
        [
            new Evidence
            {
                Name = "hottest surface as stated",
                Value = Wording.InCelsius(surfaceK),
                Unit = "°C",
                Limit = Wording.InCelsius(states[0].TemperatureK),
                Model = "heat flows from the hotter to the colder",
                Sources = References.Full(["common-practice"]),
                Quality = Quality.Assumed,
            },
        ],
    };

    /// <summary>True where the hottest part of the heat source is not stated and may be at <see cref="ElementK"/>.</summary>
    private static bool OverAnElement(StepState state) => state is { SurfaceStated: false, HeatSource: HeatSource.Hotplate or HeatSource.Mantle or HeatSource.SandBath };

    private static Finding? SurfaceNotStated(StepState[] states, ScreeningContext context)
    {
        var open = Array.Find(states, state => OverAnElement(state)
            && Lowest(state) is { } lowest && LimitK(lowest.Autoignition.Governing.Value, context.Policy.HotSurfaceShare) < ElementK);
        if (open is null)
        {
            return null;
        }

        var (content, autoignition) = Lowest(open)!.Value;
        var source = ElementWords(open);
        return new Finding
        {
            Code = "fire.surface-not-stated",
            Hazard = Hazard.Fire,
            Severity = autoignition.Governing.Value <= IgnitesEasilyK ? Severity.Warning : Severity.Caution,
            Steps = StepIds.Of(states),
            Vessel = open.Vessel.Id,
            Materials = content.MaterialId is { } id ? [id] : [],
            Statement = $"The surface of the {source} under “{open.Vessel.Id}” is not stated, and its hottest part can be far above the set temperature; {content.Substance.Name} must stay off anything above {Wording.Celsius(LimitK(autoignition.Governing.Value, context.Policy.HotSurfaceShare))}.",
        };
    }

    private static string ElementWords(StepState state) => state.HeatSource is HeatSource.Mantle ? "mantle" : state.HeatSource is HeatSource.SandBath ? "sand bath" : "hotplate";

    private static Finding? AutoignitionMissing(StepState[] states, Policy policy)
    {
        var lacking = states.Where(static state => state.Contents.Any(Lacks)).SelectMany(static state => state.Contents.Select(content => (State: state, Content: content)))
            .Where(static pair => Lacks(pair.Content) && VapourPa(pair.Content, pair.State) >= WorthCountingPa)
            .ToArray();
        if (lacking.Length == 0)
        {
            return null;
        }

        // what is not stated counts as what it may be, here as where the value is on file
        var hottest = lacking.MaxBy(static pair => OverAnElement(pair.State) ? Math.Max(ElementK, SurfaceK(pair.State)) : SurfaceK(pair.State)).State;
        var hot = OverAnElement(hottest) ? Math.Max(ElementK, SurfaceK(hottest)) : SurfaceK(hottest);
        var undone = hot > LimitK(LowestListedK, policy.HotSurfaceShare);
        var names = lacking.Select(static pair => pair.Content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
        return new Finding
        {
            Code = "data.autoignition",
            Hazard = Hazard.Data,
            Severity = undone ? Severity.Caution : Severity.Notice,
            Steps = StepIds.Of(lacking, static one => one.State),
            Vessel = lacking[0].State.Vessel.Id,
            Materials = [.. lacking.Select(static pair => pair.Content.MaterialId).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = $"No autoignition temperature is on file for {Wording.List(names)}, {(OverAnElement(hottest) ? $"heated over a {ElementWords(hottest)} whose surface is not stated and may be at {Wording.Celsius(hot)}" : $"heated with a surface at {Wording.Celsius(hot)}")}.",
            LeavesCheckUndone = undone,
        };
    }

    /// <summary>
    /// Partial pressure in Pa by Raoult's law with Trouton's rule, ln(p/atm) = 10.5·(1 − Tb/T); infinite where the boiling
    /// point or an amount is not known. Good to a factor of two, which is enough to tell a solvent from a solute.
    /// </summary>
    private static double VapourPa(Content content, StepState state)
    {
        if (content.Mol is not { } mol || content.Substance.Known?.BoilingPointK is not { Value: var boilingK })
        {
            return double.PositiveInfinity;
        }

        var liquid = state.Contents.Where(static other => other.Substance.Known is { PhaseAt298K: Phase.Liquid }).Sum(static other => other.Mol ?? 0);
        return mol / liquid * AtmospherePa * Math.Exp(10.5 * (1 - (boilingK / state.WorstTemperatureK)));
    }

    /// <summary>A volatile that burns, or may burn, without an autoignition temperature. Solutes without vapour force nothing.</summary>
    private static bool Lacks(Content content) =>
        content.Substance.Known is { AutoignitionK: null, Involatile: false, PhaseAt298K: Phase.Liquid } known
        && known.NonFlammable is not { Value: true }
        && (known.FlashPointK is not null || known.NonFlammable is { Value: false } || BurningMaterials.IsOrganic(known));
}
