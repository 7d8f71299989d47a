using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// Flammable gas led over air or opened into it without purging, and oxygen over what burns. Limits on oxygen after NFPA 69. Rules: docs/methods/inerting.md.
/// </summary>
internal static class Inerting
{
    private const string Hydrogen = "1333-74-0";

    /// <summary>Rise of the pressure in an explosion of hydrocarbon vapour in air in a closed vessel, as a multiple (about 8; Crowl and Louvar, from memory).</summary>
    private const double ExplosionTimes = 8;

    /// <summary>More than the air that any vessel is closed with, in Pa absolute. Common practice, no source.</summary>
    private const double MuchAirPa = 1.5e5;

    // oxygen and dinitrogen oxide
    private static readonly string[] Supporters = ["7782-44-7", "10024-97-2"];

    public static IEnumerable<Finding> Find(ScreeningContext context)
    {
        var before = new Dictionary<string, StepState>(StringComparer.Ordinal);
        var enriched = new List<StepState>();
        foreach (var state in context.Walk.States)
        {
            var last = before.GetValueOrDefault(state.Vessel.Id);
            if (OverAir(state, last) is { } over)
            {
                yield return over;
            }

            if (IntoAir(state, last) is { } into)
            {
                yield return into;
            }

            if (AirPressedOnto(state) is { } pressed)
            {
                yield return pressed;
            }

            if (Supporter(state) is not null && BurningMaterials.Of(state.Contents).Count > 0)
            {
                enriched.Add(state);
            }

            before[state.Vessel.Id] = state;
        }

        foreach (var group in enriched.GroupBy(static state => state.Vessel.Id, StringComparer.Ordinal))
        {
            yield return Enriched([.. group]);
        }
    }

    /// <summary>True for oxygen and dinitrogen oxide, in which things burn faster than in air.</summary>
    internal static bool Supports(PlanSubstance? gas) => gas is not null && Supporters.Contains(gas.Key, StringComparer.Ordinal);

    /// <summary>True for air, which a step names as its gas.</summary>
    internal static bool IsAir(PlanSubstance? gas) => string.Equals(gas?.Name, Reactivity.EncounterTable.Air, StringComparison.OrdinalIgnoreCase);

    /// <summary>Oxygen fraction left when gas is pressed onto air: 0.21 p0/p.</summary>
    /// <param name="pressurePaAbs">Pressure afterwards in Pa absolute.</param>
    public static double OxygenAfterPressing(double pressurePaAbs) => Combustion.OxygenInAir * Math.Min(AtmospherePa / pressurePaAbs, 1);

    private static Finding? OverAir(StepState state, StepState? last)
    {
        if (FlammableGas(state) is not { } gas || last?.Headspace is not (null or Headspace.Air) || (last is not null && FlammableGas(last) is not null))
        {
            return null;
        }

        var limiting = LimitingOxygen.Of(gas.Known!);
        var pressed = state.Step.Action == StepAction.Pressurise ? state.Step.PressurePaAbs : null;
        double? left = pressed is { } pressure ? OxygenAfterPressing(pressure) : null;
        var explosive = left is { } oxygen && !(oxygen < limiting?.Value);
        // a noble metal lights hydrogen and air without any spark
        var catalysts = string.Equals(gas.Key, Hydrogen, StringComparison.Ordinal)
            ? Confinement.Findings.Ids(state.Contents.Where(static content => !content.Spent && Reactivity.FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains("hydrogenation catalysts", StringComparer.Ordinal)))
            : [];
        return new Finding
        {
            Code = "fire.gas-over-air",
            Hazard = Hazard.Fire,
            Severity = catalysts.Length > 0 ? Severity.Danger : explosive ? Severity.Warning : Severity.Caution,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = catalysts,
            Statement = $"{Wording.Capital(gas.Name)} is led into “{state.Vessel.Id}” over air{(catalysts.Length > 0 ? " and a catalyst that lights it" : "")}: the gas passes through the range in which it explodes{(left is { } rest ? $", and about {Wording.Figures(rest * 100)} % oxygen stays" : "")}. Evacuate and fill with inert gas, or purge, first{(limiting is null ? "; its limiting oxygen is not on file" : $", to at most {Percent(LimitingOxygen.Allowed(limiting.Value, monitored: false))} oxygen")}.",
            Evidence = limiting is null ? [] : Evidence(gas, limiting, left),
        };
    }

