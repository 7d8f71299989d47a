using System.Security.Claims;
using PreApproval.Documents;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Accounts;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Pages;

/// <summary>The pages of the application.</summary>
public static class PagesSetup
{
    /// <summary>What is typed, and a pasted document of ordinary size. A large draft is read from the database, not sent by the browser.</summary>
    private const int LargestMessageBytes = 256 * 1024;

    /// <summary>Editors whose connection broke and may come back; each holds a draft in memory.</summary>
    private const int MostDisconnectedEditors = 50;

    public static IServiceCollection AddPages(this IServiceCollection services)
    {
        services.AddRazorComponents()
            .AddInteractiveServerComponents(o => o.DisconnectedCircuitMaxRetained = MostDisconnectedEditors)
            .AddHubOptions(o => o.MaximumReceiveMessageSize = LargestMessageBytes);
        services.AddCascadingAuthenticationState();
        services.AddSingleton<LiveWork>();
        return services;
    }

    public static WebApplication MapPages(this WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        app.Use(GiveEmptyRefusalsAPageAsync);

        // In an unpublished build a route for files added later would answer for every path, and turn a 405 into a 404.
        app.Configuration["DisableStaticAssetNotFoundRuntimeFallback"] = "true";
        app.MapStaticAssets();

        // Everything here asks for a sign-in, the editor's connection too; pages for everybody say so themselves.
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode().RequireAuthorization();
        app.MapPost(EndedSession.Path, EndedSession.SignInAsync).ExcludeFromDescription();
        RouteGroupBuilder files = app.MapGroup("/procedures/{id:guid}").RequireAuthorization().ExcludeFromDescription();
        files.MapGet("/draft.json", DraftAsync);
        files.MapGet("/revisions/{number:int}/document.json", DocumentAsync);
        files.MapGet("/revisions/{number:int}/screening.json", ScreeningAsync);
        return app;
    }

    /// <summary>A form without a valid token is refused with a content type but no content, which would keep the error page away.</summary>
    private static async Task GiveEmptyRefusalsAPageAsync(HttpContext context, RequestDelegate next)
    {
        await next(context);
        if (context.Response is { HasStarted: false, StatusCode: StatusCodes.Status400BadRequest })
        {
            context.Response.ContentType = null;
        }
    }

    private static async Task<IResult> DraftAsync(Guid id, ClaimsPrincipal user, ActorProvider actors, DraftHandler drafts, CancellationToken cancellationToken)
    {
        if (await actors.ForProcedureAsync(user, id, cancellationToken) is not { } actor)
        {
            return Results.StatusCode(StatusCodes.Status403Forbidden);
        }

        Result<DraftView, Refusal> draft = await drafts.ReadAsync(actor, id, cancellationToken);
        return draft.IsOk ? Json(draft.Value.Document, "draft.json") : Results.StatusCode(Problems.StatusOf(draft.Error.Kind));
    }

    private static Task<IResult> DocumentAsync(Guid id, int number, ClaimsPrincipal user, ActorProvider actors, ProcedureQueries procedures, CancellationToken cancellationToken) =>
        RevisionFileAsync(id, number, user, actors, procedures, r => Json(r.Document, $"document-r{number}.json"), cancellationToken);

    private static Task<IResult> ScreeningAsync(Guid id, int number, ClaimsPrincipal user, ActorProvider actors, ProcedureQueries procedures, CancellationToken cancellationToken) =>
        RevisionFileAsync(id, number, user, actors, procedures, r => Json(r.Screening, $"screening-r{number}.json"), cancellationToken);

    private static async Task<IResult> RevisionFileAsync(
        Guid id, int number, ClaimsPrincipal user, ActorProvider actors, ProcedureQueries procedures, Func<RevisionView, IResult> file, CancellationToken cancellationToken)
    {
        if (await actors.ForProcedureAsync(user, id, cancellationToken) is not { } actor)
        {
            return Results.StatusCode(StatusCodes.Status403Forbidden);
        }

        Result<RevisionView, Refusal> revision = await procedures.ReadRevisionAsync(actor, id, number, cancellationToken);
        return revision.IsOk ? file(revision.Value) : Results.StatusCode(Problems.StatusOf(revision.Error.Kind));
    }

    private static IResult Json(ReadOnlyMemory<byte> bytes, string name) => Results.File(bytes.ToArray(), "application/json", name);
}
