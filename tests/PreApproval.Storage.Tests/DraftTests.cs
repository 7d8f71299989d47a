using System.Text;
using PreApproval.Documents;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

namespace PreApproval.Storage.Tests;

public sealed class DraftTests(PostgresServer server)
{
    [Fact]
    public async Task Save_StaleVersion_IsRefusedAndKeepsTheOther()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("First");
        TestWorld.Must(await world.SaveAsync(world.Mia, id, 1, FakeScreening.Document("Second")));
        Result<DraftView, Refusal> stale = await world.SaveAsync(world.Mia, id, 1, FakeScreening.Document("Third"));
        Assert.Equal(RefusalKind.Stale, stale.Error?.Kind);
        DraftView read = TestWorld.Must(await ReadAsync(world, world.Mia, id));
        Assert.Equal(("Second", 2), (read.Title, read.Version));
    }

    [Fact]
    public async Task Save_TwoAtOnce_OneIsStale()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("First");
        Result<DraftView, Refusal>[] both = await Task.WhenAll(
            world.SaveAsync(world.Mia, id, 1, FakeScreening.Document("One")), world.SaveAsync(world.Mia, id, 1, FakeScreening.Document("Other")));
        Assert.Single(both, result => result.IsOk);
        Assert.Equal(RefusalKind.Stale, both.Single(result => !result.IsOk).Error?.Kind);
    }

    [Fact]
    public async Task Submit_TwiceAtOnce_MakesOneRevision()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("Tube", "pressure/warning");
        Result<RevisionView, Refusal>[] both = await Task.WhenAll(world.SubmitAsync(world.Mia, id, 1), world.SubmitAsync(world.Mia, id, 1));
        Assert.Single(both, result => result.IsOk);
        Assert.Contains(both.Single(result => !result.IsOk).Error!.Kind, (RefusalKind[])[RefusalKind.Stale, RefusalKind.Conflict]);
        Assert.Equal(1, await world.ScalarAsync<long>("SELECT count(*) FROM revision"));
    }

    [Fact]
    public async Task Submit_StaleVersion_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("Tube");
        TestWorld.Must(await world.SaveAsync(world.Mia, id, 1, FakeScreening.Document("Tube, changed")));
        Assert.Equal(RefusalKind.Stale, (await world.SubmitAsync(world.Mia, id, 1)).Error?.Kind);
    }

    [Fact]
    public async Task Submit_InReview_MustWait()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube", "pressure/warning");
        TestWorld.Must(await world.SaveAsync(world.Mia, first.ProcedureId, 2, FakeScreening.Document("Tube, changed")));
        Assert.Equal(RefusalKind.Conflict, (await world.SubmitAsync(world.Mia, first.ProcedureId, 3)).Error?.Kind);
    }

    [Fact]
    public async Task Submit_Unchanged_IsRefused()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        RevisionView first = await world.SubmitAsync("Tube");
        Assert.Equal(RefusalKind.Conflict, (await world.SubmitAsync(world.Mia, first.ProcedureId, 2)).Error?.Kind);
    }

    [Fact]
    public async Task Submit_Faulty_NamesTheFaultsAndStoresNothing()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("");
        long events = await world.ScalarAsync<long>("SELECT count(*) FROM audit_event");
        Result<RevisionView, Refusal> result = await world.SubmitAsync(world.Mia, id, 1);
        Assert.Equal(RefusalKind.Invalid, result.Error?.Kind);
        Assert.Equal("/title", Assert.Single(result.Error!.Faults).Path);
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM revision"));
        Assert.Equal(events, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event"));
    }

    [Fact]
    public async Task Create_NotJson_StoresNothing()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Actor mia = await world.ActorAsync(world.Mia);
        Result<DraftView, Refusal> result = await world.CallAsync<DraftHandler, Result<DraftView, Refusal>>(
            handler => handler.CreateAsync(mia, Encoding.UTF8.GetBytes("{\"title\":"), CancellationToken.None));
        Assert.Equal(RefusalKind.Malformed, result.Error?.Kind);
        Assert.Equal(0, await world.ScalarAsync<long>("SELECT count(*) FROM procedure"));
    }

    [Fact]
    public async Task Create_TitleThatNoColumnTakes_IsKeptInTheDocumentAndMendedInLists()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("Tube\0 one " + new string('x', 70_000));
        DraftView read = TestWorld.Must(await ReadAsync(world, world.Mia, id));
        Assert.StartsWith("Tube  one x", read.Title, StringComparison.Ordinal);
        Assert.True(read.Title.Length <= 200);
        Assert.Equal(FakeScreening.Document("Tube\0 one " + new string('x', 70_000)).ToArray(), read.Document.ToArray());
    }

    [Fact]
    public async Task Autosave_WritesNoEvent()
    {
        await using TestWorld world = await TestWorld.CreateAsync(server);
        Guid id = await world.DraftAsync("Tube");
        long events = await world.ScalarAsync<long>("SELECT count(*) FROM audit_event");
        for (int version = 1; version <= 3; version++)
        {
            TestWorld.Must(await world.SaveAsync(world.Mia, id, version, FakeScreening.Document($"Tube {version}")));
        }

        Assert.Equal(events, await world.ScalarAsync<long>("SELECT count(*) FROM audit_event"));
    }

    private static async Task<Result<DraftView, Refusal>> ReadAsync(TestWorld world, Guid person, Guid id)
    {
        Actor actor = await world.ActorAsync(person);
        return await world.CallAsync<DraftHandler, Result<DraftView, Refusal>>(handler => handler.ReadAsync(actor, id, CancellationToken.None));
    }
}
