using Microsoft.AspNetCore.Diagnostics;
using PreApproval.Web.Identity;
using PreApproval.Web.Screenings;

namespace PreApproval.Web.Shared;

/// <summary>What is answered when something fails: a problem document to programs, the error page to people, never a stack trace.</summary>
public static class Errors
{
    public static IApplicationBuilder UseProblems(this IApplicationBuilder app)
    {
        app.UseWhen(c => ApiPaths.IsApi(c.Request.Path), api =>
        {
            api.UseExceptionHandler(Options(o => o.ExceptionHandler = AnswerAsync));
            api.UseStatusCodePages(c => Problems.FromStatus(c.HttpContext, c.HttpContext.Response.StatusCode).ExecuteAsync(c.HttpContext));
        });
        return app.UseWhen(c => !ApiPaths.IsApi(c.Request.Path), pages =>
        {
            pages.UseExceptionHandler(Options(o =>
            {
                o.ExceptionHandlingPath = "/error/500";
                o.CreateScopeForErrors = true;
            }));
            pages.UseStatusCodePagesWithReExecute("/error/{0}", queryFormat: null, createScopeForStatusCodePages: true);
            pages.Use(ShowErrorPagesAsGetAsync);
        });
    }

    /// <summary>An error page is fetched, whatever was posted: else the refused form would be judged, and refused, a second time.</summary>
    private static async Task ShowErrorPagesAsGetAsync(HttpContext context, RequestDelegate next)
    {
        string method = context.Request.Method;
        if (context.Features.Get<IStatusCodeReExecuteFeature>() is not null || context.Features.Get<IExceptionHandlerFeature>() is not null)
        {
            context.Request.Method = HttpMethods.Get;
        }

        try
        {
            if (context.Features.Get<IStatusCodeReExecuteFeature>() is not null)
            {
                await HeaderPerson.KeepOnAsync(context);
            }

            await next(context);
        }
        finally
        {
            context.Request.Method = method;
        }
    }

    private static ExceptionHandlerOptions Options(Action<ExceptionHandlerOptions> configure)
    {
        var options = new ExceptionHandlerOptions
        {
            // The caller went away or sent what cannot be read: their doing, no error of ours.
            SuppressDiagnosticsCallback = c => c.Exception is BadHttpRequestException or OperationCanceledException or ScreeningBusyException,
        };
        configure(options);
        return options;
    }

    private static async Task AnswerAsync(HttpContext context)
    {
        Exception? error = context.Features.Get<IExceptionHandlerFeature>()?.Error;
        int status = error switch
        {
            BadHttpRequestException bad => bad.StatusCode,
            _ when Busy.Is(error) => StatusCodes.Status503ServiceUnavailable,
            OperationCanceledException when context.RequestAborted.IsCancellationRequested => StatusCodes.Status499ClientClosedRequest,
            _ => StatusCodes.Status500InternalServerError,
        };
        if (status == StatusCodes.Status503ServiceUnavailable)
        {
            Busy.SayWhenToComeBack(context.Response);
        }

        await Problems.FromStatus(context, status).ExecuteAsync(context);
    }
}
