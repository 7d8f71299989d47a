using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// Explosive substances that a step leaves without solvent: filtered, dried, ground, stirred dry, evaporated or stored, given off or led in as a gas. The mass decides, the theoretical yield of a product included.
/// Limits are university rules, no standard; no shield lowers a finding here.
/// </summary>
internal static class IsolatedSolids
{
    /// <summary>Mass in kg from which an isolated energetic substance goes to review (0.1 g).</summary>
    internal const double ReviewKg = 0.1e-3;

    /// <summary>Mass in kg above which a primary explosive is a danger (0.1 g, weighed; the last digits of a conversion do not count). Common practice, no source.</summary>
    private const double PrimaryKg = ReviewKg * (1 + 1e-9);

    /// <summary>Mass in kg from which it goes to a committee (1 g).</summary>
    internal const double CommitteeKg = 1e-3;

    /// <summary>Mass in kg that is never isolated (5 g).</summary>
    internal const double NeverKg = 5e-3;

    /// <summary>Mass in kg of an azide or diazo compound with (C + O)/N of 3 or more that may be kept (20 g).</summary>
    internal const double StableAzideKg = 20e-3;

    /// <summary>Share of the mass from which what is left counts as undiluted. Common practice, no source.</summary>
    private const double UndilutedShare = 0.5;

    /// <summary>Share of the mass from which a step that dries dries a wet solid, and below which a solution over a drying agent. Common practice, no source.</summary>
    private const double WetShare = 0.2;

    public static IEnumerable<Finding> Find(ScreeningContext context, EnergeticContents energetic)
    {
        foreach (var (substance, profile, materials) in energetic.All)
        {
            if (!profile.IsExplosive)
            {
                continue;
            }

            var isolated = false;
            foreach (var group in Isolated(substance, context, energetic).GroupBy(static one => one.Vessel, StringComparer.Ordinal))
            {
                var cases = group.Select(one => (Case: one, Severity: Judge(profile, one))).Where(static one => one.Severity is not null).ToArray();
                if (cases.Length > 0)
                {
                    isolated = true;
                    var (worst, severity) = cases.OrderBy(static one => one.Severity).ThenByDescending(static one => one.Case.Kg ?? double.MaxValue).First();
                    yield return Describe(substance, profile, materials, worst, severity!.Value, [.. cases.Select(static one => one.Case.Step).Distinct(StringComparer.Ordinal)]);
                }
            }

            if (!isolated && ExplosiveLiquids.Of(substance, profile, materials, context, energetic) is { } made)
            {
                yield return made;
            }
        }
    }

    private static IEnumerable<Case> Isolated(PlanSubstance substance, ScreeningContext context, EnergeticContents energetic)
    {
        var met = false;
        foreach (var state in context.Walk.States)
        {
            var contents = state.Contents.Where(content => string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal)).ToArray();
            met |= contents.Length > 0;
            foreach (var (asGas, mol, declared) in AsGas(state, substance, context))
            {
                met = true;
                yield return new Case(state.Step.Id, state.Vessel.Id, asGas, mol * (substance.Known?.Identity.MolarMassKgPerMol ?? energetic.Of(substance)?.MolarMassKgPerMol), declared, false, false);
            }

            if (Array.Exists(contents, content => energetic.IsThere(content, state)) && How(state, substance, energetic) is { } how)
            {
                yield return new Case(state.Step.Id, state.Vessel.Id, how, contents.Aggregate((double?)0, (sum, content) => sum + energetic.MassKg(content)), contents.All(static content => content.MaterialId is null), state.Step.Action == StepAction.Filter, state.Step.Action == StepAction.Grind, state.Step.Action == StepAction.Grind && HasLiquid(state.Contents, substance));
            }
        }

