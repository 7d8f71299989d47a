using System.Text.Json.Nodes;
using PreApproval.Hazards.Substances;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Catalogue;

/// <summary>Addresses of the catalogue's pages.</summary>
public static class CatalogueLinks
{
    /// <summary>The page of a substance by its key.</summary>
    public static string Of(string key) => $"/catalogue/{Uri.EscapeDataString(key)}";

    /// <summary>The page of a structure.</summary>
    public static string OfStructure(string smiles) => $"/catalogue/structure?smiles={Uri.EscapeDataString(smiles)}";

    /// <summary>The page of what a reference in a document names; a search for it where it states values of its own; null: nobody knows it.</summary>
    public static string? Of(JsonNode? reference)
    {
        if (reference is not JsonObject)
        {
            return null;
        }

        string cas = DocumentText.Text(reference, "cas");
        string name = DocumentText.Text(reference, "name");
        Substance? known = null;
        bool found = cas.Length > 0 ? Catalog.Default.TryFindByCas(cas, out known) : name.Length > 0 && Catalog.Default.TryFindByName(name, out known);
        return found ? Of(known!.Key)
            : reference["properties"] is JsonObject && (name.Length > 0 || cas.Length > 0) ? $"/catalogue?query={Uri.EscapeDataString(name.Length > 0 ? name : cas)}"
            : null;
    }
}
