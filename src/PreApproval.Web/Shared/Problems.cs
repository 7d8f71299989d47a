using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;
using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>A field at fault.</summary>
/// <param name="Path">JSON Pointer into the body, or <c>?name</c> for a query parameter.</param>
/// <param name="Message">What is wrong and what would be right.</param>
public sealed record FieldError(string Path, string Message);

/// <summary>The problem of RFC 9457 as this API writes it.</summary>
public sealed class ApiProblem : ProblemDetails
{
    /// <summary>Stable word for programs, for instance <c>stale</c>.</summary>
    [JsonPropertyName("code")]
    public string Code { get; init; } = "";

    /// <summary>One entry per fault; empty where no field is at fault.</summary>
    [JsonPropertyName("errors")]
    public IReadOnlyList<FieldError> Errors { get; init; } = [];

    /// <summary>Find this request in the log.</summary>
    [JsonPropertyName("requestId")]
    public string RequestId { get; init; } = "";
}

/// <summary>Refusals as problem documents.</summary>
public static class Problems
{
    public const string ContentType = "application/problem+json";

    public static int StatusOf(RefusalKind kind) => kind switch
    {
        RefusalKind.NotFound => StatusCodes.Status404NotFound,
        RefusalKind.Forbidden => StatusCodes.Status403Forbidden,
        RefusalKind.Conflict => StatusCodes.Status409Conflict,
        RefusalKind.Stale => StatusCodes.Status412PreconditionFailed,
        RefusalKind.TooLarge => StatusCodes.Status413PayloadTooLarge,
        RefusalKind.Malformed => StatusCodes.Status400BadRequest,
        RefusalKind.Invalid => StatusCodes.Status422UnprocessableEntity,
        RefusalKind.SignInAgain => StatusCodes.Status401Unauthorized,
    };

    public static string CodeOf(RefusalKind kind) => kind switch
    {
        RefusalKind.NotFound => "not-found",
        RefusalKind.Forbidden => "forbidden",
        RefusalKind.Conflict => "conflict",
        RefusalKind.Stale => "stale",
        RefusalKind.TooLarge => "too-large",
        RefusalKind.Malformed => "malformed",
        RefusalKind.Invalid => "invalid",
        RefusalKind.SignInAgain => "sign-in-again",
    };

    public static ProblemResult From(HttpContext context, Refusal refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        return Make(context, StatusOf(refusal.Kind), CodeOf(refusal.Kind), refusal.Message,
            [.. refusal.Faults.Select(f => new FieldError(f.Path, f.Message))]);
    }

    public static ProblemResult From(HttpContext context, DocumentRefusal refusal) => From(context, DocumentScreener.Refuse(refusal));

    public static ProblemResult Make(HttpContext context, int status, string code, string detail, params IReadOnlyList<FieldError> errors)
    {
        ArgumentNullException.ThrowIfNull(context);
        return new ProblemResult(new ApiProblem
        {
            Type = "about:blank",
            Title = ReasonPhrases.GetReasonPhrase(status),
            Status = status,
            Detail = detail,
            Code = code,
            Errors = errors,
            RequestId = context.TraceIdentifier,
        });
    }

    /// <summary>A status that the framework answered with no body.</summary>
    public static ProblemResult FromStatus(HttpContext context, int status) => status switch
    {
        StatusCodes.Status400BadRequest => Make(context, status, "malformed", "The request could not be read."),
        StatusCodes.Status401Unauthorized => Make(context, status, "sign-in", "Sign in first: POST /api/v1/tokens gives a bearer token."),
        StatusCodes.Status403Forbidden => Make(context, status, "forbidden", "You may not do this."),
        StatusCodes.Status404NotFound => Make(context, status, "not-found", Refusal.NotFound.Message),
        StatusCodes.Status405MethodNotAllowed => Make(context, status, "method-not-allowed", "This address does not know that method; the header Allow lists those it knows."),
        StatusCodes.Status413PayloadTooLarge => Make(context, status, "too-large", "The body is larger than 1 MB."),
        StatusCodes.Status415UnsupportedMediaType => Make(context, status, "unsupported-media-type", "Send application/json in UTF-8."),
        StatusCodes.Status429TooManyRequests => Make(context, status, "too-many-requests", "Too many attempts; try again after the seconds given in Retry-After."),
        StatusCodes.Status503ServiceUnavailable => Make(context, status, "busy", "The server has more to do than it can at the moment; try again after the seconds given in Retry-After. Nothing was changed."),
        >= 500 => Make(context, status, "internal-error", "Something failed on the server. Its log has the details under the request id."),
        _ => Make(context, status, "refused", "The request was refused."),
    };
}

/// <summary>A typed result for <see cref="ApiProblem"/>.</summary>
public sealed class ProblemResult(ApiProblem problem) : IResult, IStatusCodeHttpResult, IValueHttpResult<ApiProblem>, IContentTypeHttpResult
{
    public ApiProblem Value => problem;

    ApiProblem? IValueHttpResult<ApiProblem>.Value => problem;

    public int? StatusCode => problem.Status;

    public string ContentType => Problems.ContentType;

    public async Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        httpContext.Response.StatusCode = problem.Status ?? StatusCodes.Status500InternalServerError;
        if (problem.Status == StatusCodes.Status401Unauthorized && httpContext.Response.Headers.WWWAuthenticate.Count == 0)
        {
            httpContext.Response.Headers.WWWAuthenticate = "Bearer";
        }

        await httpContext.Response.WriteAsJsonAsync(problem, ApiJson.Options, Problems.ContentType, httpContext.RequestAborted);
    }
}
