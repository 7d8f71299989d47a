using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Planning;

/// <summary>
/// Finds what a document names: by CAS number, then by name or synonym, then by any spelling of its structure. What nobody
/// knows is kept under its own words and with its structure, for the engine to report what it lacks.
/// </summary>
public static class SubstanceResolution
{
    /// <summary>Marks the group's own values in the sources of a finding.</summary>
    public const string OwnValueSource = "value given in the procedure document";

    /// <summary>Never fails: an unknown substance has no <see cref="PlanSubstance.Known"/>.</summary>
    public static PlanSubstance Resolve(SubstanceReference reference, Catalog catalog)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(catalog);
        Substance? known = Find(reference, catalog);
        // by whatever it was named, a listed substance is the same content of a vessel
        string key = known?.Key ?? reference.Cas ?? reference.Name ?? reference.Smiles ?? "";
        if (reference.Properties is { } properties)
        {
            known = OwnSubstance.Complete(known, reference, properties);
        }

        return new PlanSubstance(key, reference.Name ?? known?.Identity.Name ?? key, known, reference.Smiles);
    }

    /// <summary>A gas or any other substance named by one word or CAS number.</summary>
    public static PlanSubstance Resolve(string word, Catalog catalog)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        Substance? known = catalog.TryFindByCas(word, out Substance? byCas) ? byCas
            : catalog.TryFindByName(word, out Substance? byName) ? byName
            : null;
        return new PlanSubstance(known?.Key ?? word, known?.Identity.Name ?? word, known);
    }

    /// <summary>
    /// The other substance that the name means, when CAS number and name contradict each other; else null. A name that nobody
    /// lists contradicts nothing, and a hydrate may go by the name of what it is a hydrate of.
    /// </summary>
    public static Substance? NamedOtherwise(SubstanceReference reference, Catalog catalog)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(catalog);
        return reference is { Cas: { } cas, Name: { } name }
            && catalog.TryFindByCas(cas, out Substance? byCas)
            && catalog.TryFindByName(name, out Substance? byName)
            && !string.Equals(byCas.Key, byName.Key, StringComparison.Ordinal)
            && !IsHydrateOf(byCas, byName) && !IsHydrateOf(byName, byCas)
                ? byName
                : null;
    }

    private static bool IsHydrateOf(Substance hydrate, Substance dry) =>
        hydrate.Identity.Name.StartsWith(dry.Identity.Name, StringComparison.OrdinalIgnoreCase)
        && hydrate.Identity.Name.EndsWith("hydrate", StringComparison.OrdinalIgnoreCase);

    private static Substance? Find(SubstanceReference reference, Catalog catalog)
    {
        // A CAS number that the catalogue lacks is a statement: the name beside it must not bring in another substance.
        if (reference.Cas is { } cas)
        {
            return catalog.TryFindByCas(cas, out Substance? byCas) ? byCas : null;
        }

        if (reference.Name is { } name && catalog.TryFindByName(name, out Substance? byName))
        {
            return byName;
        }

        return reference.Smiles is { } smiles && catalog.TryFindBySmiles(smiles, out Substance? bySmiles) ? bySmiles : null;
    }
}
