using System.Globalization;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Substances;

/// <summary>A substance of the group's own list in one of its versions.</summary>
/// <param name="Id">Its identifier in the list.</param>
/// <param name="Version">Counts up with each change, from 1.</param>
/// <param name="Substance">What that version says.</param>
public sealed record ListedGroupSubstance(Guid Id, int Version, GroupSubstance Substance);

/// <summary>
/// Copies the values of a group's own substances into a document that names them, so that it stands by itself. A reference that
/// states <c>properties</c> of its own is left as it is. Found by CAS number; else by name or synonym; else by SMILES as listed.
/// </summary>
public static class GroupSubstanceUse
{
    /// <summary>The same instance where nothing is copied.</summary>
    public static ProcedureDocument Complete(ProcedureDocument document, IReadOnlyList<ListedGroupSubstance> own)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(own);
        if (own.Count == 0)
        {
            return document;
        }

        bool copied = false;
        ProcedureDocument completed = document with
        {
            Materials = [.. document.Materials.Select(material => material with
            {
                Substance = Fill(material.Substance),
                Solution = material.Solution is { } solution ? solution with { Solvent = Fill(solution.Solvent) } : null,
                Mixture = material.Mixture is { } parts ? [.. parts.Select(part => part with { Substance = Fill(part.Substance) })] : null,
            })],
            Steps = [.. document.Steps.Select(step => step with { Headspace = Gas(step.Headspace), Gas = Gas(step.Gas) })],
            Reactions = document.Reactions is { } reactions
                ? [.. reactions.Select(reaction => reaction with
                {
                    Produces = reaction.Produces is { } produces ? [.. produces.Select(production => production with { Substance = Fill(production.Substance) })] : null,
                })]
                : null,
        };
        return copied ? completed : document;

        GasEntry? Gas(GasEntry? gas) => gas is { Substance: { } substance } ? gas with { Substance = Fill(substance) } : gas;

        SubstanceReference? Fill(SubstanceReference? reference)
        {
            if (reference is null or { Properties: not null } || Find(reference, own) is not { } found)
            {
                return reference;
            }

            copied = true;
            return reference with
            {
                Cas = reference.Cas ?? found.Substance.Cas,
                Smiles = reference.Smiles ?? found.Substance.Smiles,
                Properties = WithOrigin(found),
            };
        }
    }

    /// <summary>The substance of the list that a reference names, or null.</summary>
    public static ListedGroupSubstance? Find(SubstanceReference reference, IReadOnlyList<ListedGroupSubstance> own)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(own);
        return reference switch
        {
            // A CAS number is a statement: the name beside it must not bring in another substance.
            { Cas: { } cas } => own.FirstOrDefault(listed => string.Equals(listed.Substance.Cas, cas, StringComparison.Ordinal)),
            { Name: { } name } => own.FirstOrDefault(listed => listed.Substance.Names.Any(known => NameSpelling.Same(known, name)))
                ?? (Catalog.Default.TryFindByName(name, out Substance? substance) ? OfCatalogue(substance, own) : null),
            { Smiles: { } smiles } => own.FirstOrDefault(listed => string.Equals(listed.Substance.Smiles, smiles.Trim(), StringComparison.Ordinal))
                ?? (StructureKey.TryOf(smiles.Trim(), out StructureKey? asked, out _)
                    ? own.FirstOrDefault(listed => listed.Substance.Smiles is { } known && StructureKey.TryOf(known, out StructureKey? key, out _) && key == asked)
                    : null),
            _ => null,
        };
    }

    /// <summary>The group's own values of a substance that the catalogue has, or null.</summary>
    public static ListedGroupSubstance? OfCatalogue(Substance substance, IReadOnlyList<ListedGroupSubstance> own)
    {
        ArgumentNullException.ThrowIfNull(substance);
        ArgumentNullException.ThrowIfNull(own);
        return own.FirstOrDefault(listed => listed.Substance.Cas is { } cas
            ? string.Equals(substance.Identity.Cas, cas, StringComparison.Ordinal)
            : listed.Substance.Names.Any(name => Catalog.Default.TryFindByName(name, out Substance? named) && ReferenceEquals(named, substance)));
    }

    /// <summary>What the catalogue and the list together say: as a document that names the substance is read.</summary>
    public static Substance Together(ListedGroupSubstance listed, Substance? catalogue)
    {
        ArgumentNullException.ThrowIfNull(listed);
        var reference = new SubstanceReference
        {
            Cas = catalogue is null ? listed.Substance.Cas : catalogue.Identity.Cas,
            Name = catalogue is null ? listed.Substance.Name : catalogue.Identity.Name,
            Smiles = listed.Substance.Smiles,
            Properties = WithOrigin(listed),
        };
        return Planning.SubstanceResolution.Resolve(reference, Catalog.Default).Known
            ?? throw new InvalidOperationException("Stated properties make a substance known.");
    }

    private static SubstanceProperties WithOrigin(ListedGroupSubstance listed)
    {
        string origin = string.Create(CultureInfo.InvariantCulture, $"the group's own list, version {listed.Version}: ");
        SubstanceProperties properties = listed.Substance.Properties;
        return properties with
        {
            Source = origin + properties.Source,
            Sources = properties.Sources?.ToDictionary(pair => pair.Key, pair => origin + pair.Value, StringComparer.Ordinal),
        };
    }
}
