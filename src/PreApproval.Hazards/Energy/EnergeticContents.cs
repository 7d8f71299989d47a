using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>The energetic part of what shares a vessel.</summary>
/// <param name="JPerKg">Heat of decomposition over the whole mass in J/kg.</param>
/// <param name="OnsetK">Lowest usual onset in K.</param>
/// <param name="Worst">The substance with that onset.</param>
/// <param name="MassKnown">False: some mass is not known, so the pure substance counts.</param>
/// <param name="WithoutFigures">Groups of the same substances without a heat or an onset on file: with them it is more heat, or from a lower temperature.</param>
/// <param name="Materials">What brought them.</param>
/// <param name="Sources">Keys of the references.</param>
internal sealed record EnergeticMixture(double JPerKg, double OnsetK, PlanSubstance Worst, bool MassKnown, IReadOnlyList<string> WithoutFigures, IReadOnlyList<string> Materials, IReadOnlyList<string> Sources);

/// <summary>The energetic substances of a plan, each looked up once.</summary>
internal sealed class EnergeticContents
{
    private readonly Dictionary<string, (PlanSubstance Substance, EnergeticProfile Profile, IReadOnlyList<string> Materials)> byKey = new(StringComparer.Ordinal);
    private readonly ScreeningContext context;

    private EnergeticContents(ScreeningContext context) => this.context = context;

    public bool IsEmpty => byKey.Count == 0;

    /// <summary>Every energetic substance, by key.</summary>
    public IEnumerable<(PlanSubstance Substance, EnergeticProfile Profile, IReadOnlyList<string> Materials)> All =>
        byKey.OrderBy(static pair => pair.Key, StringComparer.Ordinal).Select(static pair => pair.Value);

    public static EnergeticContents Of(ScreeningContext context)
    {
        var contents = new EnergeticContents(context);
        foreach (var material in context.Plan.Materials)
        {
            var parts = AmountConversion.Parts(material.Composition);
            for (var index = 0; index < parts.Count; index++)
            {
                contents.Note(parts[index].Substance, material.Id);
            }
        }

        foreach (var made in context.Plan.Reactions.SelectMany(static reaction => reaction.Produces))
        {
            contents.Note(made.Substance, null);
        }

        return contents;
    }

    public EnergeticProfile? Of(PlanSubstance substance) => byKey.TryGetValue(substance.Key, out var entry) ? entry.Profile : null;

    /// <summary>Mass in kg of a content; null when it cannot be had.</summary>
    public double? MassKg(Content content) =>
        content.Mol * (content.Substance.Known?.Identity.MolarMassKgPerMol ?? Of(content.Substance)?.MolarMassKgPerMol)
        ?? (content.MaterialId is { } id && context.Plan.MaterialOf(id) is { Composition: Composition.Pure, Amount: Amount.Mass mass } ? mass.Kg : null);

    /// <summary>True for an energetic content that is neither quenched nor used up, and no peroxide beside a sulfite or thiosulfate.</summary>
    public bool IsThere(Content content, StepState state) =>
        !content.Spent && content.Mol is null or > 0 && Of(content.Substance) is { } profile && !((profile.IsPeroxide || FamilyTable.Default.Of(content.Substance, content.MassFraction).Any(static family => Meeting.Reducible.Contains(family, StringComparer.Ordinal))) && HasReductant(state));

    private static bool HasReductant(StepState state) =>
        state.Contents.Any(static content => FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains(Meeting.Reductants, StringComparer.Ordinal));

    /// <summary>The energetic part of the contents at a step, before or after what it declares, whichever begins colder; null when there is none with a figure.</summary>
    public EnergeticMixture? In(StepState state) =>
        state.Reactions.Count == 0 ? In(state, state.Contents)
        : (In(state, state.Contents), In(state, state.Remaining)) switch
        {
            ({ } before, { } after) => after.OnsetK < before.OnsetK || (after.OnsetK <= before.OnsetK && after.JPerKg > before.JPerKg) ? after : before,
            (var before, var after) => before ?? after,
        };

    private EnergeticMixture? In(StepState state, IReadOnlyList<Content> contents)
    {
        double joule = 0;
        double kg = 0;
        double neat = 0;
        var known = true;
        (PlanSubstance Substance, double OnsetK)? worst = null;
        List<string>? materials = null;
        List<string>? without = null;
        List<string>? sources = null;
        foreach (var content in contents)
        {
            // a cake that was filtered off has nothing to thin it but the other solids
            if (state.FilteredOff && content.Substance.Known is { PhaseAt298K: not Phase.Solid } && Of(content.Substance) is null)
            {
                continue;
            }

            var mass = MassKg(content);
            known &= mass is not null;
            kg += mass ?? 0;
            if (Of(content.Substance) is not { HighJPerKg: { } heat, OnsetK: { } onset } profile || !IsThere(content, state))
            {
                continue;
            }

            joule += heat * (mass ?? 0);
            neat = Math.Max(neat, heat);
            worst = worst is { } before && (before.OnsetK < onset || (before.OnsetK <= onset && string.CompareOrdinal(before.Substance.Key, content.Substance.Key) <= 0)) ? worst : (content.Substance, onset);
            if (content.MaterialId is { } id)
            {
                (materials ??= []).Add(id);
            }

            (without ??= []).AddRange(profile.WithoutFigures);
            (sources ??= []).AddRange(profile.Sources);
        }

        return worst is not { } found ? null : new EnergeticMixture(
            known && kg > 0 ? joule / kg : neat,
            found.OnsetK,
            found.Substance,
            known,
            [.. (without ?? []).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            [.. (materials ?? []).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            [.. (sources ?? []).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)]);
    }

    private void Note(PlanSubstance substance, string? material)
    {
        if (byKey.TryGetValue(substance.Key, out var entry))
        {
            if (material is not null && !entry.Materials.Contains(material, StringComparer.Ordinal))
            {
                byKey[substance.Key] = entry with { Materials = [.. entry.Materials.Append(material).Order(StringComparer.Ordinal)] };
            }
        }
        else if (EnergeticProfile.Of(substance) is { } profile)
        {
            byKey[substance.Key] = (substance, profile, material is null ? [] : [material]);
        }
    }
}