    /// <summary>Air pressed onto what burns, slowly or not: where the vapour lies within its limits, what it then does in a closed vessel bursts it.</summary>
    private static Finding? AirPressedOnto(StepState state)
    {
        if (state.Step.Action != StepAction.Pressurise || state.Closing is not { PressurePaAbs: > MuchAirPa } closing || !IsAir(state.Step.Gas))
        {
            return null;
        }

        var burning = state.Contents.Where(static content => content is { Spent: false, Mol: null or > 0 } && BurningMaterials.Of(content.Substance) is Burning.Liquid or Burning.Gas).OrderBy(static content => content.Substance.Key, StringComparer.Ordinal).ToArray();
        if (burning.Length == 0)
        {
            return null;
        }

        var names = Wording.List(burning.Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
        return new Finding
        {
            Code = "fire.air-pressed-on-fuel",
            Hazard = Hazard.Fire,
            Severity = Severity.Warning,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = MaterialIds.Of(burning),
            Statement = $"Air is pressed onto {names} in “{state.Vessel.Id}” to {Wording.BarGauge(closing.PressurePaAbs - AtmospherePa)}: on heating and letting down the vapour passes through the range in which it explodes, which makes up to about {Wording.Text(ExplosionTimes)} times the pressure, {Wording.Figures(ExplosionTimes * closing.PressurePaAbs / 1e5)} bar here. Use oxygen thinned below the limiting oxygen with inert gas, or a vessel and a cell made for the explosion.",
            Evidence =
            [
                new Evidence
                {
                    Name = "pressure of an explosion of the vapour",
                    Value = ExplosionTimes * closing.PressurePaAbs / 1e5,
                    Unit = "bar",
                    Model = $"{Wording.Text(ExplosionTimes)} times the pressure before it: closed vessel, hydrocarbon vapour in air",
                    Sources = References.Full(["crowl-louvar"]),
                    Quality = Quality.Assumed,
                },
            ],
        };
    }

    private static Finding? IntoAir(StepState state, StepState? last)
    {
        if (state.Step.Action is not (StepAction.Open or StepAction.Transfer or StepAction.Filter or StepAction.Concentrate) || last is null || FlammableHeadspace(last) is not { } gas || FlammableHeadspace(state) is not null && state.Step.Action == StepAction.Open || state.Headspace is Headspace.Gas { Substance: var now } && BurningMaterials.Of(now) is null)
        {
            return null;
        }

        return new Finding
        {
            Code = "fire.gas-opened-to-air",
            Hazard = Hazard.Fire,
            Severity = Severity.Caution,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = $"“{state.Vessel.Id}” is opened to air with {gas.Name} still over the contents: purge with inert gas first; {(string.Equals(gas.Key, Hydrogen, StringComparison.Ordinal) ? "a catalyst that has taken up hydrogen lights it without a spark" : "with the air that comes in it burns or explodes at a spark")}.",
            Evidence = LimitingOxygen.Of(gas.Known!) is { } limiting ? Evidence(gas, limiting, null) : [],
        };
    }

    private static Finding Enriched(StepState[] states)
    {
        var state = states.MaxBy(static one => one.TemperatureK)!;
        var supporter = Supporter(state)!;
        var hot = Array.Exists(states, static one => one.Heated || one is { Sealed: true, Step.Action: StepAction.Pressurise });
        return new Finding
        {
            Code = "fire.oxygen-enriched",
            Hazard = Hazard.Fire,
            Severity = hot ? Severity.Warning : Severity.Caution,
            Steps = StepIds.Of(states),
            Vessel = state.Vessel.Id,
            Materials = MaterialIds.Of(state.Contents.Where(static content => !content.Spent && BurningMaterials.Of(content.Substance) is not null)),
            Statement = $"“{state.Vessel.Id}” holds what burns under {supporter.Name}: limits widen, less heat and less of a spark light it, and flash points, flammable limits and autoignition temperatures measured in air do not hold.",
        };
    }

    private static Evidence[] Evidence(PlanSubstance gas, Sourced<double> limiting, double? left)
    {
        Evidence Line(string name, double value, double? limit, string model, IReadOnlyList<string> sources, Quality quality) => new()
        {
            Name = name,
            Value = value,
            Unit = "fraction",
            Limit = limit,
            Model = model,
            Sources = References.Full(sources),
            Quality = quality,
        };
        return
        [
            Line($"limiting oxygen of {gas.Name} in nitrogen", limiting.Value, null, "published value, else oxygen burnt per mole times the lower limit", limiting.Sources, limiting.Quality),
            Line("oxygen allowed with a continuous monitor", LimitingOxygen.Allowed(limiting.Value, monitored: true), null, "2 vol% below the limiting oxygen; 60 % of it below 5 vol%", ["nfpa-69"], Quality.Assumed),
            Line("oxygen allowed without a monitor", LimitingOxygen.Allowed(limiting.Value, monitored: false), null, "60 % of the limiting oxygen", ["nfpa-69"], Quality.Assumed),
            .. left is { } rest ? [Line("oxygen left after pressing gas onto air", rest, limiting.Value, "air at one atmosphere diluted to the pressure", ["common-practice"], Quality.Estimated)] : Array.Empty<Evidence>(),
        ];
    }

    private static string Percent(double fraction) => $"{Wording.Figures(fraction * 100)} %";

    private static PlanSubstance? FlammableHeadspace(StepState state) =>
        state.Headspace is Headspace.Gas { Substance: var gas } && gas.Known is not null && BurningMaterials.Of(gas) == Burning.Gas ? gas : null;

    private static PlanSubstance? FlammableGas(StepState state)
    {
        var found = FlammableHeadspace(state);
        for (var index = 0; found is null && index < state.Contents.Count; index++)
        {
            if (IsFlammableGas(state.Contents[index]))
            {
                return state.Contents.Where(IsFlammableGas).Select(static content => content.Substance).MinBy(static substance => substance.Key, StringComparer.Ordinal);
            }
        }

        return found;
    }

    private static bool IsFlammableGas(Content content) =>
        content is { Spent: false, Substance.Known: not null, Mol: not 0 } && BurningMaterials.Of(content.Substance) == Burning.Gas && content.MassFraction is null or 1;

    private static PlanSubstance? Supporter(StepState state) =>
        state.Headspace is Headspace.Gas { Substance: var over } && Supports(over) ? over
        : Held(state);

    private static PlanSubstance? Held(StepState state)
    {
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (!state.Contents[index].Spent && Supports(state.Contents[index].Substance))
            {
                return state.Contents[index].Substance;
            }
        }

        return null;
    }
}
