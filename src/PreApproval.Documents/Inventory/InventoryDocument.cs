using PreApproval.Audit;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Rules;

namespace PreApproval.Documents.Inventory;

/// <summary>An entry of a group's inventory as JSON: vessels and places with the members they have in a procedure document.</summary>
public static class InventoryDocument
{
    /// <summary>Strict: every fault with its path, or the entry.</summary>
    public static Result<InventoryContent, DocumentRefusal> Read(InventoryKind kind, ReadOnlyMemory<byte> utf8)
    {
        var faults = new FaultList();
        InventoryContent? content = JsonTreeReader.Read(utf8.Span, faults) is { } tree ? new StructureReader(faults).Inventory(kind, tree) : null;
        if (content is not null)
        {
            // Of two faults about one place the one of form explains the other.
            string[] seen = [.. faults.All.Select(fault => fault.Path)];
            foreach (Fault fault in InventoryRules.Check(content).Where(fault => !seen.Contains(fault.Path, StringComparer.Ordinal)))
            {
                faults.Invalid(fault.Path, fault.Message);
            }
        }

        return content is not null && faults.All.Count == 0
            ? content
            : new DocumentRefusal(faults.All.Min(fault => fault.Kind), [.. faults.All.Select(fault => new Fault(fault.Path, fault.Message))]);
    }

    /// <summary>A stored version, which is read by its form alone: a later program may judge values differently, and the version stays what it is.</summary>
    /// <exception cref="FormatException">The bytes are not one.</exception>
    public static InventoryContent Parse(InventoryKind kind, ReadOnlyMemory<byte> utf8)
    {
        var faults = new FaultList();
        return JsonTreeReader.Read(utf8.Span, faults) is { } tree && new StructureReader(faults).Inventory(kind, tree) is { } content && faults.All.Count == 0
            ? content
            : throw new FormatException($"A stored entry of the inventory can't be read: {faults.All[0].Path} {faults.All[0].Message}.");
    }

    /// <summary>In the canonical form of RFC 8785: reading it gives the same entry.</summary>
    public static byte[] Canonical(InventoryContent content) => CanonicalJson.Serialize(DocumentWriter.ToJson(content));
}
