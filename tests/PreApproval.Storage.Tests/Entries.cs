using System.Text;
using System.Text.Json;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>Entries of the inventory, and the calls that write them. Invented.</summary>
internal static class Entries
{
    public static ReadOnlyMemory<byte> Vessel(string label, double bar = 10, string? outOfService = null)
    {
        Dictionary<string, object> vessel = new(StringComparer.Ordinal)
        {
            ["label"] = label,
            ["kind"] = "thick-walled glass tube",
            ["volume"] = new { value = 35, unit = "mL" },
            ["rating"] = new { value = bar, unit = "bar(g)" },
            ["ratingEvidence"] = "engraved on the tube (invented)",
        };
        if (outOfService is not null)
        {
            vessel["outOfService"] = outOfService;
        }

        return JsonSerializer.SerializeToUtf8Bytes(vessel);
    }

    public static ReadOnlyMemory<byte> Place(string name) => JsonSerializer.SerializeToUtf8Bytes(new { name, kind = "hood" });

    public static ReadOnlyMemory<byte> Agent(Guid place, string agent) => JsonSerializer.SerializeToUtf8Bytes(new { place, agent, size = "1 × 6 kg" });

    public static async Task<Result<InventoryView, Refusal>> AddAsync(this TestWorld world, Guid person, InventoryKind kind, ReadOnlyMemory<byte> entry)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(handler => handler.AddAsync(actor, kind, entry, CancellationToken.None));
    }

    public static async Task<Result<InventoryView, Refusal>> ChangeAsync(this TestWorld world, Guid person, InventoryKind kind, Guid id, int version, ReadOnlyMemory<byte> entry)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(handler => handler.ChangeAsync(actor, kind, id, version, entry, CancellationToken.None));
    }

    public static async Task<Result<InventoryView, Refusal>> RetireAsync(this TestWorld world, Guid person, InventoryKind kind, Guid id, int version, string reason)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(handler => handler.RetireAsync(actor, kind, id, version, reason, CancellationToken.None));
    }

    public static async Task<Result<VesselImport, Refusal>> ImportAsync(this TestWorld world, Guid person, string file, bool preview = false, string? plan = null)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryTable, Result<VesselImport, Refusal>>(table => table.ImportAsync(actor, Encoding.UTF8.GetBytes(file), preview, plan, CancellationToken.None));
    }
}
