using System.Security.Cryptography;
using System.Text;
using Microsoft.Extensions.DependencyInjection;
using PreApproval.Documents;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Idempotency;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class IdempotencyTests(PostgresServer server)
{
    [Fact]
    public async Task SameKeyTwice_SecondGetsTheFirstAnswerAndNothingIsDoneAgain()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        (bool firstReplayed, StoredAnswer first) = await CreateAsync(world, "key-1", "Tube");
        (bool secondReplayed, StoredAnswer second) = await CreateAsync(world, "key-1", "Tube");
        Assert.False(firstReplayed);
        Assert.True(secondReplayed);
        Assert.Equal(first.Status, second.Status);
        Assert.Equal(first.Body.ToArray(), second.Body.ToArray());
        Assert.Equal("\"1\"", second.Headers["ETag"]);
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM procedure"));
    }

    [Fact]
    public async Task SameKeyTenTimesAtOnce_OneEffectTenEqualAnswers()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        (bool Replayed, StoredAnswer Answer)[] answers = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => CreateAsync(world, "key-1", "Tube")));
        Assert.Single(answers, answer => !answer.Replayed);
        Assert.Single(answers.Select(answer => Encoding.UTF8.GetString(answer.Answer.Body.Span)).Distinct(StringComparer.Ordinal));
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM procedure"));
    }

    [Fact]
    public async Task SameKeyOtherRequest_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await CreateAsync(world, "key-1", "Tube");
        await using AsyncServiceScope scope = world.Scope();
        await using IUnitScope unit = await scope.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(CancellationToken.None);
        KeyClaim claim = await scope.ServiceProvider.GetRequiredService<IIdempotencyStore>().ClaimAsync(world.Mia, "key-1", Hash("Another"), CancellationToken.None);
        Assert.IsType<KeyClaim.OtherRequest>(claim);
    }

    [Fact]
    public async Task SameKeyOfAnotherPerson_IsAnotherKey()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await CreateAsync(world, "key-1", "Tube");
        await using AsyncServiceScope scope = world.Scope();
        await using IUnitScope unit = await scope.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(CancellationToken.None);
        Assert.IsType<KeyClaim.Claimed>(await scope.ServiceProvider.GetRequiredService<IIdempotencyStore>().ClaimAsync(world.Max, "key-1", Hash("Tube"), CancellationToken.None));
    }

    [Fact]
    public async Task NotCommitted_LeavesTheKeyFree()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await using (AsyncServiceScope scope = world.Scope())
        {
            await using IUnitScope unit = await scope.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(CancellationToken.None);
            await scope.ServiceProvider.GetRequiredService<IIdempotencyStore>().ClaimAsync(world.Mia, "key-1", Hash("Tube"), CancellationToken.None);
        }

        Assert.False((await CreateAsync(world, "key-1", "Tube")).Replayed);
    }

    [Fact]
    public async Task RefusalInsideTheCallersUnit_KeepsItsEventAndUndoesTheRest()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        Actor max = await world.ActorAsync(world.Max);
        await using (AsyncServiceScope scope = world.Scope())
        {
            await using IUnitScope unit = await scope.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(CancellationToken.None);
            IIdempotencyStore keys = scope.ServiceProvider.GetRequiredService<IIdempotencyStore>();
            await keys.ClaimAsync(world.Max, "key-1", Hash("Tube"), CancellationToken.None);
            Result<RevisionView, Refusal> result = await scope.ServiceProvider.GetRequiredService<DecisionHandler>()
                .DecideAsync(max, revision.ProcedureId, TestWorld.Approval(1), CancellationToken.None);
            Assert.Equal(RefusalKind.Forbidden, result.Error?.Kind);
            await keys.CompleteAsync(world.Max, "key-1", new StoredAnswer(403, new Dictionary<string, string>(StringComparer.Ordinal), Array.Empty<byte>()), CancellationToken.None);
            await unit.CommitAsync(CancellationToken.None);
        }

        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event WHERE action = 'sign.refused'"));
        Assert.Equal(403, await world.ScalarAsync<int>("SELECT status FROM idempotency_record"));
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM decision"));
    }

    [Fact]
    public async Task Prune_ForgetsOldKeysOnly()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await CreateAsync(world, "old", "Tube");
        world.Clock.Advance(IIdempotencyStore.Kept);
        await CreateAsync(world, "young", "Tube");
        Assert.Equal(0, await PruneAsync(world));
        world.Clock.Advance(TimeSpan.FromMilliseconds(1));
        Assert.Equal(1, await PruneAsync(world));
        Assert.True((await CreateAsync(world, "young", "Tube")).Replayed);
        Assert.False((await CreateAsync(world, "old", "Tube")).Replayed);

        static Task<int> PruneAsync(TestWorld world) => world.CallAsync<IIdempotencyStore, int>(x => x.PruneAsync(world.Clock.GetUtcNow() - IIdempotencyStore.Kept, CancellationToken.None));
    }

    /// <summary>What the web's filter does around a handler.</summary>
    private static async Task<(bool Replayed, StoredAnswer Answer)> CreateAsync(TestWorld world, string key, string title)
    {
        Actor mia = await world.ActorAsync(world.Mia);
        await using AsyncServiceScope scope = world.Scope();
        await using IUnitScope unit = await scope.ServiceProvider.GetRequiredService<IUnitOfWork>().BeginAsync(CancellationToken.None);
        IIdempotencyStore keys = scope.ServiceProvider.GetRequiredService<IIdempotencyStore>();
        if (await keys.ClaimAsync(world.Mia, key, Hash(title), CancellationToken.None) is KeyClaim.Replay replay)
        {
            return (true, replay.Answer);
        }

        DraftView draft = TestWorld.Must(await scope.ServiceProvider.GetRequiredService<DraftHandler>().CreateAsync(mia, FakeScreening.Document(title), CancellationToken.None));
        var answer = new StoredAnswer(
            201,
            new Dictionary<string, string>(StringComparer.Ordinal) { ["ETag"] = $"\"{draft.Version}\"", ["Content-Type"] = "application/json" },
            Encoding.UTF8.GetBytes($"{{\"id\":\"{draft.ProcedureId}\"}}"));
        await keys.CompleteAsync(world.Mia, key, answer, CancellationToken.None);
        await unit.CommitAsync(CancellationToken.None);
        return (false, answer);
    }

    private static byte[] Hash(string title) => SHA256.HashData(Encoding.UTF8.GetBytes($"POST /api/v1/procedures {title}"));
}
