using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

/// <summary>What somebody who owns the database could do with the triggers and checks off: each is reported in words, none is an exception.</summary>
public sealed class TamperTests(PostgresServer server)
{
    private const string Off = """
        ALTER TABLE audit_event DISABLE TRIGGER ALL; ALTER TABLE audit_head DISABLE TRIGGER ALL; ALTER TABLE revision DISABLE TRIGGER ALL;
        ALTER TABLE slot DISABLE TRIGGER ALL; ALTER TABLE decision DISABLE TRIGGER ALL;
        ALTER TABLE audit_event DROP CONSTRAINT ck_audit_event_leaf_hash; ALTER TABLE revision DROP CONSTRAINT ck_revision_state, DROP CONSTRAINT ck_revision_screening_digest;
        ALTER TABLE decision DROP CONSTRAINT ck_decision_bound_digest;
        """;

    private const string Approved = "(SELECT seq FROM audit_event WHERE action = 'decision.approved')";
    private const string Submitted = "(SELECT seq FROM audit_event WHERE action = 'procedure.submitted')";

    [Theory]
    [InlineData("UPDATE revision SET document = '{\"title\": \"Tube\", \"flags\": []}'", Submitted, "document of revision 1")]
    [InlineData("UPDATE revision SET document = 'no JSON'", Submitted, "document of revision 1")]
    [InlineData("UPDATE revision SET document_digest = 'sha256:' || repeat('0', 64)", Submitted, "document of revision 1")]
    [InlineData("UPDATE revision SET screening = '{}'", Submitted, "screening of revision 1")]
    [InlineData("UPDATE revision SET screening = '{}', screening_digest = 'sha256:' || encode(sha256('{}'), 'hex')", Submitted, "screening of revision 1")]
    [InlineData("UPDATE revision SET engine_version = 'other'", Submitted, "Engine, data or policy")]
    [InlineData("UPDATE revision SET author_id = (SELECT id FROM account WHERE user_name = 'max')", Submitted, "author of revision 1")]
    [InlineData("UPDATE revision SET state = 'declined'", Approved, "its last event left it approved")]
    [InlineData("UPDATE revision SET state = 'fine'", Approved, "its last event left it approved")]
    [InlineData("DELETE FROM revision", Submitted, "it is not stored")]
    [InlineData("UPDATE slot SET assignee_id = (SELECT id FROM account WHERE user_name = 'rolf')", Submitted, "not routed to the person")]
    [InlineData("DELETE FROM slot", Submitted, "a slot of revision 1")]
    [InlineData("UPDATE decision SET reason = 'Other words.'", Approved, "do not say what was signed")]
    [InlineData("UPDATE decision SET decision = 'decline', reason = 'x'", Approved, "do not say what was signed")]
    [InlineData("UPDATE decision SET signer_name = 'Somebody Else'", Approved, "do not say what was signed")]
    [InlineData("UPDATE decision SET signed_at = signed_at - interval '1 day'", Approved, "do not say what was signed")]
    [InlineData("UPDATE decision SET answers = '[]'", Approved, "do not say what was signed")]
    [InlineData("UPDATE decision SET authentication_method = 'token'", Approved, "signed in")]
    [InlineData("UPDATE decision SET bound = 'no JSON'", Approved, "does not give its digest")]
    [InlineData("UPDATE decision SET bound = convert_to('{}', 'UTF8'), bound_digest = 'sha256:' || encode(sha256('{}'), 'hex')", Approved, "as it is stored")]
    [InlineData("DELETE FROM decision", Approved, "a decision on revision 1")]
    [InlineData("UPDATE audit_event SET leaf_bytes = 'no JSON' WHERE seq = 3", "3", "can't be read")]
    [InlineData("UPDATE audit_event SET leaf_bytes = '', leaf_hash = sha256('\\x00') WHERE seq = 3; ALTER TABLE audit_event DROP CONSTRAINT ck_audit_event_leaf_bytes", "3", "can't be read")]
    [InlineData("UPDATE audit_event SET actor_name = 'Somebody Else' WHERE seq = 3", "3", "columns of event 3")]
    [InlineData("UPDATE audit_event SET leaf_hash = sha256('x') WHERE seq = 3", "3", "does not give its leaf hash")]
    [InlineData("DELETE FROM audit_event WHERE seq = 3", "3", "Event 3 is missing")]
    // The revision's state then contradicts the event before the one that was cut off.
    [InlineData("DELETE FROM audit_event WHERE action = 'decision.approved'", "(SELECT max(size) - 2 FROM audit_head)", "are stored")]
    [InlineData("UPDATE audit_event SET at = 'infinity' WHERE seq = 3", "3", "event 3")]
    [InlineData("UPDATE audit_head SET size = size - 1", "(SELECT max(size) - 1 FROM audit_head)", "beyond the end")]
    [InlineData("UPDATE audit_head SET size = size + 1", null, "in one place")]
    [InlineData("UPDATE audit_head SET compact_range = 'x'", null, "can't be read")]
    [InlineData("UPDATE audit_head SET compact_range = ''", null, "can't be read")]
    [InlineData("DELETE FROM audit_head", null, "head of the log is missing")]
    public async Task Check_Tampered_SaysWhereAndWhat(string sql, string? sequenceSql, string words)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView revision = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
        LogStatus before = await world.CheckLogAsync();
        Assert.True(before.Consistent, string.Join(' ', before.Faults));
        Assert.Empty(before.Faults);
        long? sequence = sequenceSql is null ? null : await SequenceAsync(world, sequenceSql);

