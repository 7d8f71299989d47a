using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Exposure;

/// <summary>
/// Monomers that peroxides can polymerise: with a phenolic inhibitor they keep only under air, without one for a day (R. J. Kelly, Chem. Health Saf. 1996). What the bottle holds is read from the
/// form of the material. Method: docs/methods/peroxides.md.
/// </summary>
public sealed class MonomerScreen : IScreen
{
    /// <summary>Hours an uninhibited monomer may stand.</summary>
    private const double UninhibitedHours = 24;

    private const double SecondsPerHour = 3600;

    private static readonly string[] Without = ["uninhibited", "no inhibitor", "without inhibitor", "inhibitor removed", "inhibitor-free", "destabilised", "freshly distilled"];

    private static readonly string[] With = ["inhibit", "stabilis", "stabiliz", "hydroquinone", "MEHQ", "BHT", "catechol"];

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var material in context.Plan.Materials)
        {
            if (Polymerising(material) is { } substance)
            {
                foreach (var finding in Of(material, substance, context))
                {
                    yield return finding;
                }
            }
        }
    }

    private static IEnumerable<Finding> Of(Material material, PlanSubstance substance, ScreeningContext context)
    {
        var inhibited = Inhibited(material.Form);
        var states = context.Walk.States.Where(state => state.Contents.Any(content => string.Equals(content.MaterialId, material.Id, StringComparison.Ordinal) && !content.Spent)).ToArray();
        if (inhibited != false && Array.Find(states, static state => state.Step.Action == StepAction.Store && IsInert(state.Headspace)) is { } airless)
        {
            yield return Finding("peroxide.inhibitor-without-air", Severity.Caution, material, airless,
                $"{Wording.Capital(substance.Name)} “{material.Id}” is stored in step {airless.Step.Id} under {GasName(airless.Headspace)}: its phenolic inhibitor works only with oxygen; store it under air, cold, and not longer than needed.");
        }

        if (Array.Find(states, state => inhibited == false && state.Step.Action == StepAction.Store && !(state.Step.DurationS <= UninhibitedHours * SecondsPerHour)) is { } kept)
        {
            yield return Finding("peroxide.uninhibited-kept", Severity.Warning, material, kept,
                $"{Wording.Capital(substance.Name)} “{material.Id}” without inhibitor is stored in step {kept.Step.Id} {(kept.Step.DurationS is { } time ? $"for {Wording.Figures(time / SecondsPerHour)} h" : "for a time that is not stated")}: use it within {Wording.Text(UninhibitedHours)} h or add inhibitor.") with
            {
                Evidence = [Findings.Number("time an uninhibited monomer may stand", UninhibitedHours, "h", null, "rule for peroxide formers that polymerise", Quality.Assumed, "kelly-1996") with { Worse = WorseWhen.Lower }],
            };
        }

        if (Array.Find(states, static state => state.Step.Action == StepAction.Distil) is { } distilled)
        {
            yield return Finding("peroxide.inhibitor-left-behind", Severity.Caution, material, distilled,
                $"Distilling {substance.Name} “{material.Id}” in step {distilled.Step.Id} leaves the inhibitor behind: keep some in the still, collect cold, and add inhibitor to what is not used the same day.");
        }
    }

    private static PlanSubstance? Polymerising(Material material)
    {
        var parts = AmountConversion.Parts(material.Composition);
        for (var index = 0; index < parts.Count; index++)
        {
            if (parts[index].Substance is { Known.Identity.Cas: { } cas } substance && PeroxideFormer.All.TryGetValue(cas, out var former) && former.Class == PeroxideClass.Polymerising)
            {
                return substance;
            }
        }

        return null;
    }

    /// <summary>What the form says of the inhibitor: true, false, or null when it says nothing.</summary>
    internal static bool? Inhibited(string? form) =>
        form is null ? null
        : Array.Exists(Without, word => form.Contains(word, StringComparison.OrdinalIgnoreCase)) ? false
        : Array.Exists(With, word => form.Contains(word, StringComparison.OrdinalIgnoreCase)) ? true
        : null;

    private static bool IsInert(Headspace headspace) =>
        headspace is Headspace.Vacuum || (headspace is Headspace.Gas gas && !string.Equals(gas.Substance.Key, StandardGases.Oxygen.Key, StringComparison.Ordinal));

    private static string GasName(Headspace headspace) => headspace switch
    {
        Headspace.Gas gas => gas.Substance.Name,
        Headspace.Vacuum => "vacuum",
        _ => "air",
    };

    private static Finding Finding(string code, Severity severity, Material material, StepState state, string statement) => new()
    {
        Code = code,
        Hazard = Hazard.Peroxide,
        Severity = severity,
        Steps = [state.Step.Id],
        Vessel = state.Vessel.Id,
        Materials = [material.Id],
        Statement = statement,
    };
}
