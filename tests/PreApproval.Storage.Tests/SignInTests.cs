using PreApproval.Procedures.Accounts;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class SignInTests(PostgresServer server)
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Session_LivesUntilItIsEnded_AndOnlyForItsAccount()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        string first = await BeginAsync(world, world.Mia);
        string second = await BeginAsync(world, world.Mia);
        Assert.NotEqual(first, second, StringComparer.Ordinal);
        Assert.True(await IsLiveAsync(world, first, world.Mia));
        Assert.False(await IsLiveAsync(world, first, world.Max));
        Assert.False(await IsLiveAsync(world, first + "x", world.Mia));
        Assert.Equal(0, await world.ScalarAsync<long>($"SELECT count(*) FROM session WHERE position('{first}' in session::text) > 0"));
        Assert.Equal(1, await world.ScalarAsync<long>($"SELECT count(*) FROM session WHERE hash = sha256('{first}'::bytea)"));

        await world.CallAsync<Sessions, bool>(async x => { await x.EndAsync(first, None); return true; });
        Assert.False(await IsLiveAsync(world, first, world.Mia));
        Assert.True(await IsLiveAsync(world, second, world.Mia));
    }

    [Fact]
    public async Task EndAll_EndsEverySessionOfTheAccountAndNoOther()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        string[] mias = [await BeginAsync(world, world.Mia), await BeginAsync(world, world.Mia)];
        string max = await BeginAsync(world, world.Max);
        await world.CallAsync<Sessions, bool>(async x => { await x.EndAllAsync(world.Mia, None); return true; });
        Assert.False(await IsLiveAsync(world, mias[0], world.Mia));
        Assert.False(await IsLiveAsync(world, mias[1], world.Mia));
        Assert.True(await IsLiveAsync(world, max, world.Max));
    }

    [Fact]
    public async Task Session_OfADeactivatedAccount_IsNotLive()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        string id = await BeginAsync(world, world.Mia);
        await TestWorld.ExecuteAsync(world.Database.Owner, $"UPDATE account SET deactivated_at = now() WHERE id = '{world.Mia}'");
        Assert.False(await IsLiveAsync(world, id, world.Mia));
    }

    [Fact]
    public async Task Prune_RemovesOldSessionsOnly()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await BeginAsync(world, world.Mia);
        world.Clock.Advance(TimeSpan.FromDays(2));
        string young = await BeginAsync(world, world.Mia);
        Assert.Equal(1, await world.CallAsync<Sessions, int>(x => x.PruneAsync(world.Clock.GetUtcNow().AddDays(-1), None)));
        Assert.True(await IsLiveAsync(world, young, world.Mia));
    }

    [Fact]
    public async Task Token_AfterTheSecurityStampChanged_ResolvesNoMore()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        string token = await IssueAsync(world, world.Mia);
        Assert.Equal(world.Mia, await ResolveAsync(world, token));
        await TestWorld.ExecuteAsync(world.Database.Application, $"UPDATE account SET security_stamp = 'CHANGED' WHERE id = '{world.Mia}'");
        Assert.Null(await ResolveAsync(world, token));
        Assert.Equal(world.Mia, await ResolveAsync(world, await IssueAsync(world, world.Mia)));
    }

    [Fact]
    public async Task Token_TwentyFirst_EndsTheOldestAlsoWhenIssuedAtOnce()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        string oldest = await IssueAsync(world, world.Mia);
        world.Clock.Advance(TimeSpan.FromSeconds(1));
        for (int i = 0; i < 19; i++)
        {
            await IssueAsync(world, world.Mia);
        }

        Assert.NotNull(await ResolveAsync(world, oldest));
        await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => IssueAsync(world, world.Mia)));
        Assert.Null(await ResolveAsync(world, oldest));
        Assert.Equal(20, (await ListAsync(world, world.Mia)).Count);
    }

    [Fact]
    public async Task Token_Listed_ShowsItsLastUseAndIsRevokedByItsOwnerOnly()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        string token = await IssueAsync(world, world.Mia);
        Assert.Null(Assert.Single(await ListAsync(world, world.Mia)).LastUsedAt);
        world.Clock.Advance(TimeSpan.FromMinutes(5));
        await ResolveAsync(world, token);
        ApiTokenView listed = Assert.Single(await ListAsync(world, world.Mia));
        Assert.Equal(world.Clock.GetUtcNow(), listed.LastUsedAt);

        Assert.False(await world.CallAsync<ApiTokens, bool>(x => x.RevokeAsync(world.Max, listed.Id, None)));
        Assert.True(await world.CallAsync<ApiTokens, bool>(x => x.RevokeAsync(world.Mia, listed.Id, None)));
        Assert.Empty(await ListAsync(world, world.Mia));
        Assert.Null(await ResolveAsync(world, token));
    }

    [Fact]
    public async Task TryTake_FiftyGuessesAtOnce_FiveAreTried()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        bool[] taken = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => TryTakeAsync(world)));
        Assert.Equal(5, taken.Count(one => one));
        world.Clock.Advance(TimeSpan.FromMinutes(5) - TimeSpan.FromSeconds(1));
        Assert.False(await TryTakeAsync(world));
        world.Clock.Advance(TimeSpan.FromSeconds(1));
        Assert.True(await TryTakeAsync(world));
    }

    [Fact]
    public async Task TryTake_AfterARightPassword_CountsAnew()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        for (int round = 0; round < 3; round++)
        {
            for (int i = 0; i < 5; i++)
            {
                Assert.True(await TryTakeAsync(world));
            }

            await world.CallAsync<SignInAttempts, bool>(async x => { await x.ResetAsync(world.Mia, None); return true; });
        }
    }

    [Fact]
    public async Task TryTake_DeactivatedOrUnknown_IsFalse()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await TestWorld.ExecuteAsync(world.Database.Owner, $"UPDATE account SET deactivated_at = now() WHERE id = '{world.Mia}'");
        Assert.False(await TryTakeAsync(world));
        Assert.False(await world.CallAsync<SignInAttempts, bool>(x => x.TryTakeAsync(Guid.CreateVersion7(), None)));
    }

    private static Task<string> BeginAsync(TestWorld world, Guid person) => world.CallAsync<Sessions, string>(x => x.BeginAsync(person, None));

    private static Task<bool> IsLiveAsync(TestWorld world, string id, Guid person) => world.CallAsync<Sessions, bool>(x => x.IsLiveAsync(id, person, None));

    private static Task<bool> TryTakeAsync(TestWorld world) => world.CallAsync<SignInAttempts, bool>(x => x.TryTakeAsync(world.Mia, None));

    private static async Task<string> IssueAsync(TestWorld world, Guid person) =>
        (await world.CallAsync<ApiTokens, (string Token, DateTimeOffset)>(x => x.IssueAsync(person, TimeSpan.FromHours(1), None))).Token;

    private static async Task<Guid?> ResolveAsync(TestWorld world, string token) =>
        (await world.CallAsync<ApiTokens, (Guid AccountId, DateTimeOffset)?>(x => x.ResolveAsync(token, None)))?.AccountId;

    private static Task<IReadOnlyList<ApiTokenView>> ListAsync(TestWorld world, Guid person) => world.CallAsync<ApiTokens, IReadOnlyList<ApiTokenView>>(x => x.ListAsync(person, None));
}
