using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Planning;

/// <summary>Finds the solution or mixture that a document means by a substance.</summary>
public static class SolutionResolution
{
    /// <summary>
    /// The named solution; null for a substance. A CAS number of a pure solute means the solution only beside a name that says so
    /// (7647-01-0, "hydrochloric acid"); a substance with the group's own values is that substance.
    /// </summary>
    /// <param name="reference">What the document names.</param>
    /// <param name="asReagent">True where a bare name such as nitric acid or n-butyllithium means the bottle on the shelf.</param>
    public static NamedSolution? Find(SubstanceReference reference, bool asReagent)
    {
        ArgumentNullException.ThrowIfNull(reference);
        SolutionCatalog solutions = SolutionCatalog.Default;
        if (reference.Properties is not null)
        {
            return null;
        }

        if (reference.Cas is not { } cas)
        {
            return reference.Name is not { } name ? null
                : (asReagent ? solutions.TryFindInProcedure(name, out NamedSolution? meant) : solutions.TryFind(name, out meant)) ? meant
                : null;
        }

        NamedSolution? named = reference.Name is { } beside && solutions.TryFind(beside, out NamedSolution? found) ? found : null;
        return solutions.TryFindByCas(cas, out NamedSolution? byCas)
            ? string.Equals(named?.Cas, cas, StringComparison.Ordinal) ? named : byCas
            : named?.Solute?.Identity.Cas is { } solute && string.Equals(solute, cas, StringComparison.Ordinal) ? named : null;
    }

    /// <summary>
    /// The named solution that the form of a material makes of its substance (sodium hydride, <c>60 % in mineral oil</c>); null where the
    /// two together name none, or one of something else.
    /// </summary>
    /// <param name="reference">What the document names.</param>
    /// <param name="form">The form as typed.</param>
    /// <param name="catalog">Where the substance is looked up.</param>
    public static NamedSolution? FindByForm(SubstanceReference reference, string? form, Catalog catalog)
    {
        ArgumentNullException.ThrowIfNull(reference);
        return form is not null && form.Contains('%', StringComparison.Ordinal) && reference.Properties is null
            && SubstanceResolution.Resolve(reference, catalog).Known is { } known
            && SolutionCatalog.Default.TryFind($"{known.Identity.Name} {form}", out NamedSolution? named)
            && string.Equals(named.Solute?.Key, known.Key, StringComparison.Ordinal)
                ? named
                : null;
    }

    /// <summary>The solute of a solution whose strength the document states: what a name such as hydrochloric acid dissolves.</summary>
    public static PlanSubstance Solute(SubstanceReference reference, Catalog catalog) =>
        Find(reference, asReagent: false) is { } named && (named.Solute ?? named.Parts[0].Substance) is { } solute
            ? new PlanSubstance(solute.Key, solute.Identity.Name, solute)
            : SubstanceResolution.Resolve(reference, catalog);
}
