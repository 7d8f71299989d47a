using System.Security.Cryptography;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class LogTests(PostgresServer server)
{
    [Fact]
    public async Task Append_SixteenWritersAtOnce_LeavesNoGapAndOneTree()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        long before = await world.ScalarAsync<long>($"SELECT size FROM audit_head WHERE group_id = '{world.GroupId}'");
        await Parallel.ForEachAsync(Enumerable.Range(0, 160), new ParallelOptions { MaxDegreeOfParallelism = 16 }, async (i, _) => await world.DraftAsync($"Draft {i}"));

        Assert.Equal(before + 160, await world.ScalarAsync<long>($"SELECT size FROM audit_head WHERE group_id = '{world.GroupId}'"));
        Assert.Equal(before + 160, await world.ScalarAsync<long>($"SELECT count(*) FROM audit_event WHERE group_id = '{world.GroupId}'"));
        Assert.Equal(before + 159, await world.ScalarAsync<long>($"SELECT max(seq) FROM audit_event WHERE group_id = '{world.GroupId}'"));
        LogStatus status = await world.CheckLogAsync();
        Assert.True(status.Consistent);
        Assert.Equal(await SlowRootAsync(world), status.RootHash);
    }

    [Theory]
    [InlineData("UPDATE audit_event SET actor_name = 'Somebody Else' WHERE seq = 3")]
    [InlineData("UPDATE audit_event SET at = at + interval '1 hour' WHERE seq = 3")]
    [InlineData("UPDATE audit_event SET reason = 'another' WHERE seq = 3")]
    [InlineData("UPDATE audit_event SET summary = summary || '!' WHERE seq = 3")]
    [InlineData("UPDATE audit_event SET procedure_id = group_id WHERE seq = 3")]
    [InlineData("DELETE FROM audit_event WHERE seq = 3")]
    [InlineData("DELETE FROM audit_event WHERE seq = (SELECT max(seq) FROM audit_event)")]
    [InlineData("UPDATE audit_event SET leaf_bytes = set_byte(leaf_bytes, 20, get_byte(leaf_bytes, 20) # 1), leaf_hash = sha256('\\x00'::bytea || set_byte(leaf_bytes, 20, get_byte(leaf_bytes, 20) # 1)) WHERE seq = 3")]
    [InlineData("UPDATE audit_event SET seq = seq + 1000 WHERE seq = 3")]
    [InlineData("UPDATE audit_head SET compact_range = set_byte(compact_range, 12, get_byte(compact_range, 12) # 1)")]
    public async Task Check_TamperedByTheOwner_IsNotConsistent(string sql)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Assert.True((await world.CheckLogAsync()).Consistent);

        // Whoever owns the database can switch the triggers off: the tree is for that.
        await TestWorld.ExecuteAsync(world.Database.Owner, $"ALTER TABLE audit_event DISABLE TRIGGER USER; ALTER TABLE audit_head DISABLE TRIGGER USER; {sql}");
        Assert.False((await world.CheckLogAsync()).Consistent);
    }

    [Fact]
    public async Task List_ByMember_ShowsOnlyTheirOwnProcedures()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView mias = await world.SubmitAsync("Mia's tube", "pressure/warning");
        Assert.All(await ListAsync(world, world.Mia, new HistoryFilter()), item => Assert.Equal(mias.ProcedureId, item.ProcedureId));
        Assert.NotEmpty(await ListAsync(world, world.Mia, new HistoryFilter()));
        Assert.Empty(await ListAsync(world, world.Max, new HistoryFilter()));
        Assert.All(await ListAsync(world, world.Adam, new HistoryFilter()), item => Assert.Null(item.ProcedureId));
        Assert.Contains(await ListAsync(world, world.Otto, new HistoryFilter()), item => item.Action.Equals("role.granted", StringComparison.Ordinal));
    }

    [Fact]
    public async Task List_Filtered_MatchesActionPersonTextAndTime()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        world.Clock.Advance(TimeSpan.FromDays(1));
        DateTimeOffset start = world.Clock.GetUtcNow();
        RevisionView tube = await world.SubmitAsync("Tube 100%", "pressure/warning");
        world.Clock.Advance(TimeSpan.FromHours(1));
        TestWorld.Must(await world.DecideAsync(world.Rosa, tube.ProcedureId, TestWorld.Approval(1, "pressure/warning")));

        Assert.Equal(["decision.approved"], await ActionsAsync(world, new HistoryFilter { Action = "decision" }), StringComparer.Ordinal);
        Assert.Empty(await ActionsAsync(world, new HistoryFilter { Action = "decis" }));
        Assert.Equal(["decision.approved"], await ActionsAsync(world, new HistoryFilter { ActorId = world.Rosa }), StringComparer.Ordinal);
        Assert.Equal(4, (await ActionsAsync(world, new HistoryFilter { Text = "100%" })).Count);
        Assert.Empty(await ActionsAsync(world, new HistoryFilter { Text = "1_0" }));
        Assert.Equal(["decision.approved"], await ActionsAsync(world, new HistoryFilter { From = start.AddMinutes(1) }), StringComparer.Ordinal);
        Assert.DoesNotContain("decision.approved", await ActionsAsync(world, new HistoryFilter { Until = start.AddMinutes(1) }), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("audit_event", "UPDATE audit_event SET summary = ''")]
    [InlineData("audit_event", "DELETE FROM audit_event")]
    [InlineData("audit_event", "TRUNCATE audit_event")]
    [InlineData("decision", "UPDATE decision SET reason = 'x'")]
    [InlineData("decision", "DELETE FROM decision")]
    [InlineData("decision", "TRUNCATE decision")]
    [InlineData("revision", "UPDATE revision SET document = ''")]
    [InlineData("revision", "UPDATE revision SET screening = ''")]
    [InlineData("revision", "DELETE FROM revision")]
    [InlineData("revision", "TRUNCATE revision CASCADE")]
    [InlineData("finding", "UPDATE finding SET severity = 'notice'")]
    [InlineData("finding", "DELETE FROM finding")]
    [InlineData("audit_head", "DELETE FROM audit_head")]
    public async Task AppendOnlyTable_Changed_IsRefusedToApplicationAndOwner(string table, string sql)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
        long rows = await world.ScalarAsync<long>($"SELECT count(*) FROM {table}");
        Assert.NotEqual(0, rows);

        PostgresException asApplication = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Application, sql));
        Assert.Equal(PostgresErrorCodes.InsufficientPrivilege, asApplication.SqlState);
        PostgresException asOwner = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Owner, sql));
        Assert.Equal(PostgresErrorCodes.RestrictViolation, asOwner.SqlState);
        Assert.Equal(rows, await world.ScalarAsync<long>($"SELECT count(*) FROM {table}"));
    }

    [Theory]
    [InlineData("CREATE TABLE made (x int)")]
    [InlineData("DROP TABLE notice")]
    [InlineData("ALTER TABLE audit_event DISABLE TRIGGER append_only")]
    [InlineData("DROP TRIGGER append_only ON audit_event")]
    [InlineData("CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN RETURN NULL; END'")]
    [InlineData("CREATE FUNCTION made() RETURNS int LANGUAGE sql AS 'SELECT 1'")]
    [InlineData("CREATE ROLE made")]
    [InlineData("SET session_replication_role = replica")]
    [InlineData("DELETE FROM account")]
    public async Task ApplicationAccount_Ddl_IsRefused(string sql)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        PostgresException refusal = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Application, sql));
        Assert.Equal(PostgresErrorCodes.InsufficientPrivilege, refusal.SqlState);
    }

    [Fact]
    public async Task Revision_UnknownState_IsRefusedByTheDatabase()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.SubmitAsync("Tube", "pressure/warning");
        const string Sql = "UPDATE revision SET state = 'fine', version = version + 1";
        PostgresException byTheTrigger = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Application, Sql));
        Assert.Equal(PostgresErrorCodes.RestrictViolation, byTheTrigger.SqlState);
        await TestWorld.ExecuteAsync(world.Database.Owner, "ALTER TABLE revision DISABLE TRIGGER workflow");
        PostgresException byTheCheck = await Assert.ThrowsAsync<PostgresException>(() => TestWorld.ExecuteAsync(world.Database.Application, Sql));
        Assert.Equal(PostgresErrorCodes.CheckViolation, byTheCheck.SqlState);
    }

    private static async Task<IReadOnlyList<EventView>> ListAsync(TestWorld world, Guid person, HistoryFilter filter)
    {
        Actor actor = await world.ActorAsync(person);
        return TestWorld.Must(await world.CallAsync<HistoryHandler, Result<Page<EventView>, Refusal>>(handler => handler.ListAsync(actor, filter, null, 500, CancellationToken.None))).Items;
    }

    private static async Task<IReadOnlyList<string>> ActionsAsync(TestWorld world, HistoryFilter filter) =>
        [.. (await ListAsync(world, world.Lena, filter)).Select(item => item.Action)];

    /// <summary>The tree head as RFC 6962, section 2.1, defines it, over the stored leaf bytes: slow, and written apart from the library.</summary>
    private static async Task<string> SlowRootAsync(TestWorld world)
    {
        var leaves = new List<byte[]>();
        await using var connection = new NpgsqlConnection(world.Database.Application);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT leaf_bytes FROM audit_event WHERE group_id = $1 ORDER BY seq", connection);
        command.Parameters.AddWithValue(world.GroupId);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync();
        while (await reader.ReadAsync())
        {
            leaves.Add(reader.GetFieldValue<byte[]>(0));
        }

        return Convert.ToHexStringLower(Head(leaves));

        static byte[] Head(List<byte[]> leaves)
        {
            if (leaves.Count == 1)
            {
                return SHA256.HashData([0, .. leaves[0]]);
            }

            int split = 1;
            while (split * 2 < leaves.Count)
            {
                split *= 2;
            }

            return SHA256.HashData([1, .. Head(leaves[..split]), .. Head(leaves[split..])]);
        }
    }
}
