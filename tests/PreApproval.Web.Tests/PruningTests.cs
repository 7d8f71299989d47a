using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PreApproval.Web.Administration;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class PruningTests(TestApp test)
{
    [Fact]
    public async Task Prune_KeysOfLongAgo_AreForgottenAndRecentOnesKept()
    {
        string suffix = Guid.CreateVersion7().ToString();
        await using var connection = new NpgsqlConnection(test.ConnectionString);
        await connection.OpenAsync();
        foreach ((string key, string age) in new[] { ($"old-{suffix}", "8 days"), ($"new-{suffix}", "6 days") })
        {
            await using var insert = new NpgsqlCommand("""
                INSERT INTO idempotency_record (account_id, key, request_hash, created_at, status, headers, body)
                VALUES ($1, $2, sha256('x'), now() - $3::interval, 200, '{}', '')
                """, connection)
            {
                Parameters = { new() { Value = test.Id("author") }, new() { Value = key }, new() { Value = age } },
            };
            await insert.ExecuteNonQueryAsync();
        }

        (int keys, _) = await test.App.Services.GetRequiredService<Pruning>().PruneAsync(CancellationToken.None);
        Assert.True(keys >= 1);
        await using var left = new NpgsqlCommand("SELECT string_agg(key, ' ') FROM idempotency_record WHERE key LIKE '%' || $1", connection) { Parameters = { new() { Value = suffix } } };
        Assert.Equal($"new-{suffix}", await left.ExecuteScalarAsync());
    }
}
