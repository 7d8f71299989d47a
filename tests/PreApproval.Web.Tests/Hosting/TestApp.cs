using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;

[assembly: AssemblyFixture(typeof(PreApproval.Web.Tests.Hosting.TestApp))]

// One application and one database: tests that count rows must not count each other's.
[assembly: Xunit.v3.Parallelization(Mode = Xunit.Sdk.ParallelMode.None)]

namespace PreApproval.Web.Tests.Hosting;

/// <summary>One application for the run, with two groups and everybody the rules distinguish, each with a token.</summary>
public sealed class TestApp : IAsyncLifetime
{
    public const string Password = "a long enough sentence";

    private readonly Dictionary<string, (Guid Id, string Token)> _people = new(StringComparer.Ordinal);

    public WebApp App { get; private set; } = null!;

    /// <summary>For tests that need an application of their own.</summary>
    public PostgresServer Server { get; } = new();

    /// <summary>The owner's, to look behind the application.</summary>
    public string ConnectionString { get; private set; } = "";

    /// <summary>The application's own, for a second application on the same database.</summary>
    public string Application { get; private set; } = "";

    public Guid Group { get; private set; }

    public Guid OtherGroup { get; private set; }

    public async ValueTask InitializeAsync()
    {
        TestDatabase database = await Server.CreateDatabaseAsync();
        ConnectionString = database.Owner;
        Application = database.Application;
        App = WebApp.Start(database.Application);
        Group = await AddGroupAsync("Group one (invented)",
            ("author", [GroupRole.Member], []),
            ("member", [GroupRole.Member], []),
            ("pressure-reviewer", [GroupRole.Reviewer], [Hazard.Pressure, Hazard.Temperature]),
            ("fire-reviewer", [GroupRole.Reviewer], [Hazard.Fire, Hazard.Toxicity]),
            ("lead", [GroupRole.Lead], []),
            ("administrator", [GroupRole.Administrator], []),
            ("auditor", [GroupRole.Auditor], []));
        OtherGroup = await AddGroupAsync("Group two (invented)", ("foreign-author", [GroupRole.Member], []), ("foreign-lead", [GroupRole.Lead], []));
    }

    public async ValueTask DisposeAsync()
    {
        await App.DisposeAsync();
        await Server.DisposeAsync();
    }

    public Guid Id(string person) => _people[person].Id;

    /// <summary>A client with the person's token; null: nobody. Another application on the same database knows them too.</summary>
    public HttpClient As(string? person, WebApp? app = null)
    {
        HttpClient client = (app ?? App).Client();
        if (person is not null)
        {
            client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", _people[person].Token);
        }

        return client;
    }

    /// <summary>A client with a token that no other client has.</summary>
    public async Task<HttpClient> AsWithANewTokenAsync(string person)
    {
        HttpClient client = App.Client();
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = person, password = Password });
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", (string)(await Read.ObjectAsync(answer))["token"]!);
        return client;
    }

    /// <summary>A new account in a group, with a token.</summary>
    public async Task<Guid> AddPersonAsync(Guid group, string userName, IReadOnlyList<GroupRole> roles, IReadOnlyList<Hazard> competences)
    {
        await using AsyncServiceScope scope = App.Services.CreateAsyncScope();
        var setup = scope.ServiceProvider.GetRequiredService<GroupSetup>();
        Actor installer = GroupSetup.SetupActor(group, TimeProvider.System);
        Guid id = Must(await setup.CreateAccountAsync(installer, userName, $"Invented {userName}", Password, CancellationToken.None));
        Must(await setup.SetMembershipAsync(installer, id, roles, competences, CancellationToken.None));
        using HttpClient client = App.Client();
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/tokens", new { userName, password = Password });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        _people.Add(userName, (id, (string)(await Read.ObjectAsync(answer))["token"]!));
        return id;
    }

    public async Task DeactivateAsync(string person)
    {
        await using AsyncServiceScope scope = App.Services.CreateAsyncScope();
        Must(await scope.ServiceProvider.GetRequiredService<GroupSetup>()
            .DeactivateAsync(GroupSetup.SetupActor(Group, TimeProvider.System), Id(person), "test", CancellationToken.None));
    }

    /// <summary>Number of rows in every table that a request of the API could change.</summary>
    public async Task<string> RowsAsync()
    {
        await using var connection = new NpgsqlConnection(ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("""
            SELECT format('procedure %s, draft %s, revision %s, finding %s, slot %s, decision %s, event %s, notice %s, policy %s, key %s',
              (SELECT count(*) FROM procedure), (SELECT count(*) FROM draft), (SELECT count(*) FROM revision), (SELECT count(*) FROM finding), (SELECT count(*) FROM slot),
              (SELECT count(*) FROM decision), (SELECT count(*) FROM audit_event), (SELECT count(*) FROM notice), (SELECT count(*) FROM policy_version), (SELECT count(*) FROM idempotency_record))
            """, connection);
        return (string)(await command.ExecuteScalarAsync())!;
    }

    public async Task<long> EventsAsync(string action)
    {
        await using var connection = new NpgsqlConnection(ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT count(*) FROM audit_event WHERE action LIKE $1", connection) { Parameters = { new() { Value = action } } };
        return (long)(await command.ExecuteScalarAsync())!;
    }

    /// <summary>A draft of <c>author</c>; its address.</summary>
    public async Task<string> DraftAsync(string title, string person = "author")
    {
        using HttpClient client = As(person);
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Sample.Document(title) });
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }

    /// <summary>A submitted procedure of <c>author</c>; its address.</summary>
    public async Task<string> SubmittedAsync(string title, string person = "author")
    {
        string address = await DraftAsync(title, person);
        using HttpClient client = As(person);
        using HttpResponseMessage answer = await client.PostAsync($"{address}/submissions", content: null);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return address;
    }

    private async Task<Guid> AddGroupAsync(string name, params (string UserName, GroupRole[] Roles, Hazard[] Competences)[] people)
    {
        Guid group;
        await using (AsyncServiceScope scope = App.Services.CreateAsyncScope())
        {
            group = Must(await scope.ServiceProvider.GetRequiredService<GroupSetup>().CreateGroupAsync(name, CancellationToken.None));
        }

        foreach ((string userName, GroupRole[] roles, Hazard[] competences) in people)
        {
            await AddPersonAsync(group, userName, roles, competences);
        }

        return group;
    }

    private static T Must<T>(Result<T, Refusal> result)
        where T : notnull => result.IsOk ? result.Value : throw new InvalidOperationException(result.Error.Message + string.Concat(result.Error.Faults.Select(f => f.Message)));
}
