using System.Globalization;
using PreApproval.Documents.Planning;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Comparing;

/// <summary>Values of a document as text for people, and as keys that are equal where the values mean the same.</summary>
internal static class PlanWords
{
    public static string? Of(Quantity? quantity) => quantity is null ? null : $"{Number(quantity.Value)} {quantity.Definition.Symbol}";

    /// <summary>SI value to nine digits, with what it measures: 1 L and 1000 mL are the same.</summary>
    public static string? KeyOf(Quantity? quantity) => quantity is null ? null
        : string.Create(CultureInfo.InvariantCulture, $"{quantity.Definition.Dimension} {quantity.Definition.Basis} {quantity.Si:E8}");

    public static string Number(double number) => number.ToString("R", CultureInfo.InvariantCulture).Replace('-', '−');

    /// <summary>For instance <c>toluene (108-88-3)</c>.</summary>
    public static string? Of(SubstanceReference? reference)
    {
        if (reference is null)
        {
            return null;
        }

        string? name = reference.Name ?? (reference.Cas is { } number && Catalog.Default.TryFindByCas(number, out Substance? known) ? known.Identity.Name : null);
        return (name, reference.Cas) switch
        {
            ({ } word, { } cas) => $"{word} ({cas})",
            ({ } word, null) => word,
            (null, { } cas) => cas,
            (null, null) => reference.Smiles ?? "",
        };
    }

    /// <summary>A listed substance is the same by whatever it is named.</summary>
    public static string? KeyOf(SubstanceReference? reference) => reference is null ? null : SubstanceResolution.Resolve(reference, Catalog.Default).Key.ToUpperInvariant();

    public static string? Of(GasEntry? gas) => gas is null ? null : gas.Word ?? Of(gas.Substance);

    public static string? KeyOf(GasEntry? gas) => gas switch
    {
        null => null,
        { Word: { } word } => SubstanceResolution.Resolve(word, Catalog.Default).Key.ToUpperInvariant(),
        _ => KeyOf(gas.Substance),
    };

    /// <summary>The key of several parts whose order means nothing.</summary>
    public static string KeyOf(IEnumerable<string> parts) => string.Join('\n', parts.Order(StringComparer.Ordinal));
}
