using Microsoft.AspNetCore.DataProtection;
using PreApproval.Procedures;
using PreApproval.Procedures.Workflow;
using PreApproval.Storage;
using PreApproval.Storage.PrivateClusters;
using PreApproval.Web.Administration;
using PreApproval.Web.Identity;
using PreApproval.Web.Pages;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared;

if (!StartOptions.TryParse(args, out StartOptions options, out string error))
{
    await Console.Error.WriteLineAsync($"{error}\n\n{StartOptions.Usage}");
    return 2;
}

WebApplicationBuilder builder = WebApplication.CreateBuilder([.. options.Settings]);
bool demo = builder.Configuration.GetValue("demo", defaultValue: false);
string? server = builder.Configuration.GetConnectionString("PreApproval");
string? owner = builder.Configuration.GetConnectionString("PreApprovalOwner");
if (options.Migrate)
{
    if ((owner ?? server) is not { Length: > 0 } target)
    {
        await Console.Error.WriteLineAsync("Set ConnectionStrings__PreApprovalOwner to the owner of the database.");
        return 2;
    }

    await Migrator.MigrateAsync(target);
    Console.WriteLine("The schema is up to date.");
    return 0;
}

if (demo && !options.DemoAnyway && DemoGuard.WhyNot(builder.Configuration) is { } dangerous)
{
    await Console.Error.WriteLineAsync(dangerous);
    return 2;
}

if (string.Equals(builder.Configuration["FORWARDEDHEADERS_ENABLED"], "true", StringComparison.OrdinalIgnoreCase))
{
    await Console.Error.WriteLineAsync("ASPNETCORE_FORWARDEDHEADERS_ENABLED would believe anybody's headers. Name the proxy instead: ForwardedHeaders__KnownProxies__0=ADDRESS");
    return 2;
}

PrivateCluster? cluster = null;
if (string.IsNullOrEmpty(server))
{
    try
    {
        cluster = await PrivateCluster.StartAsync(new PrivateClusterOptions { DataFolder = builder.Configuration["data"] ?? PrivateClusterOptions.DefaultDataFolder });
    }
    catch (PrivateClusterException e)
    {
        await Console.Error.WriteLineAsync(e.Message);
        return 1;
    }
}

// Stops the server after the application, whatever ends it.
await using PrivateCluster? running = cluster;
string connectionString = cluster?.ConnectionString ?? server!;
if (cluster is not null)
{
    await Migrator.MigrateAsync(cluster.OwnerConnectionString);
}

builder.ConfigureHost();
builder.Services.AddLog(builder.Configuration, quiet: options.Setup is not null || (demo && !Console.IsOutputRedirected));
builder.Services.AddStorage(connectionString);
builder.Services.AddDataProtection().SetApplicationName("PreApproval").PersistKeysToStorage();
builder.Services.AddSignIn().AddStorageStores();
builder.Services.AddSingleton<RequestHash>();
builder.Services.AddScoped<KeyedRequests>();
builder.Services.AddRateLimits(builder.Configuration);
builder.Services.AddApiDescription();
builder.Services.AddHealthChecks()
    .AddCheck<NotStopping>("stopping", tags: [Health.Ready])
    .AddAsyncCheck("schema", async token => Health.Schema(await Migrator.IsBehindAsync(connectionString, token)), tags: [Health.Ready]);
builder.Services.AddSingleton<ScreeningLimiter>();
builder.Services.AddSingleton(p => p.GetRequiredService<ScreeningLimiter>().Around(DocumentScreener.Engine));
builder.Services.AddProcedures();
builder.Services.AddScoped<DemoSeed>();
builder.Services.AddScoped<Installation>();
builder.Services.AddSingleton<Pruning>();
builder.Services.AddHostedService(p => p.GetRequiredService<Pruning>());
builder.Services.AddPages();

WebApplication app = builder.Build();
app.UseSecurityHeaders();
app.UseNamedProxies();
app.UseRequestLog();
app.UseProblems();
app.UseBodyLimit();
app.UseRateLimiter();
app.UseHead();
app.UseRouting();
app.UseAuthentication();
app.UseCrossSiteGuard();
app.UseAuthorization();
app.UseAntiforgery();
app.MapHealth();
app.MapApi();
app.MapPages();

if (options.Setup is { } first)
{
    await using AsyncServiceScope scope = app.Services.CreateAsyncScope();
    return await scope.ServiceProvider.GetRequiredService<Installation>().RunAsync(first, CancellationToken.None);
}

if (demo)
{
    await using AsyncServiceScope scope = app.Services.CreateAsyncScope();
    await scope.ServiceProvider.GetRequiredService<DemoSeed>().FillAsync(CancellationToken.None);
}

await app.StartAsync();
if (demo)
{
    Console.WriteLine(StartMessage.For(app.Urls));
}

await app.WaitForShutdownAsync();
return 0;

/// <summary>The entry point; public for the tests that start the application.</summary>
public partial class Program;
