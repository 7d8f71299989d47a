using PreApproval.Procedures;
using PreApproval.Web.Identity;
using PreApproval.Web.Pages;
using PreApproval.Web.Shared;

if (!StartOptions.TryParse(args, out StartOptions options, out string error))
{
    await Console.Error.WriteLineAsync($"{error}\n\n{StartOptions.Usage}");
    return 2;
}

WebApplicationBuilder builder = WebApplication.CreateBuilder([.. options.Settings]);
builder.ConfigureHost();
builder.Services.AddLog(builder.Configuration, quiet: builder.Configuration.GetValue("demo", false) && !Console.IsOutputRedirected);
builder.Services.AddSignIn();
builder.Services.AddRateLimits(builder.Configuration);
builder.Services.AddApiDescription();
builder.Services.AddHealthChecks().AddCheck<NotStopping>("stopping", tags: [Health.Ready]);
builder.Services.AddProcedures();
builder.Services.AddPages();

WebApplication app = builder.Build();
app.UseSecurityHeaders();
app.UseNamedProxies();
app.UseRequestLog();
app.UseProblems();
app.UseRateLimiter();
app.UseRouting();
app.UseAuthentication();
app.UseCrossSiteGuard();
app.UseAuthorization();
app.UseAntiforgery();
app.MapHealth();
app.MapApi();
app.MapPages();
await app.RunAsync();
return 0;

/// <summary>The entry point; public for the tests that start the application.</summary>
public partial class Program;
