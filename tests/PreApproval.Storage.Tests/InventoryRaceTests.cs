using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>Two people at the inventory at once. Vessels are invented.</summary>
public sealed class InventoryRaceTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Change_TwoAtOnce_OneIsStaleAndNothingOfItIsKept()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")));
        Result<InventoryView, Refusal>[] both = await Task.WhenAll(
            world.ChangeAsync(world.Mia, InventoryKind.Vessel, added.Id, 1, Entries.Vessel("T-07", bar: 5)), world.ChangeAsync(world.Max, InventoryKind.Vessel, added.Id, 1, Entries.Vessel("T-07", bar: 6)));
        Assert.Single(both, result => result.IsOk);
        Assert.Equal(RefusalKind.Stale, both.Single(result => !result.IsOk).Error?.Kind);
        Assert.Equal(2, await world.ScalarAsync<long>("SELECT count(*) FROM inventory_version"));
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'vessel.changed'"));
    }

    [Fact]
    public async Task Add_TheSameLabelTwiceAtOnce_OneIsRefusedUntilTheOtherIsRetired()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Result<InventoryView, Refusal>[] both = await Task.WhenAll(world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")), world.AddAsync(world.Max, InventoryKind.Vessel, Entries.Vessel("t 07")));
        InventoryView kept = both.Single(result => result.IsOk).Value!;
        Refusal refused = both.Single(result => !result.IsOk).Error!;
        Assert.Equal((RefusalKind.Conflict, "/label"), (refused.Kind, Assert.Single(refused.Faults).Path));
        TestWorld.Must(await world.RetireAsync(world.Rosa, InventoryKind.Vessel, kept.Id, 1, "broken"));
        Assert.True((await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07"))).IsOk);
    }

    [Fact]
    public async Task Import_AfterThePreviewSomebodyChanged_IsRefusedAndThePreviewChangesNothing()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07", bar: 10)));
        const string File = "label,inspected on\r\nT-07,2024-02-03\r\n";
        VesselImport preview = TestWorld.Must(await world.ImportAsync(world.Mia, File, preview: true));
        Assert.False(preview.Done);
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM inventory_version"));
        TestWorld.Must(await world.ChangeAsync(world.Max, InventoryKind.Vessel, added.Id, 1, Entries.Vessel("T-07", bar: 8)));
        Assert.Equal(RefusalKind.Stale, (await world.ImportAsync(world.Mia, File, plan: preview.Plan)).Error?.Kind);
        VesselImport again = TestWorld.Must(await world.ImportAsync(world.Mia, File, preview: true));
        VesselImport done = TestWorld.Must(await world.ImportAsync(world.Mia, File, plan: again.Plan));
        Assert.Equal((true, ImportEffect.Changed, 3), (done.Done, done.Vessels[0].Effect, done.Vessels[0].Version));

        // The columns that the file does not have stay: the rating is that of Max.
        Actor mia = await world.ActorAsync(world.Mia);
        var vessel = (InventoryVessel)TestWorld.Must(await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.ReadAsync(mia, InventoryKind.Vessel, added.Id, None))).Content;
        Assert.Equal((8.0, new DateOnly(2024, 2, 3)), (vessel.Vessel.Rating!.Value, vessel.Vessel.InspectedOn!.Value));
        Assert.Empty((await world.CheckLogAsync()).Faults);
    }

    /// <summary>A vessel that is set out of service, or rated lower, between the screening and the commit is not the one that was screened.</summary>
    [Theory]
    [InlineData(10, "a star crack", RefusalKind.Invalid)]
    [InlineData(8, null, RefusalKind.Conflict)]
    public async Task Submit_WhileItsVesselIsChanged_WaitsAndIsRefused(double bar, string? outOfService, RefusalKind kind)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")));
        Guid procedure = await world.DraftAsync("Tube");
        TestWorld.Must(await world.SaveAsync(world.Mia, procedure, 1, FakeScreening.DocumentIn("T-07", "Tube")));
        Actor max = await world.ActorAsync(world.Max);
        Task<Result<RevisionView, Refusal>> submitting;
        await using (AsyncServiceScope services = world.Scope())
        {
            await using IUnitScope changing = await services.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(None);
            TestWorld.Must(await services.ServiceProvider.GetRequiredService<InventoryHandler>().ChangeAsync(max, InventoryKind.Vessel, added.Id, 1, Entries.Vessel("T-07", bar, outOfService), None));
            submitting = world.SubmitAsync(world.Mia, procedure, 2);
            await world.LocksAsync(1, TestContext.Current.CancellationToken, submitting);
            await changing.CommitAsync(None);
        }

        Assert.Equal(kind, (await submitting).Error?.Kind);
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM revision"));
        Assert.Equal(outOfService is null, (await world.SubmitAsync(world.Mia, procedure, 2)).IsOk);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Add_TheLastPlaceTwiceAtOnce_OneIsRefused(bool table)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await TestWorld.ExecuteAsync(
            world.Database.Owner,
            $"""
            WITH added AS (
                INSERT INTO inventory_item (id, group_id, kind, name, name_key, version, updated_at)
                SELECT gen_random_uuid(), '{world.GroupId}', 'vessel', 'V' || n, 'v' || n, 1, now() FROM generate_series(1, {InventoryHandler.Most - 1}) n RETURNING id)
            INSERT INTO inventory_version (item_id, version, group_id, change, author_id, at, content, content_digest)
            SELECT id, 1, '{world.GroupId}', 'added', '{world.Mia}', now(), '\x7b7d', 'sha256:' || encode(sha256('\x7b7d'), 'hex') FROM added
            """);

        // Both get as far as they can while nobody writes to the log.
        await using var holder = new NpgsqlConnection(world.Database.Owner);
        await holder.OpenAsync(TestContext.Current.CancellationToken);
        await using NpgsqlTransaction holding = await holder.BeginTransactionAsync(TestContext.Current.CancellationToken);
        await using (var command = new NpgsqlCommand("SELECT FROM audit_head FOR UPDATE", holder))
        {
            await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        Task<Refusal?> one = ErrorAsync(world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("W-1")));
        Task<Refusal?> other = table ? ErrorAsync(world.ImportAsync(world.Max, "label,kind\r\nW-2,tube\r\n")) : ErrorAsync(world.AddAsync(world.Max, InventoryKind.Vessel, Entries.Vessel("W-2")));
        await world.LocksAsync(2, TestContext.Current.CancellationToken, one, other);
        await holding.CommitAsync(TestContext.Current.CancellationToken);
        Refusal?[] both = await Task.WhenAll(one, other);
        Assert.Equal(RefusalKind.Conflict, Assert.Single(both, refusal => refusal is not null)!.Kind);
        Assert.Equal(InventoryHandler.Most, await world.ScalarAsync<long>("SELECT count(*) FROM inventory_item"));
    }

    private static async Task<Refusal?> ErrorAsync<T>(Task<Result<T, Refusal>> call)
        where T : notnull => (await call).Error;
}
