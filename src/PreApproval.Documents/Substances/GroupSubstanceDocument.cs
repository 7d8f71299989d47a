using PreApproval.Audit;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Rules;

namespace PreApproval.Documents.Substances;

/// <summary>A substance of a group's own list as JSON: the members of a substance in a procedure document, with a list of synonyms.</summary>
public static class GroupSubstanceDocument
{
    private static readonly GroupSubstanceValidator Validator = new();

    /// <summary>Strict: every fault with its path, or the substance.</summary>
    public static Result<GroupSubstance, DocumentRefusal> Read(ReadOnlyMemory<byte> utf8)
    {
        var faults = new FaultList();
        GroupSubstance? substance = JsonTreeReader.Read(utf8.Span, faults) is { } tree ? new StructureReader(faults).GroupSubstance(tree) : null;
        if (substance is not null)
        {
            // Of two faults about one place the one of form explains the other.
            string[] seen = [.. faults.All.Select(fault => fault.Path)];
            foreach (Fault fault in DocumentRules.Faults(Validator.Validate(substance)).Where(fault => !seen.Contains(fault.Path, StringComparer.Ordinal)))
            {
                faults.Invalid(fault.Path, fault.Message);
            }
        }

        return substance is not null && faults.All.Count == 0
            ? substance
            : new DocumentRefusal(faults.All.Min(fault => fault.Kind), [.. faults.All.Select(fault => new Fault(fault.Path, fault.Message))]);
    }

    /// <summary>A stored version, which is read by its form alone: a later program may judge values differently, and the version stays what it is.</summary>
    /// <exception cref="FormatException">The bytes are not one.</exception>
    public static GroupSubstance Parse(ReadOnlyMemory<byte> utf8)
    {
        var faults = new FaultList();
        return JsonTreeReader.Read(utf8.Span, faults) is { } tree && new StructureReader(faults).GroupSubstance(tree) is { } substance && faults.All.Count == 0
            ? substance
            : throw new FormatException($"A stored substance can't be read: {faults.All[0].Path} {faults.All[0].Message}.");
    }

    /// <summary>In the canonical form of RFC 8785: reading it gives the same substance.</summary>
    public static byte[] Canonical(GroupSubstance substance) => CanonicalJson.Serialize(DocumentWriter.ToJson(substance));
}
