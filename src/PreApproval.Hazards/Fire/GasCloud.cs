using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// Flammable gas that a step makes in the open, declared or not, against the air standing in a hood and its exhaust, and against the room on a bench.
/// Docs: docs/methods/release.md.
/// </summary>
internal static class GasCloud
{
    /// <summary>Volume of gas in m³ below which nothing is said (100 mL). Common practice, no source.</summary>
    private const double WorthNamingM3 = 0.1e-3;

    /// <summary>Pairs of families whose encounter makes a gas that burns; spares every other scene the search for encounters.</summary>
    private static readonly FrozenDictionary<string, string[]> Gassing = EncounterTable.All
        .Where(static row => row.Gases.Any(static share => OpenGas.Known(share.Name) is { } gas && Burns(gas)))
        .GroupBy(static row => row.A, StringComparer.Ordinal)
        .ToFrozenDictionary(static group => group.Key, static group => group.Select(static row => row.B).ToArray(), StringComparer.Ordinal);

    public static IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var state in context.Walk.States.Where(static state => !state.Sealed && state.Contents.Count > 0))
        {
            foreach (var (gas, mol) in Made(state, context))
            {
                if (gas.LowerFlammableLimit?.Governing is { } limit && ReleaseLaw.VapourM3(mol) >= WorthNamingM3)
                {
                    yield return Of(state, gas, mol, limit, context);
                }
            }
        }
    }

    private static IEnumerable<(Substance Gas, double Mol)> Made(StepState state, ScreeningContext context) =>
        state.GasMade.Count == 0 && (state.Step.Materials.Count == 0 || state.Contents.Count < 2 || !MayGas(state)) ? [] : Gases(state, context);

    private static IEnumerable<(Substance Gas, double Mol)> Gases(StepState state, ScreeningContext context)
    {
        var declared = state.GasMade.Where(static made => made is { Mol: > 0, Gas.Known: not null }).Select(static made => (Gas: made.Gas.Known!, Mol: made.Mol!.Value));
        // one partner loses its gas only once, whoever it meets
        var undeclared = state.Step.Materials.Count == 0 || state.Contents.Count < 2 || !MayGas(state)
            ? []
            // what has reacted away in an earlier step gives no more
            : context.Happenings.Where(happening => ReferenceEquals(happening.State, state)).Select(static happening => happening.Meeting)
                .Where(static meeting => meeting is { Encounter.Gas: not null, CountedEquivalents: > 0 })
                .SelectMany(static meeting => meeting.Encounter.Gases.Select(share => (Gas: share.Name, Partner: meeting.Gasser, Mol: meeting.CountedEquivalents!.Value * share.MolPerEquivalent, Meeting: meeting, share.MolPerEquivalent)))
                .GroupBy(static made => (made.Gas, made.Partner))
                .Select(static group => group.MaxBy(static made => made.Mol))
                .Select(static made => (Gas: OpenGas.Known(made.Gas), made.Mol, made.Meeting, made.MolPerEquivalent))
                .Where(static made => made.Gas is not null)
                .Select(made => Beside(made.Gas!, made.Mol, made.Meeting, made.MolPerEquivalent, state));
        return declared.Select(static made => (made.Gas, made.Mol, Declared: true, Besides: false))
            .Concat(undeclared.Select(static made => (made.Gas, made.Mol, Declared: false, made.Besides)))
            .Where(static made => Burns(made.Gas))
            .GroupBy(static made => made.Gas.Key, StringComparer.Ordinal)
            .OrderBy(static group => group.Key, StringComparer.Ordinal)
            .Select(static group => (group.First().Gas, Math.Max(Total(group.Where(static made => made.Declared)), Total(group.Where(static made => !made.Declared && !made.Besides))) + Total(group.Where(static made => made.Besides))));

        static double Total(IEnumerable<(Substance Gas, double Mol, bool Declared, bool Besides)> made) => made.Select(static one => one.Mol).Order().Sum();
    }

    /// <summary>Gas of a partner that no declared reaction of the same gas uses up comes besides the declared, as far as the other partner is left.</summary>
    private static (Substance Gas, double Mol, bool Besides) Beside(Substance gas, double mol, Meeting meeting, double molPerEquivalent, StepState state)
    {
        var declared = state.GasMade.FirstOrDefault(made => made is { Mol: > 0, Gas.Known: { } known } && string.Equals(known.Key, gas.Key, StringComparison.Ordinal));
        return declared is null || BesideDeclared.IsTheSame(meeting, BesideDeclared.UsedFor(declared.Gas, state))
            ? (gas, mol, false)
            : (gas, Math.Min(mol, BesideDeclared.Left(meeting, state) * molPerEquivalent), true);
    }

    private static bool Burns(Substance gas) => BurningMaterials.Of(new PlanSubstance(gas.Key, gas.Identity.Name, gas)) == Burning.Gas;

    private static bool MayGas(StepState state)
    {
        foreach (var content in state.Contents)
        {
            var families = FamilyTable.Default.Of(content.Substance, content.MassFraction);
            for (var index = 0; index < families.Count && !content.Spent; index++)
            {
                if (Gassing.TryGetValue(families[index], out var partners) && HoldsAny(state, partners))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static bool HoldsAny(StepState state, string[] families)
    {
        for (var at = 0; at < state.Contents.Count; at++)
        {
            var content = state.Contents[at];
            var own = FamilyTable.Default.Of(content.Substance, content.MassFraction);
            for (var index = 0; index < own.Count && !content.Spent; index++)
            {
                if (families.Contains(own[index], StringComparer.Ordinal))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static Finding Of(StepState state, Substance gas, double mol, Sourced<double> limit, ScreeningContext context)
    {
        var volume = ReleaseLaw.VapourM3(mol);
        var still = ReleaseLaw.FractionIn(FireThresholds.StillHoodM3, volume) / limit.Value;
        var flow = context.Plan.Place?.AirFlowM3PerS is { } stated and > 0 ? stated : FireThresholds.DefaultHoodFlowM3PerS;
        var hood = context.Plan.Place is { IsHood: true };
        double? drawn = hood && state.Step.OverS is > 0 and var seconds ? volume / seconds / flow / limit.Value : null;
        // over a stated time a hood that runs carries it off; where no hood is stated nothing does
        var share = drawn ?? still;
        var air = hood ? "in the air standing in a hood" : $"in {Wording.Text(FireThresholds.StillHoodM3)} m³ of still air, for no hood is stated";
        var sources = References.Full(["crowl-louvar", .. limit.Sources]);
        return new Finding
        {
            Code = "fire.gas-cloud",
            Hazard = Hazard.Fire,
            Severity = ReleaseSpread.Of(share),
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            About = gas.Key,
            Statement = $"Step {state.Step.Id} gives off about {ShareWords.Volume(volume)} of {gas.Identity.Name}, which burns: {ShareWords.Volume(ReleaseLaw.VolumeAtLimitM3(volume, limit.Value))} of air brought to the lower limit, {ShareWords.Percent(still)} of that limit {air}{(drawn is { } part ? $" and {ShareWords.Percent(part)} in its exhaust over the time of the step" : state.Step.OverS is > 0 ? "" : "; no time is stated over which it comes")}.",
            Evidence =
            [
                Line($"{gas.Identity.Name} given off", volume * 1000, "L", null, "stoichiometry, ideal gas at 25 °C", sources, Quality.Estimated),
                Line($"share of the lower limit {(hood ? "in the air standing in a hood" : "in the nearest air")}", still, "fraction", drawn is null ? ReleaseSpread.StepOf(still) : null, "evenly mixed, no ventilation", sources, limit.Quality),
                .. drawn is { } over ? [Line("share of the lower limit in the exhaust", over, "fraction", ReleaseSpread.StepOf(over), "steady flow over the time of the step", sources, limit.Quality)] : Array.Empty<Evidence>(),
            ],
        };
    }

    private static Evidence Line(string name, double value, string unit, double? limit, string model, IReadOnlyList<string> sources, Quality quality) =>
        new() { Name = name, Value = value, Unit = unit, Limit = limit, Model = model, Sources = sources, Quality = quality };
}
