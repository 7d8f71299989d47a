using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>The inventory: who writes it, versions that stay, one event for each change, the wall between groups. Vessels and places are invented.</summary>
public sealed class InventoryTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Add_ByAMember_MakesVersionOneAndOneEventWithItsDigest()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")));
        Assert.Equal((1, "T-07", "Mia Member"), (added.Version, added.Content.Called, added.ChangedBy));
        Assert.Equal(added.ContentDigest, await world.ScalarAsync<string>("SELECT convert_from(leaf_bytes, 'UTF8')::jsonb ->> 'payloadSha256' FROM audit_event WHERE action = 'vessel.added'"));
        Assert.Equal("Mia Member added the vessel 'T-07' to the inventory.", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'vessel.added'"));
        Assert.Empty((await world.CheckLogAsync()).Faults);
    }

    [Fact]
    public async Task Write_ByAuditorAndAdministrator_IsRefusedAndNothingIsKept()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        foreach (Guid person in (Guid[])[world.Adam, world.Otto])
        {
            Assert.Equal(RefusalKind.Forbidden, (await world.AddAsync(person, InventoryKind.Vessel, Entries.Vessel("T-07"))).Error?.Kind);
        }

        Assert.Equal(0, await world.ScalarAsync<long>("SELECT (SELECT count(*) FROM inventory_version) + (SELECT count(*) FROM audit_event WHERE action LIKE 'vessel.%')"));
    }

    [Fact]
    public async Task Add_RoleTakenAwaySinceTheRequestBegan_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor before = await world.ActorAsync(world.Mia);
        TestWorld.Must(await world.CallAsync<Procedures.Accounts.GroupSetup, Result<Procedures.Accounts.MemberView, Refusal>>(x => x.SetMembershipAsync(world.Setup, world.Mia, [GroupRole.Auditor], [], None)));
        Assert.Equal(RefusalKind.Forbidden, (await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.AddAsync(before, InventoryKind.Vessel, Entries.Vessel("T-07"), None))).Error?.Kind);
    }

    [Theory]
    [InlineData(InventoryKind.Vessel)]
    [InlineData(InventoryKind.Place)]
    [InlineData(InventoryKind.Agent)]
    public async Task EveryHandler_ForeignEntry_AnswersAsIfItWereNotThere(InventoryKind kind)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid place = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Place, Entries.Place("Hood 2"))).Id;
        ReadOnlyMemory<byte> entry = kind == InventoryKind.Vessel ? Entries.Vessel("T-07") : kind == InventoryKind.Place ? Entries.Place("Hood 3") : Entries.Agent(place, "foam");
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, kind, entry));
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
        Assert.Equal("/place", Assert.Single((await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.AddAsync(fred, InventoryKind.Agent, Entries.Agent(place, "water"), None))).Error!.Faults).Path);
    }

    [Fact]
    public async Task Read_EntryOfAnotherKind_IsNotThere()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView vessel = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")));
        Actor mia = await world.ActorAsync(world.Mia);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.ReadAsync(mia, InventoryKind.Place, vessel.Id, None))).Error);
    }

    [Fact]
    public async Task Change_KeepsTheOldVersionAndSaysWhatChangedFromWhatToWhat()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07", bar: 10)));
        InventoryView changed = TestWorld.Must(await world.ChangeAsync(world.Max, InventoryKind.Vessel, added.Id, 1, Entries.Vessel("T-07", bar: 8)));
        Assert.Equal((2, "Max Member"), (changed.Version, changed.ChangedBy));
        Actor mia = await world.ActorAsync(world.Mia);
        IReadOnlyList<InventoryView> versions = TestWorld.Must(await world.CallAsync<InventoryHandler, Result<IReadOnlyList<InventoryView>, Refusal>>(x => x.VersionsAsync(mia, InventoryKind.Vessel, added.Id, None)));
        Assert.Equal([8.0, 10.0], versions.Select(version => ((InventoryVessel)version.Content).Vessel.Rating!.Value));
        Assert.Contains("rating 10 bar(g) → 8 bar(g)", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'vessel.changed'"), StringComparison.Ordinal);
        Assert.Equal(added.ContentDigest, await world.ScalarAsync<string>("SELECT convert_from(leaf_bytes, 'UTF8')::jsonb ->> 'before' FROM audit_event WHERE action = 'vessel.changed'"));
        Assert.Empty((await world.CheckLogAsync()).Faults);
    }

    [Fact]
    public async Task Retire_ByAMember_IsRefusedAndByAReviewerKeepsTheVersions()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")));
        Assert.Equal(RefusalKind.Forbidden, (await world.RetireAsync(world.Mia, InventoryKind.Vessel, added.Id, 1, "broken")).Error?.Kind);
        Assert.Equal(RefusalKind.Invalid, (await world.RetireAsync(world.Rosa, InventoryKind.Vessel, added.Id, 1, " ")).Error?.Kind);
        InventoryView retired = TestWorld.Must(await world.RetireAsync(world.Rosa, InventoryKind.Vessel, added.Id, 1, "cracked at the neck"));
        Assert.Equal((2, VersionChange.Retired, "cracked at the neck"), (retired.Version, retired.Change, retired.Reason));
        Assert.Equal(RefusalKind.Conflict, (await world.ChangeAsync(world.Rosa, InventoryKind.Vessel, added.Id, 2, Entries.Vessel("T-07", bar: 3))).Error?.Kind);
        Assert.Equal("cracked at the neck", await world.ScalarAsync<string>("SELECT reason FROM audit_event WHERE action = 'vessel.retired'"));
    }

    [Fact]
    public async Task OutOfService_SetByAMember_IsTakenBackOnlyByAReviewerOrTheLead()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView added = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")));
        TestWorld.Must(await world.ChangeAsync(world.Mia, InventoryKind.Vessel, added.Id, 1, Entries.Vessel("T-07", outOfService: "a star crack")));
        Refusal? refused = (await world.ChangeAsync(world.Mia, InventoryKind.Vessel, added.Id, 2, Entries.Vessel("T-07"))).Error;
        Assert.Equal((RefusalKind.Forbidden, "/outOfService"), (refused?.Kind, Assert.Single(refused!.Faults).Path));
        Assert.True((await world.ChangeAsync(world.Lena, InventoryKind.Vessel, added.Id, 2, Entries.Vessel("T-07"))).IsOk);
    }

    [Fact]
    public async Task Place_WithAgents_StaysUntilTheyAreGone()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        InventoryView place = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Place, Entries.Place("Hood 3")));
        InventoryView agent = TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Agent, Entries.Agent(place.Id, "dry powder")));
        Assert.Equal(RefusalKind.Conflict, (await world.RetireAsync(world.Lena, InventoryKind.Place, place.Id, 1, "rebuilt")).Error?.Kind);
        TestWorld.Must(await world.RetireAsync(world.Lena, InventoryKind.Agent, agent.Id, 1, "empty"));
        TestWorld.Must(await world.RetireAsync(world.Lena, InventoryKind.Place, place.Id, 1, "rebuilt"));
        Assert.Equal("/place", Assert.Single((await world.AddAsync(world.Mia, InventoryKind.Agent, Entries.Agent(place.Id, "foam"))).Error!.Faults).Path);
        Assert.Equal("Lena Lead took dry powder at 'Hood 3' out of the inventory.", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'agent.retired'"));
    }

    [Fact]
    public async Task Import_OneFaultyLine_KeepsNothingAndNamesLineAndField()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Refusal refused = (await world.ImportAsync(world.Mia, "label,kind,volume (mL),rating (bar(g)),rating evidence\r\nT-01,tube,10,4,engraved\r\nT-02,tube,ten,4,engraved\r\nT-03,tube,10,4,\r\n")).Error!;
        Assert.Equal(RefusalKind.Invalid, refused.Kind);
        Assert.Equal("/3/volume (mL); /4/rating evidence", string.Join("; ", refused.Faults.Select(fault => fault.Path)));
        Assert.All(refused.Faults, fault => Assert.StartsWith("line ", fault.Message, StringComparison.Ordinal));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT (SELECT count(*) FROM inventory_item) + (SELECT count(*) FROM audit_event WHERE action LIKE 'vessel.%')"));
    }

    [Fact]
    public async Task Add_ScopeThatIsGivenUp_LeavesNeitherEntryNorEvent()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor mia = await world.ActorAsync(world.Mia);
        await using (AsyncServiceScope services = world.Scope())
        {
            await using IUnitScope outer = await services.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(None);
            Assert.True((await services.ServiceProvider.GetRequiredService<InventoryHandler>().AddAsync(mia, InventoryKind.Vessel, Entries.Vessel("T-07"), None)).IsOk);
        }

        Assert.Equal(0, await world.ScalarAsync<long>("SELECT (SELECT count(*) FROM inventory_item) + (SELECT count(*) FROM inventory_version) + (SELECT count(*) FROM audit_event WHERE action LIKE 'vessel.%')"));
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
        TestWorld.Must(await world.AddAsync(world.Mia, InventoryKind.Vessel, Entries.Vessel("T-07")));
        foreach (string connection in (string[])[world.Database.Application, world.Database.Owner])
        {
            PostgresException refused = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(connection, sql));
            Assert.True(refused.SqlState is PostgresErrorCodes.RestrictViolation or PostgresErrorCodes.InsufficientPrivilege, refused.SqlState);
        }
    }
}
