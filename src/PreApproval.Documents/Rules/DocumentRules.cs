using System.Text;
using FluentValidation.Results;

namespace PreApproval.Documents.Rules;

/// <summary>What must hold of a document beyond its form.</summary>
internal static class DocumentRules
{
    private static readonly ProcedureDocumentValidator Validator = new();

    /// <summary>All broken rules, each with its JSON Pointer. Placeholders of unreadable parts break no rule.</summary>
    public static IReadOnlyList<Fault> Check(ProcedureDocument document) =>
        Faults(Validator.Validate(document));

    /// <summary>What a validator found, with JSON Pointers.</summary>
    public static IReadOnlyList<Fault> Faults(ValidationResult result) =>
        [.. result.Errors.Select(failure => new Fault(PointerOf(failure), failure.ErrorMessage))];

    /// <summary><c>Steps[2].Temperature.Value</c> becomes <c>/steps/2/temperature/value</c>: members are named alike.</summary>
    private static string PointerOf(ValidationFailure failure)
    {
        var pointer = new StringBuilder();
        foreach (string part in failure.PropertyName.Split(['.', '[', ']'], StringSplitOptions.RemoveEmptyEntries))
        {
            pointer.Append('/').Append(char.ToLowerInvariant(part[0])).Append(part.AsSpan(1));
        }

        return pointer.ToString();
    }
}
