using System.Globalization;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Submission;
using PreApproval.Procedures.Workflow;
using PreApproval.Storage;

namespace PreApproval.Testing;

/// <summary>
/// A group with its people in a database of its own, and the handlers over it as the application registers them. Invented persons.
/// Pressure goes to Rosa (deputy Rolf), fire to Rolf; Lena leads; Adam administers; Otto audits; Mia and Max are members.
/// </summary>
public sealed class TestWorld : IAsyncDisposable
{
    public const string Password = "correct horse battery 7";

    private readonly ServiceProvider _services;

    private TestWorld(TestDatabase database, ManualClock clock, ServiceProvider services) => (Database, Clock, _services) = (database, clock, services);

    public TestDatabase Database { get; }

    public ManualClock Clock { get; }

    public Guid GroupId { get; private set; }

    /// <summary>A second group, of which only Fred is a member.</summary>
    public Guid ForeignGroupId { get; private set; }

    public Guid Mia { get; private set; }

    public Guid Max { get; private set; }

    public Guid Rosa { get; private set; }

    public Guid Rolf { get; private set; }

    public Guid Lena { get; private set; }

    public Guid Adam { get; private set; }

    public Guid Otto { get; private set; }

    public Guid Fred { get; private set; }

    public Actor Setup => GroupSetup.SetupActor(GroupId, Clock);

    public static async Task<TestWorld> CreateAsync(PostgresServer server, Action<DbContextOptionsBuilder>? configure = null)
    {
        TestDatabase database = await server.CreateDatabaseAsync();
        var clock = new ManualClock(new DateTimeOffset(2031, 3, 4, 9, 0, 0, TimeSpan.Zero));
        var services = new ServiceCollection();
        services.AddLogging();
        services.AddSingleton<TimeProvider>(clock);
        services.AddSingleton(FakeScreening.Screener);
        services.AddStorage(database.Application, configure);
        services.AddProcedures();
        services.AddIdentityCore<Account>().AddStorageStores();

        // One round: the tests do not attack the passwords.
        services.Configure<PasswordHasherOptions>(options => options.IterationCount = 1);
        services.Configure<IdentityOptions>(options => options.Password.RequireUppercase = options.Password.RequireNonAlphanumeric = false);
        var world = new TestWorld(database, clock, services.BuildServiceProvider(validateScopes: true));
        await world.PopulateAsync();
        return world;
    }

    /// <summary>Calls a handler in a scope of its own, as a request does.</summary>
    public async Task<T> CallAsync<THandler, T>(Func<THandler, Task<T>> act)
        where THandler : notnull
    {
        await using AsyncServiceScope scope = _services.CreateAsyncScope();
        return await act(scope.ServiceProvider.GetRequiredService<THandler>());
    }

    /// <summary>A scope, for tests that share a unit of work between services.</summary>
    public AsyncServiceScope Scope() => _services.CreateAsyncScope();

    /// <summary>The person as a request sees them: with the roles of the database, in the group given or in the group of the test.</summary>
    public async Task<Actor> ActorAsync(Guid accountId, Guid? groupId = null)
    {
        Guid group = groupId ?? GroupId;
        IReadOnlyList<Membership> memberships = await CallAsync<MembershipQueries, IReadOnlyList<Membership>>(queries => queries.ForAccountAsync(accountId, CancellationToken.None));
        string name = await ScalarAsync<string>($"SELECT display_name FROM account WHERE id = '{accountId}'");
        return new Actor(accountId, name, group, memberships.FirstOrDefault(membership => membership.GroupId == group)?.Roles ?? [], Clock.GetUtcNow(), "password", "test-request");
    }

    /// <summary>A new procedure of Mia's; its identifier.</summary>
    public async Task<Guid> DraftAsync(string title, params IReadOnlyList<string> flags)
    {
        Actor mia = await ActorAsync(Mia);
        return Must(await CallAsync<DraftHandler, Result<DraftView, Refusal>>(handler => handler.CreateAsync(mia, FakeScreening.Document(title, flags), CancellationToken.None))).ProcedureId;
    }

    /// <summary>A new procedure of Mia's, submitted.</summary>
    public async Task<RevisionView> SubmitAsync(string title, params IReadOnlyList<string> flags)
    {
        Guid id = await DraftAsync(title, flags);
        return Must(await SubmitAsync(Mia, id, 1));
    }

    public async Task<Result<RevisionView, Refusal>> SubmitAsync(Guid person, Guid procedureId, int version)
    {
        Actor actor = await ActorAsync(person);
        return await CallAsync<SubmissionHandler, Result<RevisionView, Refusal>>(handler => handler.SubmitAsync(actor, procedureId, version, CancellationToken.None));
    }

    public async Task<Result<DraftView, Refusal>> SaveAsync(Guid person, Guid procedureId, int version, ReadOnlyMemory<byte> document)
    {
        Actor actor = await ActorAsync(person);
        return await CallAsync<DraftHandler, Result<DraftView, Refusal>>(handler => handler.SaveAsync(actor, procedureId, version, document, CancellationToken.None));
    }

    public async Task<Result<RevisionView, Refusal>> DecideAsync(Guid person, Guid procedureId, DecisionRequest request)
    {
        Actor actor = await ActorAsync(person);
        return await CallAsync<DecisionHandler, Result<RevisionView, Refusal>>(handler => handler.DecideAsync(actor, procedureId, request, CancellationToken.None));
    }