        // a product that no reaction declares: all of the limiting material may become it
        if (!met && context.Plan.Materials.Any(material => material.Role == Role.Product && AmountConversion.Parts(material.Composition).Any(part => string.Equals(part.Substance.Key, substance.Key, StringComparison.Ordinal)))
            && context.Plan.Steps.LastOrDefault(static step => step.Action != StepAction.Heat && Word(step.Action) is not null) is { } last)
        {
            yield return new Case(last.Id, last.Vessel, Word(last.Action)!, LimitingMol(context) * energetic.Of(substance)?.MolarMassKgPerMol, true, last.Action == StepAction.Filter, last.Action == StepAction.Grind);
        }
    }

    /// <summary>A gas has no solvent: what a declared reaction gives off, and what the step leads in.</summary>
    private static IEnumerable<(string How, double? Mol, bool Declared)> AsGas(StepState state, PlanSubstance substance, ScreeningContext context) =>
        state.GasMade.Where(gas => gas.Mol is null or > 0 && string.Equals(gas.Gas.Key, substance.Key, StringComparison.Ordinal)).Select(static gas => ("given off as a gas", gas.Mol, true))
            .Concat(LedInGas.Of(state, context).Where(gas => gas.Mol is null or > 0 && gas.Gas is not null && string.Equals(gas.Gas.Key, substance.Known?.Key, StringComparison.Ordinal)).Select(static gas => ("led in as a gas", gas.Mol, false)));

    private static double? LimitingMol(ScreeningContext context) =>
        context.Plan.Scale is Amount.Mol scale ? scale.Moles
        : context.Walk.States.SelectMany(static state => state.Contents).Where(content => content.MaterialId is not null && string.Equals(content.MaterialId, context.Plan.LimitingMaterial, StringComparison.Ordinal)).Max(static content => content.Mol);

    private static string? How(StepState state, PlanSubstance substance, EnergeticContents energetic) => state.Step.Action switch
    {
        StepAction.Filter => substance.Known is { PhaseAt298K: not Phase.Solid } ? null : Word(StepAction.Filter),
        // what is rubbed dries at the rim and on the pestle: a liquid over it is no control
        StepAction.Grind => Word(StepAction.Grind),
        // a share of 1 beside a liquid is one that nobody knows
        StepAction.Dry => !IsCake(state, substance) && HasLiquid(state.Contents, substance) && Share(state, substance, energetic) is not (>= WetShare and < 1) && !LosesItsLiquid(state, substance) ? null : Word(StepAction.Dry),
        StepAction.Stir or StepAction.Heat => substance.Known is { PhaseAt298K: not Phase.Solid } || (!IsCake(state, substance) && HasLiquid(state.Contents, substance)) || !IsUndiluted(state, substance, energetic) ? null : Word(state.Step.Action),
        StepAction.Concentrate => state.LeftDry || IsUndiluted(state with { Contents = state.ContentsAfter }, substance, energetic) ? Word(StepAction.Concentrate) : null,
        StepAction.Store => IsUndiluted(state, substance, energetic) ? Word(StepAction.Store) : null,
        _ => null,
    };

    /// <summary>True for a solid that is dried by heat, or from water, and not over a drying agent: however much liquid there is, none is left in the end.</summary>
    internal static bool LosesItsLiquid(StepState state, PlanSubstance substance) =>
        state.Step.Materials.Count == 0 && substance.Known is null or { PhaseAt298K: Phase.Solid }
        && (state.Heated || state.Contents.All(content => content.Substance.Known is not { PhaseAt298K: Phase.Liquid } || content.Substance.Key is SolutionVapour.Water || string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal)));

    /// <summary>Filtered off before, and no word of where the filtrate went: for the solid it is gone.</summary>
    private static bool IsCake(StepState state, PlanSubstance substance) => state.FilteredOff && (substance.Known is null or { PhaseAt298K: Phase.Solid });

    internal static string? Word(StepAction action) => action switch
    {
        StepAction.Filter => "filtered off",
        StepAction.Grind => "ground",
        StepAction.Dry => "dried",
        StepAction.Stir => "stirred dry",
        StepAction.Heat => "heated dry",
        StepAction.Concentrate => "left without solvent",
        StepAction.Store => "stored undiluted",
        _ => null,
    };

    internal static bool HasLiquid(IReadOnlyList<Content> contents, PlanSubstance substance) =>
        contents.Any(content => content is { Mol: null or > 0, Substance.Known.PhaseAt298K: Phase.Liquid } && !string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal));

    private static bool IsUndiluted(StepState state, PlanSubstance substance, EnergeticContents energetic) => Share(state, substance, energetic) is >= UndilutedShare;

    /// <summary>Share of the mass of the contents, 1 where nobody knows how much there is of it, null where it is spent or not there.</summary>
    private static double? Share(StepState state, PlanSubstance substance, EnergeticContents energetic)
    {
        var cake = IsCake(state, substance);
        double own = 0;
        double other = 0;
        var present = false;
        foreach (var content in state.Contents)
        {
            if (cake && content.Substance.Known is { PhaseAt298K: not Phase.Solid })
            {
                continue;
            }

            var mass = energetic.MassKg(content);
            if (!string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal))
            {
                other += mass ?? 0;
                continue;
            }

            if (mass is null && !content.Spent)
            {
                // nobody knows how much solvent would be enough
                return 1;
            }

            present |= !content.Spent;
            own += mass ?? 0;
        }

        return present ? own > 0 ? own / (own + other) : other > 0 ? 0 : 1 : null;
    }

    /// <summary>Of a primary explosive a tenth of a gram is what takes fingers. Else the limit that is passed decides; below the first one, or a small azide by the rule, nothing. An unknown mass is a warning.</summary>
    internal static Severity? ByMass(EnergeticProfile profile, double? mass) => mass is not { } kg ? Severity.Warning : profile.IsPrimary ? kg > PrimaryKg ? Severity.Danger : Severity.Warning : profile.GoverningRatio switch
    {
        // never isolated at all
        < 1 => kg > 0 ? Severity.Danger : (Severity?)null,
        < 3 => kg > NeverKg ? Severity.Danger : kg >= CommitteeKg ? Severity.Warning : kg >= ReviewKg ? Severity.Caution : null,
        >= 3 => kg > StableAzideKg ? Severity.Danger : kg > NeverKg ? Severity.Warning : kg >= CommitteeKg ? Severity.Caution : null,
        _ => kg >= CommitteeKg ? Severity.Danger : kg >= ReviewKg ? Severity.Warning : null,
    };

    private static Severity? Judge(EnergeticProfile profile, Case one)
    {
        var severity = ByMass(profile, one.Kg);
        if (one.Kg is not { } kg)
        {
            return severity;
        }

        if (one.Ground)
        {
            // friction needs no mass
            return severity is Severity.Danger ? severity : Severity.Warning;
        }

        // still wet with solvent on the filter: one step less, if no later step dries it
        return severity is { } found && one.Wet && kg < NeverKg ? found + 1 > Severity.Notice ? Severity.Notice : found + 1 : severity;
    }

    private static Finding Describe(PlanSubstance substance, EnergeticProfile profile, IReadOnlyList<string> materials, Case worst, Severity severity, string[] steps)
    {
        var limit = Limit(profile, worst.Kg);
        var amount = worst.Kg is { } kg ? $"{Wording.Figures(kg * 1000)} g of {substance.Name}{(worst.Theoretical ? " (theoretical yield)" : "")}" : $"{Wording.Capital(substance.Name)} in an amount that is not known";
        return new Finding
        {
            Code = "energetic.isolated",
            Hazard = Hazard.Energetic,
            Severity = severity,
            Steps = steps,
            Vessel = worst.Vessel,
            Materials = materials,
            Statement = $"{amount} {(worst.Kg is null ? "is" : "are")} {worst.How} in step {worst.Step}; it holds {profile.GroupWords}{(profile.FromName ? profile.BasisWords : "")} and can be set off by a blow, friction or heat{limit.Words}.{(worst.UnderLiquid ? " The liquid over it does not make grinding safe: it dries at the rim." : "")} Keep it in solution, or make less; a shield does not lift this limit.",
            Evidence = worst.Kg is { } mass
                ? [Findings.Number("mass isolated", mass * 1000, "g", limit.Kg * 1000, worst.Theoretical ? "theoretical yield" : "amount in the vessel", Quality.Assumed, [.. profile.Sources, profile.GoverningRatio is null ? "energetic-practice" : "azide-rule", "energetic-practice"])]
                : [],
            LeavesCheckUndone = worst.Kg is null,
        };
    }

    internal static (double Kg, string Words) Limit(EnergeticProfile profile, double? kg)
    {
        var (first, second, third) = profile.GoverningRatio switch
        {
            < 1 => (0, 0, CommitteeKg),
            < 3 => (ReviewKg, CommitteeKg, NeverKg),
            >= 3 => (CommitteeKg, NeverKg, StableAzideKg),
            _ => (ReviewKg, CommitteeKg, NeverKg),
        };
        if (profile.IsPrimary)
        {
            return (kg > PrimaryKg ? ReviewKg : 0, $"; as a primary explosive it is a warning at any mass and a danger above {Wording.Figures(ReviewKg * 1000)} g");
        }

        var passed = kg is null ? first : kg > third ? third : kg >= second ? second : first;
        return (passed, profile.GoverningRatio is { } ratio
            ? $"; with (C + O)/N {Wording.Figures(ratio)} {(ratio < 1 ? "it is never isolated" : $"the limit passed is {Wording.Figures(passed * 1000)} g")}"
            : $"; the limit passed is {Wording.Figures(passed * 1000)} g");
    }

    /// <summary>One way in which a substance is isolated.</summary>
    private sealed record Case(string Step, string Vessel, string How, double? Kg, bool Theoretical, bool Wet, bool Ground, bool UnderLiquid = false);
}
