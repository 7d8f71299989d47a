using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>The group's own substances: who writes them, versions that stay, one event for each change. Substances and values are invented.</summary>
public sealed class GroupSubstanceTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Add_ByAReviewer_MakesVersionOneAndOneEvent()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView added = TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester")));
        Assert.Equal((1, "invented ester", "Rosa Reviewer"), (added.Version, added.Substance.Name, added.ChangedBy));
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'substance.added'"));
        Assert.Equal(added.ContentDigest, await world.ScalarAsync<string>("SELECT convert_from(leaf_bytes, 'UTF8')::jsonb ->> 'payloadSha256' FROM audit_event WHERE action = 'substance.added'"));
        Assert.Empty((await world.CheckLogAsync()).Faults);
    }

    [Fact]
    public async Task Write_ByAnybodyElse_IsRefusedAndNothingIsKept()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        foreach (Guid person in (Guid[])[world.Mia, world.Adam, world.Otto])
        {
            Assert.Equal(RefusalKind.Forbidden, (await AddAsync(world, person, Substance("invented ester"))).Error?.Kind);
        }

        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM group_substance_version"));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action LIKE 'substance.%'"));
    }

    [Fact]
    public async Task Add_RoleTakenAwaySinceTheRequestBegan_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor before = await world.ActorAsync(world.Rosa);
        TestWorld.Must(await world.CallAsync<Procedures.Accounts.GroupSetup, Result<Procedures.Accounts.MemberView, Refusal>>(x => x.SetMembershipAsync(world.Setup, world.Rosa, [GroupRole.Member], [], None)));
        Assert.Equal(RefusalKind.Forbidden, (await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(x => x.AddAsync(before, Substance("invented ester"), None))).Error?.Kind);
    }

    [Fact]
    public async Task Read_EveryoneOfTheGroupButPureAdministrators_MayRead()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView added = TestWorld.Must(await AddAsync(world, world.Lena, Substance("invented ester")));
        foreach (Guid person in (Guid[])[world.Mia, world.Rolf, world.Lena, world.Otto])
        {
            Assert.True((await ReadAsync(world, person, added.Id)).IsOk);
        }

        Assert.Equal(RefusalKind.Forbidden, (await ReadAsync(world, world.Adam, added.Id)).Error?.Kind);
    }

    [Fact]
    public async Task EveryHandler_ForeignSubstance_AnswersAsIfItWereNotThere()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView added = TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester")));
        Actor fred = await world.ActorAsync(world.Fred, world.ForeignGroupId);
        foreach (Guid id in (Guid[])[added.Id, Guid.CreateVersion7()])
        {
            Assert.Equal(Refusal.NotFound, (await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(x => x.ReadAsync(fred, id, None))).Error);
            Assert.Equal(Refusal.NotFound, (await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(x => x.ChangeAsync(fred, id, 1, Substance("mine"), None))).Error);
            Assert.Equal(Refusal.NotFound, (await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(x => x.RetireAsync(fred, id, 1, "mine", None))).Error);
            Assert.Equal(Refusal.NotFound, (await world.CallAsync<GroupSubstanceHandler, Result<IReadOnlyList<GroupSubstanceView>, Refusal>>(x => x.VersionsAsync(fred, id, None))).Error);
        }

        Assert.Empty(await world.CallAsync<OwnValues, IReadOnlyList<Documents.Substances.ListedGroupSubstance>>(x => x.ListAsync(fred, None)));
        Actor stranger = await world.ActorAsync(world.Fred, world.GroupId);
        Assert.Equal(Refusal.NotFound, (await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(x => x.ReadAsync(stranger, added.Id, None))).Error);
    }

    [Fact]
    public async Task Change_KeepsTheOldVersionAndSaysWhatChanged()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView added = TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester", flashPoint: 63)));
        GroupSubstanceView changed = TestWorld.Must(await ChangeAsync(world, world.Lena, added.Id, 1, Substance("invented ester", flashPoint: 54)));
        Assert.Equal(2, changed.Version);
        IReadOnlyList<GroupSubstanceView> versions = await VersionsAsync(world, added.Id);
        Assert.Equal([54.0, 63.0], versions.Select(version => version.Substance.Properties.FlashPoint!.Value));
        Assert.Equal("Lena Lead, Rosa Reviewer", string.Join(", ", versions.Select(version => version.ChangedBy)));
        Assert.Contains("flash point 63 °C → 54 °C", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'substance.changed'"), StringComparison.Ordinal);
        Assert.Empty((await world.CheckLogAsync()).Faults);
    }

    [Fact]
    public async Task Change_StaleVersion_IsRefusedAndKeepsTheOther()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView added = TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester", flashPoint: 63)));
        Result<GroupSubstanceView, Refusal>[] both = await Task.WhenAll(
            ChangeAsync(world, world.Rosa, added.Id, 1, Substance("invented ester", flashPoint: 50)), ChangeAsync(world, world.Lena, added.Id, 1, Substance("invented ester", flashPoint: 51)));
        Assert.Single(both, result => result.IsOk);
        Assert.Equal(RefusalKind.Stale, both.Single(result => !result.IsOk).Error?.Kind);
        Assert.Equal(2, (await VersionsAsync(world, added.Id)).Count);
    }

    [Fact]
    public async Task Change_NothingDifferent_MakesNoVersion()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView added = TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester")));
        Assert.Equal(1, TestWorld.Must(await ChangeAsync(world, world.Rosa, added.Id, 1, Substance("invented ester"))).Version);
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'substance.changed'"));
    }

    [Theory]
    [InlineData("Invented-Ester", "/name")]
    [InlineData("another", "/cas")]
    public async Task Add_NameOrNumberInUse_IsRefusedUntilItIsRetired(string name, string path)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView first = TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester", cas: "96-33-3")));
        ReadOnlyMemory<byte> second = Substance(name, cas: string.Equals(path, "/cas", StringComparison.Ordinal) ? "96-33-3" : null);
        Refusal? taken = (await AddAsync(world, world.Lena, second)).Error;
        Assert.Equal(RefusalKind.Conflict, taken?.Kind);
        Assert.Equal(path, Assert.Single(taken!.Faults).Path);
        TestWorld.Must(await RetireAsync(world, world.Rosa, first.Id, 1, "wrong"));
        Assert.True((await AddAsync(world, world.Lena, second)).IsOk);
    }

    [Fact]
    public async Task Add_TheSameNameTwiceAtOnce_OneIsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Result<GroupSubstanceView, Refusal>[] both = await Task.WhenAll(AddAsync(world, world.Rosa, Substance("invented ester")), AddAsync(world, world.Lena, Substance("Invented ester")));
        Assert.Single(both, result => result.IsOk);
        Assert.Equal(RefusalKind.Conflict, both.Single(result => !result.IsOk).Error?.Kind);
    }

    [Fact]
    public async Task Retire_EndsItsUseAndKeepsItsVersions()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        GroupSubstanceView added = TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester")));
        Actor mia = await world.ActorAsync(world.Mia);
        Assert.Single(await world.CallAsync<OwnValues, IReadOnlyList<Documents.Substances.ListedGroupSubstance>>(x => x.ListAsync(mia, None)));
        Assert.Equal(RefusalKind.Invalid, (await RetireAsync(world, world.Rosa, added.Id, 1, " ")).Error?.Kind);
        GroupSubstanceView retired = TestWorld.Must(await RetireAsync(world, world.Rosa, added.Id, 1, "the sample was something else"));
        Assert.Equal((2, VersionChange.Retired, "the sample was something else"), (retired.Version, retired.Change, retired.Reason));
        Assert.Empty(await world.CallAsync<OwnValues, IReadOnlyList<Documents.Substances.ListedGroupSubstance>>(x => x.ListAsync(mia, None)));
        Assert.Equal(RefusalKind.Conflict, (await ChangeAsync(world, world.Rosa, added.Id, 2, Substance("again"))).Error?.Kind);
        Assert.Equal("the sample was something else", await world.ScalarAsync<string>("SELECT reason FROM audit_event WHERE action = 'substance.retired'"));
        Assert.Empty((await world.CheckLogAsync()).Faults);
    }

    [Fact]
    public async Task Add_ScopeThatIsGivenUp_LeavesNeitherSubstanceNorEvent()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor rosa = await world.ActorAsync(world.Rosa);
        await using (AsyncServiceScope services = world.Scope())
        {
            await using IUnitScope outer = await services.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(None);
            Assert.True((await services.ServiceProvider.GetRequiredService<GroupSubstanceHandler>().AddAsync(rosa, Substance("invented ester"), None)).IsOk);
        }

        Assert.Equal(0, await world.ScalarAsync<long>("SELECT (SELECT count(*) FROM group_substance) + (SELECT count(*) FROM group_substance_version) + (SELECT count(*) FROM audit_event WHERE action LIKE 'substance.%')"));
    }

    [Theory]
    [InlineData("UPDATE group_substance_version SET content = 'x'")]
    [InlineData("DELETE FROM group_substance_version")]
    [InlineData("TRUNCATE group_substance_version")]
    [InlineData("DELETE FROM group_substance")]
    [InlineData("UPDATE group_substance SET group_id = group_id")]
    [InlineData("UPDATE group_substance SET version = version + 1")]
    [InlineData("UPDATE group_substance SET name = 'renamed without a version'")]
    public async Task Versions_ChangedBySql_AreRefusedToTheOwnerToo(string sql)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        TestWorld.Must(await AddAsync(world, world.Rosa, Substance("invented ester")));
        foreach (string connection in (string[])[world.Database.Application, world.Database.Owner])
        {
            PostgresException refused = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(connection, sql));
            Assert.True(refused.SqlState is PostgresErrorCodes.RestrictViolation or PostgresErrorCodes.InsufficientPrivilege, refused.SqlState);
        }
    }

    private static ReadOnlyMemory<byte> Substance(string name, double flashPoint = 63, string? cas = null)
    {
        var properties = new { flashPoint = new { value = flashPoint, unit = "°C" }, source = "notebook 7, page 12 (invented)" };
        return cas is null ? JsonSerializer.SerializeToUtf8Bytes(new { name, properties }) : JsonSerializer.SerializeToUtf8Bytes(new { name, cas, properties });
    }

    private static async Task<Result<GroupSubstanceView, Refusal>> AddAsync(TestWorld world, Guid person, ReadOnlyMemory<byte> substance)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(handler => handler.AddAsync(actor, substance, None));
    }

    private static async Task<Result<GroupSubstanceView, Refusal>> ChangeAsync(TestWorld world, Guid person, Guid id, int version, ReadOnlyMemory<byte> substance)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(handler => handler.ChangeAsync(actor, id, version, substance, None));
    }

    private static async Task<Result<GroupSubstanceView, Refusal>> RetireAsync(TestWorld world, Guid person, Guid id, int version, string reason)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(handler => handler.RetireAsync(actor, id, version, reason, None));
    }

    private static async Task<Result<GroupSubstanceView, Refusal>> ReadAsync(TestWorld world, Guid person, Guid id)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<GroupSubstanceHandler, Result<GroupSubstanceView, Refusal>>(handler => handler.ReadAsync(actor, id, None));
    }

    private static async Task<IReadOnlyList<GroupSubstanceView>> VersionsAsync(TestWorld world, Guid id)
    {
        Actor actor = await world.ActorAsync(world.Mia);
        return TestWorld.Must(await world.CallAsync<GroupSubstanceHandler, Result<IReadOnlyList<GroupSubstanceView>, Refusal>>(handler => handler.VersionsAsync(actor, id, None)));
    }
}
