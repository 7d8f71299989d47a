using System.Globalization;
using FluentValidation;
using FluentValidation.Results;

namespace PreApproval.Documents.Rules;

/// <summary>Identifiers of materials, vessels and steps are unique in their list.</summary>
internal static class UniqueIds
{
    public static void Check(ProcedureDocument document, ValidationContext<ProcedureDocument> context)
    {
        Check(nameof(document.Materials), document.Materials.Select(material => material.Id), context);
        Check(nameof(document.Vessels), document.Vessels.Select(vessel => vessel.Id), context);
        Check(nameof(document.Steps), document.Steps.Select(step => step.Id), context);
    }

    private static void Check(string list, IEnumerable<string> ids, ValidationContext<ProcedureDocument> context)
    {
        Dictionary<string, int> first = new(StringComparer.Ordinal);
        foreach ((int index, string id) in ids.Index())
        {
            if (id.Length > 0 && !first.TryAdd(id, index))
            {
                context.AddFailure(new ValidationFailure(
                    string.Create(CultureInfo.InvariantCulture, $"{list}[{index}].Id"),
                    string.Create(CultureInfo.InvariantCulture, $"\"{id}\" is already the id of entry {first[id]} of this list; give each its own")));
            }
        }
    }
}
