using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// An explosive liquid that a declared reaction makes and that no step isolates. A liquid needs no isolation: where no organic solvent holds it, it separates as an oil, and is then as dangerous as on the balance.
/// Water, mineral acids, alkali and salts do not dilute it.
/// </summary>
internal static class ExplosiveLiquids
{
    /// <summary>Heat in J/kg counted for one that has none on file (2 kJ/g, low for azides and nitrate esters). Common practice, no source.</summary>
    private const double UsualJPerKg = 2000e3;

    /// <summary>Share of its own heat from which it counts as undiluted. Common practice, no source.</summary>
    private const double UndilutedShare = 0.5;

    private static readonly string[] NoDiluents = ["water", "mineral acids", "concentrated sulfuric and superacids", "strong nitric acid and nitrating agents", "alkali hydroxides", "hydrogen peroxide at any strength"];

    /// <summary>The worst step that makes it; null where it is little or held in enough solvent.</summary>
    public static Finding? Of(PlanSubstance substance, EnergeticProfile profile, IReadOnlyList<string> materials, ScreeningContext context, EnergeticContents energetic)
    {
        var worst = context.Walk.States
            .Where(state => Makes(state, substance))
            .Select(state => Made.At(state, substance, profile, energetic))
            .OfType<Made>()
            .OrderBy(static made => made.Severity)
            .FirstOrDefault();
        if (worst is null)
        {
            return null;
        }

        var amount = worst.Kg is { } kg ? $"up to {Wording.Figures(kg * 1000)} g of {substance.Name}" : $"{substance.Name} in an amount that is not known";
        return new Finding
        {
            Code = "energetic.made-undiluted",
            Hazard = Hazard.Energetic,
            Severity = worst.Severity,
            Steps = [worst.State.Step.Id],
            Vessel = worst.State.Vessel.Id,
            Materials = materials,
            About = materials.Count == 0 ? substance.Key : null,
            Statement = $"Step {worst.State.Step.Id} makes {amount}, a liquid that holds {profile.GroupWords} and that a blow, friction or heat can set off{(worst.State.Sealed ? ", in a closed vessel" : "")}; "
                + $"with {Wording.Figures(worst.DiluentKg * 1000)} g of organic solvent beside it, it gives about {Wording.Text(Math.Round(worst.JPerKg / 1000))} J/g, isolated or not (water, mineral acids and salts do not dilute it). "
                + (worst.EnoughKg is { } enough ? $"Make it in at least {Wording.Figures(enough * 1000)} g of a solvent that dissolves it, or make less." : "State how much is made, and make it in a solvent that dissolves it."),
            Evidence = [Findings.Number("heat of decomposition in its organic phase", worst.JPerKg / 1000, "J/g", TransportScreens.SelfReactiveFromJPerG, profile.HighJPerKg is null ? "2 kJ/g for want of a figure, by its share of the mass of organic liquids" : "its groups, by its share of the mass of organic liquids", Quality.Assumed, [.. profile.Sources, "un-tests-criteria", "common-practice"])],
            LeavesCheckUndone = worst.Kg is null,
        };
    }

    private static bool Makes(StepState state, PlanSubstance substance) => state.Reactions.SelectMany(static reaction => reaction.Produces).Any(made =>
        string.Equals(made.Substance.Key, substance.Key, StringComparison.Ordinal)
        && (made.State ?? substance.Known?.PhaseAt298K) is Phase.Liquid && (substance.Known is null || substance.Known.PhaseAt298K is Phase.Liquid));

    private static bool Dilutes(Content content) =>
        content.Substance.Known is { PhaseAt298K: Phase.Liquid }
        && !FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(static family => NoDiluents.Contains(family, StringComparer.Ordinal));

    /// <summary>What a step has made.</summary>
    private sealed record Made(StepState State, double? Kg, double DiluentKg, double JPerKg, double? EnoughKg, Severity Severity)
    {
        public static Made? At(StepState state, PlanSubstance substance, EnergeticProfile profile, EnergeticContents energetic)
        {
            var own = state.Remaining.Where(content => string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal)).ToArray();
            if (!Array.Exists(own, content => energetic.IsThere(content, state)))
            {
                return null;
            }

            var kg = own.Aggregate((double?)0, (sum, content) => sum + energetic.MassKg(content));
            var heat = profile.HighJPerKg ?? UsualJPerKg;
            var diluent = state.Remaining.Where(content => !own.Contains(content) && Dilutes(content)).Sum(content => energetic.MassKg(content) ?? 0);
            var joulePerKg = kg is { } mass ? heat * mass / (mass + diluent) : heat;
            var steps = joulePerKg >= UndilutedShare * heat ? 0
                : joulePerKg >= TransportScreens.ExplosiveFromJPerG * 1000 ? 1
                : joulePerKg >= TransportScreens.SelfReactiveFromJPerG * 1000 ? 2
                : (int?)null;
            if (steps is null || IsolatedSolids.ByMass(profile, kg) is not { } isolated)
            {
                return null;
            }

            // shut in, it is one step graver
            var severity = (Severity)Math.Max((int)Severity.Danger, (int)isolated + steps.Value - (state.Sealed ? 1 : 0));
            return severity > Severity.Caution ? null : new Made(state, kg, diluent, joulePerKg, kg * ((heat / (TransportScreens.SelfReactiveFromJPerG * 1000)) - 1), severity);
        }
    }
}
