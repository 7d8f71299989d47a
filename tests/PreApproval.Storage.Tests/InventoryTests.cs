using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>The inventory: who writes it, versions that stay, one event for each change, the wall between groups, two at once. Vessels and places are invented.</summary>
public sealed class InventoryTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Add_ByAMember_MakesVersionOneAndOneEventWithItsDigest()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")));
        Assert.Equal((1, "T-07", "Mia Member"), (added.Version, added.Content.Called, added.ChangedBy));
        Assert.Equal(added.ContentDigest, await world.ScalarAsync<string>("SELECT convert_from(leaf_bytes, 'UTF8')::jsonb ->> 'payloadSha256' FROM audit_event WHERE action = 'vessel.added'"));
        Assert.Equal("Mia Member added the vessel 'T-07' to the inventory.", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'vessel.added'"));
        Assert.Equal("", await CheckAsync(world));
    }

    [Fact]
    public async Task Write_ByAuditorAndAdministrator_IsRefusedAndNothingIsKept()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        foreach (Guid person in (Guid[])[world.Adam, world.Otto])
        {
            Assert.Equal(RefusalKind.Forbidden, (await AddAsync(world, person, InventoryKind.Vessel, Vessel("T-07"))).Error?.Kind);
        }

        Assert.Equal(0, await world.ScalarAsync<long>("SELECT (SELECT count(*) FROM inventory_version) + (SELECT count(*) FROM audit_event WHERE action LIKE 'vessel.%')"));
    }

    [Fact]
    public async Task Add_RoleTakenAwaySinceTheRequestBegan_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor before = await world.ActorAsync(world.Mia);
        TestWorld.Must(await world.CallAsync<Procedures.Accounts.GroupSetup, Result<Procedures.Accounts.MemberView, Refusal>>(x => x.SetMembershipAsync(world.Setup, world.Mia, [GroupRole.Auditor], [], None)));
        Assert.Equal(RefusalKind.Forbidden, (await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.AddAsync(before, InventoryKind.Vessel, Vessel("T-07"), None))).Error?.Kind);
    }

    [Theory]
    [InlineData(InventoryKind.Vessel)]
    [InlineData(InventoryKind.Place)]
    [InlineData(InventoryKind.Agent)]
    public async Task EveryHandler_ForeignEntry_AnswersAsIfItWereNotThere(InventoryKind kind)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid place = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Place, Place("Hood 2"))).Id;
        ReadOnlyMemory<byte> entry = kind == InventoryKind.Vessel ? Vessel("T-07") : kind == InventoryKind.Place ? Place("Hood 3") : Agent(place, "foam");
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, kind, entry));
        Actor fred = await world.ActorAsync(world.Fred, world.ForeignGroupId);
        Actor stranger = await world.ActorAsync(world.Fred, world.GroupId);
        foreach (Actor actor in (Actor[])[fred, stranger])
        {
            foreach (Guid id in (Guid[])[added.Id, Guid.CreateVersion7()])
            {
                Assert.Equal(Refusal.NotFound, (await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.ReadAsync(actor, kind, id, None))).Error);
                Assert.Equal(Refusal.NotFound, (await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.ChangeAsync(actor, kind, id, 1, entry, None))).Error);
                Assert.Equal(Refusal.NotFound, (await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.RetireAsync(actor, kind, id, 1, "mine", None))).Error);
                Assert.Equal(Refusal.NotFound, (await world.CallAsync<InventoryHandler, Result<IReadOnlyList<InventoryView>, Refusal>>(x => x.VersionsAsync(actor, kind, id, None))).Error);
            }
        }

        Assert.Empty(TestWorld.Must(await world.CallAsync<InventoryHandler, Result<IReadOnlyList<InventoryView>, Refusal>>(x => x.ListAsync(fred, kind, true, None))));
        Assert.Empty((await world.CallAsync<InventoryLookup, GroupInventory>(x => x.AllAsync(fred, None))).Vessels);
        Assert.Equal("/place", Assert.Single((await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.AddAsync(fred, InventoryKind.Agent, Agent(place, "water"), None))).Error!.Faults).Path);
    }

    [Fact]
    public async Task Read_EntryOfAnotherKind_IsNotThere()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView vessel = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")));
        Actor mia = await world.ActorAsync(world.Mia);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.ReadAsync(mia, InventoryKind.Place, vessel.Id, None))).Error);
    }

    [Fact]
    public async Task Change_KeepsTheOldVersionAndSaysWhatChangedFromWhatToWhat()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07", bar: 10)));
        InventoryView changed = TestWorld.Must(await ChangeAsync(world, world.Max, InventoryKind.Vessel, added.Id, 1, Vessel("T-07", bar: 8)));
        Assert.Equal((2, "Max Member"), (changed.Version, changed.ChangedBy));
        Actor mia = await world.ActorAsync(world.Mia);
        IReadOnlyList<InventoryView> versions = TestWorld.Must(await world.CallAsync<InventoryHandler, Result<IReadOnlyList<InventoryView>, Refusal>>(x => x.VersionsAsync(mia, InventoryKind.Vessel, added.Id, None)));
        Assert.Equal([8.0, 10.0], versions.Select(version => ((InventoryVessel)version.Content).Vessel.Rating!.Value));
        Assert.Contains("rating 10 bar(g) → 8 bar(g)", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'vessel.changed'"), StringComparison.Ordinal);
        Assert.Equal(added.ContentDigest, await world.ScalarAsync<string>("SELECT convert_from(leaf_bytes, 'UTF8')::jsonb ->> 'before' FROM audit_event WHERE action = 'vessel.changed'"));
        Assert.Equal("", await CheckAsync(world));
    }

    [Fact]
    public async Task Change_TwoAtOnce_OneIsStaleAndNothingOfItIsKept()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")));
        Result<InventoryView, Refusal>[] both = await Task.WhenAll(
            ChangeAsync(world, world.Mia, InventoryKind.Vessel, added.Id, 1, Vessel("T-07", bar: 5)), ChangeAsync(world, world.Max, InventoryKind.Vessel, added.Id, 1, Vessel("T-07", bar: 6)));
        Assert.Single(both, result => result.IsOk);
        Assert.Equal(RefusalKind.Stale, both.Single(result => !result.IsOk).Error?.Kind);
        Assert.Equal(2, await world.ScalarAsync<long>("SELECT count(*) FROM inventory_version"));
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'vessel.changed'"));
    }

    [Fact]
    public async Task Add_TheSameLabelTwiceAtOnce_OneIsRefusedUntilTheOtherIsRetired()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Result<InventoryView, Refusal>[] both = await Task.WhenAll(AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")), AddAsync(world, world.Max, InventoryKind.Vessel, Vessel("t 07")));
        InventoryView kept = both.Single(result => result.IsOk).Value!;
        Refusal refused = both.Single(result => !result.IsOk).Error!;
        Assert.Equal((RefusalKind.Conflict, "/label"), (refused.Kind, Assert.Single(refused.Faults).Path));
        TestWorld.Must(await RetireAsync(world, world.Rosa, InventoryKind.Vessel, kept.Id, 1, "broken"));
        Assert.True((await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07"))).IsOk);
    }

    [Fact]
    public async Task Retire_ByAMember_IsRefusedAndByAReviewerKeepsTheVersions()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")));
        Assert.Equal(RefusalKind.Forbidden, (await RetireAsync(world, world.Mia, InventoryKind.Vessel, added.Id, 1, "broken")).Error?.Kind);
        Assert.Equal(RefusalKind.Invalid, (await RetireAsync(world, world.Rosa, InventoryKind.Vessel, added.Id, 1, " ")).Error?.Kind);
        InventoryView retired = TestWorld.Must(await RetireAsync(world, world.Rosa, InventoryKind.Vessel, added.Id, 1, "cracked at the neck"));
        Assert.Equal((2, VersionChange.Retired, "cracked at the neck"), (retired.Version, retired.Change, retired.Reason));
        Assert.Equal(RefusalKind.Conflict, (await ChangeAsync(world, world.Rosa, InventoryKind.Vessel, added.Id, 2, Vessel("T-07", bar: 3))).Error?.Kind);
        Assert.Equal("cracked at the neck", await world.ScalarAsync<string>("SELECT reason FROM audit_event WHERE action = 'vessel.retired'"));
    }

    [Fact]
    public async Task OutOfService_SetByAMember_IsTakenBackOnlyByAReviewerOrTheLead()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")));
        TestWorld.Must(await ChangeAsync(world, world.Mia, InventoryKind.Vessel, added.Id, 1, Vessel("T-07", outOfService: "a star crack")));
        Refusal? refused = (await ChangeAsync(world, world.Mia, InventoryKind.Vessel, added.Id, 2, Vessel("T-07"))).Error;
        Assert.Equal((RefusalKind.Forbidden, "/outOfService"), (refused?.Kind, Assert.Single(refused!.Faults).Path));
        Assert.True((await ChangeAsync(world, world.Lena, InventoryKind.Vessel, added.Id, 2, Vessel("T-07"))).IsOk);
    }

    [Fact]
    public async Task Place_WithAgents_StaysUntilTheyAreGone()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView place = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Place, Place("Hood 3")));
        InventoryView agent = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Agent, Agent(place.Id, "dry powder")));
        Assert.Equal(RefusalKind.Conflict, (await RetireAsync(world, world.Lena, InventoryKind.Place, place.Id, 1, "rebuilt")).Error?.Kind);
        TestWorld.Must(await RetireAsync(world, world.Lena, InventoryKind.Agent, agent.Id, 1, "empty"));
        TestWorld.Must(await RetireAsync(world, world.Lena, InventoryKind.Place, place.Id, 1, "rebuilt"));
        Assert.Equal("/place", Assert.Single((await AddAsync(world, world.Mia, InventoryKind.Agent, Agent(place.Id, "foam"))).Error!.Faults).Path);
        Assert.Equal("Lena Lead took dry powder at 'Hood 3' out of the inventory.", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'agent.retired'"));
    }

    [Fact]
    public async Task Import_OneFaultyLine_KeepsNothingAndNamesLineAndField()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Refusal refused = (await ImportAsync(world, world.Mia, "label,kind,volume (mL),rating (bar(g)),rating evidence\r\nT-01,tube,10,4,engraved\r\nT-02,tube,ten,4,engraved\r\nT-03,tube,10,4,\r\n")).Error!;
        Assert.Equal(RefusalKind.Invalid, refused.Kind);
        Assert.Equal("/3/volume (mL); /4/rating evidence", string.Join("; ", refused.Faults.Select(fault => fault.Path)));
        Assert.All(refused.Faults, fault => Assert.StartsWith("line ", fault.Message, StringComparison.Ordinal));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT (SELECT count(*) FROM inventory_item) + (SELECT count(*) FROM audit_event WHERE action LIKE 'vessel.%')"));
    }

    [Fact]
    public async Task Import_AfterThePreviewSomebodyChanged_IsRefusedAndThePreviewChangesNothing()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07", bar: 10)));
        const string File = "label,inspected on\r\nT-07,2031-02-03\r\n";
        VesselImport preview = TestWorld.Must(await ImportAsync(world, world.Mia, File, preview: true));
        Assert.False(preview.Done);
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM inventory_version"));
        TestWorld.Must(await ChangeAsync(world, world.Max, InventoryKind.Vessel, added.Id, 1, Vessel("T-07", bar: 8)));
        Assert.Equal(RefusalKind.Stale, (await ImportAsync(world, world.Mia, File, plan: preview.Plan)).Error?.Kind);
        VesselImport again = TestWorld.Must(await ImportAsync(world, world.Mia, File, preview: true));
        VesselImport done = TestWorld.Must(await ImportAsync(world, world.Mia, File, plan: again.Plan));
        Assert.Equal((true, ImportEffect.Changed, 3), (done.Done, done.Vessels[0].Effect, done.Vessels[0].Version));

        // The columns that the file does not have stay: the rating is that of Max.
        Actor mia = await world.ActorAsync(world.Mia);
        var vessel = (InventoryVessel)TestWorld.Must(await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.ReadAsync(mia, InventoryKind.Vessel, added.Id, None))).Content;
        Assert.Equal((8.0, new DateOnly(2031, 2, 3)), (vessel.Vessel.Rating!.Value, vessel.Vessel.InspectedOn!.Value));
        Assert.Equal("", await CheckAsync(world));
    }

    [Fact]
    public async Task Add_ScopeThatIsGivenUp_LeavesNeitherEntryNorEvent()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor mia = await world.ActorAsync(world.Mia);
        await using (AsyncServiceScope services = world.Scope())
        {
            await using IUnitScope outer = await services.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(None);
            Assert.True((await services.ServiceProvider.GetRequiredService<InventoryHandler>().AddAsync(mia, InventoryKind.Vessel, Vessel("T-07"), None)).IsOk);
        }

        Assert.Equal(0, await world.ScalarAsync<long>("SELECT (SELECT count(*) FROM inventory_item) + (SELECT count(*) FROM inventory_version) + (SELECT count(*) FROM audit_event WHERE action LIKE 'vessel.%')"));
    }

    /// <summary>A vessel that is set out of service, or rated lower, between the screening and the commit is not the one that was screened.</summary>
    [Theory]
    [InlineData(10, "a star crack", RefusalKind.Invalid)]
    [InlineData(8, null, RefusalKind.Conflict)]
    public async Task Submit_WhileItsVesselIsChanged_WaitsAndIsRefused(double bar, string? outOfService, RefusalKind kind)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")));
        Guid procedure = await world.DraftAsync("Tube");
        TestWorld.Must(await world.SaveAsync(world.Mia, procedure, 1, FakeScreening.DocumentIn("T-07", "Tube")));
        Actor max = await world.ActorAsync(world.Max);
        Task<Result<RevisionView, Refusal>> submitting;
        await using (AsyncServiceScope services = world.Scope())
        {
            await using IUnitScope changing = await services.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(None);
            TestWorld.Must(await services.ServiceProvider.GetRequiredService<InventoryHandler>().ChangeAsync(max, InventoryKind.Vessel, added.Id, 1, Vessel("T-07", bar, outOfService), None));
            submitting = world.SubmitAsync(world.Mia, procedure, 2);
            await WaitingAsync(world, 1, submitting);
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

        Task<Refusal?> one = ErrorAsync(AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("W-1")));
        Task<Refusal?> other = table ? ErrorAsync(ImportAsync(world, world.Max, "label,kind\r\nW-2,tube\r\n")) : ErrorAsync(AddAsync(world, world.Max, InventoryKind.Vessel, Vessel("W-2")));
        await WaitingAsync(world, 2, one, other);
        await holding.CommitAsync(TestContext.Current.CancellationToken);
        Refusal?[] both = await Task.WhenAll(one, other);
        Assert.Equal(RefusalKind.Conflict, Assert.Single(both, refusal => refusal is not null)!.Kind);
        Assert.Equal(InventoryHandler.Most, await world.ScalarAsync<long>("SELECT count(*) FROM inventory_item"));
    }

    [Theory]
    [InlineData("UPDATE inventory_version SET content = 'x'")]
    [InlineData("DELETE FROM inventory_version")]
    [InlineData("TRUNCATE inventory_version")]
    [InlineData("DELETE FROM inventory_item")]
    [InlineData("UPDATE inventory_item SET group_id = group_id")]
    [InlineData("UPDATE inventory_item SET kind = 'place'")]
    [InlineData("UPDATE inventory_item SET version = version + 1")]
    [InlineData("UPDATE inventory_item SET name = 'renamed without a version'")]
    public async Task Versions_ChangedBySql_AreRefusedToTheOwnerToo(string sql)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        TestWorld.Must(await AddAsync(world, world.Mia, InventoryKind.Vessel, Vessel("T-07")));
        foreach (string connection in (string[])[world.Database.Application, world.Database.Owner])
        {
            PostgresException refused = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(connection, sql));
            Assert.True(refused.SqlState is PostgresErrorCodes.RestrictViolation or PostgresErrorCodes.InsufficientPrivilege, refused.SqlState);
        }
    }

    private static ReadOnlyMemory<byte> Vessel(string label, double bar = 10, string? outOfService = null)
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

    private static ReadOnlyMemory<byte> Place(string name) => JsonSerializer.SerializeToUtf8Bytes(new { name, kind = "hood" });

    private static ReadOnlyMemory<byte> Agent(Guid place, string agent) => JsonSerializer.SerializeToUtf8Bytes(new { place, agent, size = "1 × 6 kg" });

    private static async Task<Result<InventoryView, Refusal>> AddAsync(TestWorld world, Guid person, InventoryKind kind, ReadOnlyMemory<byte> entry)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(handler => handler.AddAsync(actor, kind, entry, None));
    }

    private static async Task<Result<InventoryView, Refusal>> ChangeAsync(TestWorld world, Guid person, InventoryKind kind, Guid id, int version, ReadOnlyMemory<byte> entry)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(handler => handler.ChangeAsync(actor, kind, id, version, entry, None));
    }

    private static async Task<Result<InventoryView, Refusal>> RetireAsync(TestWorld world, Guid person, InventoryKind kind, Guid id, int version, string reason)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(handler => handler.RetireAsync(actor, kind, id, version, reason, None));
    }

    private static async Task<Result<VesselImport, Refusal>> ImportAsync(TestWorld world, Guid person, string file, bool preview = false, string? plan = null)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<InventoryTable, Result<VesselImport, Refusal>>(table => table.ImportAsync(actor, Encoding.UTF8.GetBytes(file), preview, plan, None));
    }

    private static async Task<Refusal?> ErrorAsync<T>(Task<Result<T, Refusal>> call)
        where T : notnull => (await call).Error;

    /// <summary>Until so many sessions wait for a lock, or one of the calls, which should, did not.</summary>
    private static async Task WaitingAsync(TestWorld world, int sessions, params Task[] calls)
    {
        while (await world.ScalarAsync<long>("SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'") < sessions && !Array.Exists(calls, call => call.IsCompleted))
        {
            await Task.Delay(10, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>What the check of the log finds.</summary>
    private static async Task<string> CheckAsync(TestWorld world)
    {
        Actor lena = await world.ActorAsync(world.Lena);
        LogStatus status = TestWorld.Must(await world.CallAsync<HistoryHandler, Result<LogStatus, Refusal>>(handler => handler.CheckAsync(lena, None)));
        return string.Join("; ", status.Faults);
    }
}