        // A statement that must break a constraint of its own drops it first.
        string[] parts = sql.Split("; ");
        await TestWorld.ExecuteAsync(world.Database.Owner, $"{Off} {string.Join("; ", parts.Reverse())}");
        LogStatus after = await world.CheckLogAsync();
        Assert.False(after.Consistent);
        Assert.Contains(after.Faults, fault => fault.Sentence.Contains(words, StringComparison.Ordinal));
        if (sequence is { } expected)
        {
            Assert.Equal(expected, after.FirstBadSequence);
        }

        // Reading goes on, with the damage in it.
        Actor lena = await world.ActorAsync(world.Lena);
        Assert.NotEmpty(TestWorld.Must(await world.CallAsync<HistoryHandler, Result<Page<EventView>, Refusal>>(x => x.ListAsync(lena, new HistoryFilter(), null, 500, CancellationToken.None))).Items);
    }

    /// <summary>Versions of thresholds, of own substances and of the inventory: each has its event.</summary>
    [Theory]
    [InlineData("UPDATE policy_version SET content = '{}' WHERE version = 2", "What is stored of version 2 of the thresholds does not give its digest.")]
    [InlineData("UPDATE policy_version SET content = '{}', content_digest = 'sha256:' || encode(sha256('{}'), 'hex') WHERE version = 2", "The digest of version 2 of the thresholds is not the one in the history.")]
    [InlineData("UPDATE policy_version SET author_id = (SELECT id FROM account WHERE user_name = 'rolf')", "The author of version 2 of the thresholds")]
    [InlineData("DELETE FROM policy_version WHERE version = 3", "The history tells of version 3 of the thresholds, and it is not stored.")]
    [InlineData("INSERT INTO policy_version SELECT group_id, 4, author_id, at, reason, content, content_digest FROM policy_version WHERE version = 3", "No event tells of version 4 of the thresholds.")]
    [InlineData("UPDATE inventory_version SET content = '{}'", "What is stored of version 1 of the vessel")]
    [InlineData("DELETE FROM inventory_version", "The history tells of version 1 of the vessel")]
    public async Task Check_VersionTampered_SaysWhichAndWhat(string sql, string words)
    {
        const string VersionsOff = """
            ALTER TABLE policy_version DISABLE TRIGGER ALL; ALTER TABLE inventory_version DISABLE TRIGGER ALL;
            DO $$ DECLARE c record; BEGIN FOR c IN SELECT conrelid::regclass AS t, conname FROM pg_constraint WHERE contype = 'c' AND conrelid IN ('policy_version'::regclass, 'inventory_version'::regclass)
            LOOP EXECUTE format('ALTER TABLE %s DROP CONSTRAINT %I', c.t, c.conname); END LOOP; END $$;
            """;
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor lena = await world.ActorAsync(world.Lena);
        foreach ((int version, Policy policy) in ((int, Policy)[])[(1, Policy.Default with { OvershootK = 20 }), (2, Policy.Default)])
        {
            TestWorld.Must(await world.CallAsync<PolicyHandler, Result<PolicyView, Refusal>>(x => x.SetAsync(lena, version, policy, "A test.", CancellationToken.None)));
        }

        TestWorld.Must(await world.CallAsync<InventoryHandler, Result<InventoryView, Refusal>>(x => x.AddAsync(lena, InventoryKind.Vessel, """{ "label": "T-07", "kind": "tube" }"""u8.ToArray(), CancellationToken.None)));
        Assert.Empty((await world.CheckLogAsync()).Faults);
        await TestWorld.ExecuteAsync(world.Database.Owner, $"{VersionsOff} {sql}");
        LogStatus after = await world.CheckLogAsync();
        Assert.False(after.Consistent);
        Assert.Contains(after.Faults, fault => fault.Sentence.Contains(words, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Check_EventsWithoutTheirPlaceInTheHead_AreBeyondTheEnd()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await world.SubmitAsync("Tube", "pressure/warning");
        long size = await SequenceAsync(world, "(SELECT size FROM audit_head ORDER BY size DESC LIMIT 1)");
        await TestWorld.ExecuteAsync(world.Database.Owner, $"""
            {Off} INSERT INTO audit_event SELECT (copied).* FROM (
                SELECT jsonb_populate_record(e, jsonb_build_object('seq', {size})) AS copied FROM audit_event e WHERE seq = 0 AND group_id = '{world.GroupId}') x
            """);
        LogStatus after = await world.CheckLogAsync();
        Assert.Equal(size, after.FirstBadSequence);
        Assert.Contains(after.Faults, fault => fault.Sentence.Contains("beyond the end", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("UPDATE audit_head SET compact_range = 'x'")]
    [InlineData("UPDATE audit_head SET size = size + 1")]
    [InlineData("DELETE FROM audit_head")]
    public async Task Append_ToADamagedHead_FailsClearly(string sql)
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        await TestWorld.ExecuteAsync(world.Database.Owner, $"{Off} {sql}");
        DamagedLogException failure = await Assert.ThrowsAsync<DamagedLogException>(() => world.DraftAsync("Tube"));
        Assert.Contains("log", failure.Message, StringComparison.Ordinal);
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM procedure"));
    }

    [Fact]
    public async Task Check_WhileOthersWrite_IsOfOneMoment()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Task writers = Parallel.ForEachAsync(Enumerable.Range(0, 30), new ParallelOptions { MaxDegreeOfParallelism = 4 }, async (i, _) =>
        {
            RevisionView revision = await world.SubmitAsync($"Tube {i}", "pressure/warning");
            TestWorld.Must(await world.DecideAsync(world.Rosa, revision.ProcedureId, TestWorld.Approval(1, "pressure/warning")));
        });
        while (!writers.IsCompleted)
        {
            LogStatus status = await world.CheckLogAsync();
            Assert.True(status.Consistent, string.Join(' ', status.Faults));
        }

        await writers;
    }

    private static Task<long> SequenceAsync(TestWorld world, string sql) => world.ScalarAsync<long>($"SELECT {sql}");
}