    /// <summary>An approval that accepts the findings of these flags.</summary>
    public static DecisionRequest Approval(int revision, params IReadOnlyList<string> flags) => new(
        revision,
        DecisionKind.Approve,
        string.Empty,
        [.. flags.Select(flag => new FindingAnswer(FakeScreening.FindingId(flag), AnswerKind.Accept, "Within what we have done often."))],
        PasswordConfirmed: true);

    public static T Must<T>(Result<T, Refusal> result)
        where T : notnull => result.IsOk
            ? result.Value
            : throw new InvalidOperationException($"{result.Error.Kind}: {result.Error.Message} {string.Join("; ", result.Error.Faults)}");

    /// <summary>A value by SQL, as the owner.</summary>
    public Task<T> ScalarAsync<T>(string sql) => ScalarAsync<T>(Database.Owner, sql);

    public static async Task<T> ScalarAsync<T>(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync();
#pragma warning disable CA2100 // SQL of tests
        await using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        return (T)Convert.ChangeType(await command.ExecuteScalarAsync() ?? throw new InvalidOperationException("No value."), typeof(T), CultureInfo.InvariantCulture);
    }

    public static async Task<int> ExecuteAsync(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync();
        return await ExecuteAsync(connection, sql);
    }

    /// <summary>On a connection that is open, for what must happen in its transaction.</summary>
    public static async Task<int> ExecuteAsync(NpgsqlConnection connection, string sql)
    {
#pragma warning disable CA2100 // SQL of tests
        await using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        return await command.ExecuteNonQueryAsync();
    }

    /// <summary>Until so many sessions wait for a lock, or a call, which should, has ended without one.</summary>
    public async Task LocksAsync(int sessions, CancellationToken cancellationToken, params Task[] calls)
    {
        while (await ScalarAsync<long>("SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'") < sessions && !Array.Exists(calls, call => call.IsCompleted))
        {
            await Task.Delay(10, cancellationToken);
        }
    }

    /// <summary>What the check of the log finds, asked by the lead.</summary>
    public async Task<LogStatus> CheckLogAsync()
    {
        Actor lena = await ActorAsync(Lena);
        return Must(await CallAsync<HistoryHandler, Result<LogStatus, Refusal>>(handler => handler.CheckAsync(lena, CancellationToken.None)));
    }

    public async Task<Guid> AccountAsync(Guid groupId, string userName, string name, IReadOnlyList<GroupRole> roles, params IReadOnlyList<Hazard> competences)
    {
        Actor setup = GroupSetup.SetupActor(groupId, Clock);
        Guid id = Must(await CallAsync<GroupSetup, Result<Guid, Refusal>>(handler => handler.CreateAccountAsync(setup, userName, name, Password, CancellationToken.None)));
        Must(await CallAsync<GroupSetup, Result<MemberView, Refusal>>(handler => handler.SetMembershipAsync(setup, id, roles, competences, CancellationToken.None)));
        return id;
    }

    public async ValueTask DisposeAsync()
    {
        await _services.DisposeAsync();
        foreach (string connectionString in (string[])[Database.Application, Database.Owner])
        {
            await using var connection = new NpgsqlConnection(connectionString);
            NpgsqlConnection.ClearPool(connection);
        }
    }

    private async Task PopulateAsync()
    {
        GroupId = Must(await CallAsync<GroupSetup, Result<Guid, Refusal>>(handler => handler.CreateGroupAsync("Synthesis group (invented)", CancellationToken.None)));
        ForeignGroupId = Must(await CallAsync<GroupSetup, Result<Guid, Refusal>>(handler => handler.CreateGroupAsync("Other group (invented)", CancellationToken.None)));
        Mia = await AccountAsync(GroupId, "mia", "Mia Member", [GroupRole.Member]);
        Max = await AccountAsync(GroupId, "max", "Max Member", [GroupRole.Member]);
        Rosa = await AccountAsync(GroupId, "rosa", "Rosa Reviewer", [GroupRole.Reviewer], Hazard.Pressure, Hazard.Incompatibility);
        Rolf = await AccountAsync(GroupId, "rolf", "Rolf Reviewer", [GroupRole.Reviewer], Hazard.Pressure, Hazard.Fire);
        Lena = await AccountAsync(GroupId, "lena", "Lena Lead", [GroupRole.Lead]);
        Adam = await AccountAsync(GroupId, "adam", "Adam Administrator", [GroupRole.Administrator]);
        Otto = await AccountAsync(GroupId, "otto", "Otto Auditor", [GroupRole.Auditor]);
        Fred = await AccountAsync(ForeignGroupId, "fred", "Fred Foreigner", [GroupRole.Member, GroupRole.Reviewer, GroupRole.Lead]);
        Actor lena = await ActorAsync(Lena);
        Must(await CallAsync<GroupSetup, Result<IReadOnlyList<RoutingRule>, Refusal>>(handler => handler.SetRoutingAsync(
            lena, [new RoutingRule(1, Hazard.Pressure, Rosa, Rolf), new RoutingRule(2, Hazard.Fire, Rolf, null)], CancellationToken.None)));
    }
}
