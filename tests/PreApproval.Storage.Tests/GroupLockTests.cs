using System.Text.Json;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>The lock of what screenings of a group use also covers its own substances; the stamp of its inventory changes with each change.</summary>
public sealed class GroupLockTests(PostgresServer server)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task AddSubstance_WhileASubmissionHoldsTheGroup_WaitsForItsEnd()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await using NpgsqlConnection holder = await OpenAsync(world);
        await using NpgsqlTransaction holding = await holder.BeginTransactionAsync(Cancellation);
        await TestWorld.ExecuteAsync(holder, $"SELECT FROM group_policy WHERE group_id = '{world.GroupId}' FOR SHARE");
        Task<Result<GroupSubstanceView, Refusal>> adding = AddAsync(world, world.Rosa, "invented ester");
        await world.LocksAsync(1, Cancellation, adding);
        Assert.False(adding.IsCompleted);
        await holding.CommitAsync(Cancellation);
        Assert.True((await adding).IsOk);
    }

    [Fact]
    public async Task AddSubstance_TheLastOneTwiceAtOnce_OneIsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await TestWorld.ExecuteAsync(
            world.Database.Owner,
            $$"""
            WITH added AS (
                INSERT INTO group_substance (id, group_id, name, name_key, version, updated_at)
                SELECT gen_random_uuid(), '{{world.GroupId}}', 'S' || n, 's' || n, 1, now() FROM generate_series(1, {{GroupSubstanceHandler.Most - 1}}) n RETURNING id, name)
            INSERT INTO group_substance_version (substance_id, version, group_id, change, author_id, at, content, content_digest)
            SELECT id, 1, '{{world.GroupId}}', 'added', '{{world.Rosa}}', now(), c, 'sha256:' || encode(sha256(c), 'hex')
            FROM (SELECT id, convert_to('{"name":"' || name || '","properties":{"flashPoint":{"unit":"°C","value":63},"source":"invented"} }', 'UTF8') AS c FROM added) made
            """);

        // Both get as far as they can while nobody writes to the log.
        await using NpgsqlConnection holder = await OpenAsync(world);
        await using NpgsqlTransaction holding = await holder.BeginTransactionAsync(Cancellation);
        await TestWorld.ExecuteAsync(holder, "SELECT FROM audit_head FOR UPDATE");
        Task<Result<GroupSubstanceView, Refusal>>[] both = [AddAsync(world, world.Rosa, "invented ester"), AddAsync(world, world.Lena, "invented ether")];
        await world.LocksAsync(2, Cancellation, both);
        await holding.CommitAsync(Cancellation);
        Result<GroupSubstanceView, Refusal>[] answers = await Task.WhenAll(both);
        Assert.Equal(RefusalKind.Conflict, Assert.Single(answers, answer => !answer.IsOk).Error?.Kind);
        Assert.Equal(GroupSubstanceHandler.Most, await world.ScalarAsync<long>("SELECT count(*) FROM group_substance"));
    }

    [Fact]
    public async Task Stamp_OfTheInventory_IsAnotherAfterEachChange()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor rosa = await world.ActorAsync(world.Rosa);
        List<long> stamps = [await StampAsync()];
        InventoryView added = TestWorld.Must(await CallAsync(handler => handler.AddAsync(rosa, InventoryKind.Vessel, """{ "label": "T-07", "kind": "tube" }"""u8.ToArray(), Cancellation)));
        stamps.Add(await StampAsync());
        TestWorld.Must(await CallAsync(handler => handler.ChangeAsync(rosa, InventoryKind.Vessel, added.Id, 1, """{ "label": "T-07", "kind": "tube", "note": "blue" }"""u8.ToArray(), Cancellation)));
        stamps.Add(await StampAsync());
        TestWorld.Must(await CallAsync(handler => handler.RetireAsync(rosa, InventoryKind.Vessel, added.Id, 2, "broken", Cancellation)));
        stamps.Add(await StampAsync());
        Assert.Equal([0, 1, 2, 3], stamps);

        Task<long> StampAsync() => world.CallAsync<InventoryLookup, long>(lookup => lookup.StampAsync(rosa, Cancellation));

        Task<Result<InventoryView, Refusal>> CallAsync(Func<InventoryHandler, Task<Result<InventoryView, Refusal>>> call) => world.CallAsync(call);
    }

    private static async Task<Result<GroupSubstanceView, Refusal>> AddAsync(TestWorld world, Guid person, string name)
    {
        Actor actor = await world.ActorAsync(person);
        byte[] substance = JsonSerializer.SerializeToUtf8Bytes(new { name, properties = new { flashPoint = new { value = 63, unit = "°C" }, source = "notebook 7, page 12 (invented)" } });
        return await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(handler => handler.AddAsync(actor, substance, Cancellation));
    }

    private static async Task<NpgsqlConnection> OpenAsync(TestWorld world)
    {
        var connection = new NpgsqlConnection(world.Database.Owner);
        await connection.OpenAsync(Cancellation);
        return connection;
    }
}
