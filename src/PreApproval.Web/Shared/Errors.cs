using Microsoft.AspNetCore.Diagnostics;

namespace PreApproval.Web.Shared;

/// <summary>What is answered when something fails: a problem document to programs, the plain error page to people, never a stack trace.</summary>
public static class Errors
{
    public static IApplicationBuilder UseProblems(this IApplicationBuilder app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            // The caller went away or sent what cannot be read: their doing, no error of ours.
            SuppressDiagnosticsCallback = c => c.Exception is BadHttpRequestException or OperationCanceledException,
            ExceptionHandler = AnswerAsync,
        });
        return app.UseStatusCodePages(c => ApiPaths.IsApi(c.HttpContext.Request.Path)
            ? Problems.FromStatus(c.HttpContext, c.HttpContext.Response.StatusCode).ExecuteAsync(c.HttpContext)
            : Task.CompletedTask);
    }

    private static async Task AnswerAsync(HttpContext context)
    {
        Exception? error = context.Features.Get<IExceptionHandlerFeature>()?.Error;
        int status = error switch
        {
            BadHttpRequestException bad => bad.StatusCode,
            OperationCanceledException when context.RequestAborted.IsCancellationRequested => StatusCodes.Status499ClientClosedRequest,
            _ => StatusCodes.Status500InternalServerError,
        };
        if (ApiPaths.IsApi(context.Request.Path))
        {
            await Problems.FromStatus(context, status).ExecuteAsync(context);
            return;
        }

        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        await context.Response.WriteAsync($"Something failed on the server. Its log has the details under {context.TraceIdentifier}.", context.RequestAborted);
    }
}
