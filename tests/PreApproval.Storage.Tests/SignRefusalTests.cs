using PreApproval.Documents;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class SignRefusalTests(PostgresServer server)
{
    [Fact]
    public async Task Refused_ManyTimesInTenMinutes_IsOneEventForEachReason()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => RefuseAsync(world, world.Max, revision)));
        Assert.Equal(1, await EventsAsync(world));
        await WithoutPasswordAsync(world, revision);
        await WithoutPasswordAsync(world, revision);
        Assert.Equal(2, await EventsAsync(world));

        // Another revision is another matter.
        RevisionView other = await world.SubmitAsync("Other tube", "pressure/warning");
        await RefuseAsync(world, world.Max, other);
        Assert.Equal(3, await EventsAsync(world));
    }

    [Fact]
    public async Task Refused_AgainAfterTenMinutes_IsAnEventThatTellsOfTheOthers()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        for (int i = 0; i < 4; i++)
        {
            await RefuseAsync(world, world.Max, revision);
        }

        world.Clock.Advance(TimeSpan.FromMinutes(10));
        await RefuseAsync(world, world.Max, revision);
        Assert.Equal(2, await EventsAsync(world));
        Assert.Contains("3 more", await world.ScalarAsync<string>("SELECT summary FROM audit_event WHERE action = 'sign.refused' ORDER BY seq DESC LIMIT 1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refused_TheThirdTimeInTenMinutes_TellsTheLeadOnce()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        await WithoutPasswordAsync(world, revision);
        await WithoutPasswordAsync(world, revision);
        Assert.Equal(0, await NoticesAsync(world));
        await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => WithoutPasswordAsync(world, revision)));
        Assert.Equal(1, await NoticesAsync(world));
        Assert.Equal(1, await world.ScalarAsync<long>($"SELECT count(*) FROM notice n JOIN outbox o ON o.notice_id = n.id WHERE n.kind = 'sign.refused' AND n.recipient_id = '{world.Lena}'"));
        Assert.Contains("Rosa Reviewer", await world.ScalarAsync<string>("SELECT text FROM notice WHERE kind = 'sign.refused'"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refused_ThriceInMoreThanTenMinutes_TellsNobody()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        for (int i = 0; i < 3; i++)
        {
            await WithoutPasswordAsync(world, revision);
            world.Clock.Advance(TimeSpan.FromMinutes(6));
        }

        Assert.Equal(0, await NoticesAsync(world));
    }

    private static Task<long> EventsAsync(TestWorld world) => world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'sign.refused'");

    private static Task<long> NoticesAsync(TestWorld world) => world.ScalarAsync<long>("SELECT count(*) FROM notice WHERE kind = 'sign.refused'");

    private static async Task RefuseAsync(TestWorld world, Guid person, RevisionView revision) =>
        Assert.Equal(RefusalKind.Forbidden, (await world.DecideAsync(person, revision.ProcedureId, TestWorld.Approval(1))).Error?.Kind);

    private static async Task WithoutPasswordAsync(TestWorld world, RevisionView revision)
    {
        Result<RevisionView, Refusal> result = await world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning") with { PasswordConfirmed = false });
        Assert.Equal(RefusalKind.SignInAgain, result.Error?.Kind);
    }
}
