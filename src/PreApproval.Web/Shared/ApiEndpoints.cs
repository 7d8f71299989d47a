using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>What every endpoint of the API shares.</summary>
public static class ApiEndpoints
{
    public const int DefaultLimit = 50;

    public const int LargestLimit = 200;

    private static readonly int[] Always = [StatusCodes.Status401Unauthorized, StatusCodes.Status500InternalServerError, StatusCodes.Status503ServiceUnavailable];

    /// <summary>Names the problems an endpoint can answer, for the OpenAPI document; 401, 500 and 503 go without saying.</summary>
    public static RouteHandlerBuilder Refuses(this RouteHandlerBuilder endpoint, params int[] statuses)
    {
        ArgumentNullException.ThrowIfNull(endpoint);
        foreach (int status in statuses.Concat(Always).Distinct().Order())
        {
            endpoint.Produces<ApiProblem>(status, Problems.ContentType);
        }

        return endpoint;
    }

    /// <summary>An unsafe call with a JSON body, read by the endpoint itself.</summary>
    public static RouteHandlerBuilder Takes<TBody>(this RouteHandlerBuilder endpoint)
        where TBody : notnull
    {
        endpoint.AddEndpointFilter(static async (context, next) => RequestBody.IsJson(context.HttpContext.Request)
            ? await next(context)
            : Problems.FromStatus(context.HttpContext, StatusCodes.Status415UnsupportedMediaType));
        return endpoint.WithMetadata(new JsonBody(typeof(TBody)));
    }

    /// <summary>An unsafe call with a table of comma-separated values as its body, read by the endpoint itself.</summary>
    public static RouteHandlerBuilder TakesCsv(this RouteHandlerBuilder endpoint)
    {
        endpoint.AddEndpointFilter(static async (context, next) => RequestBody.IsCsv(context.HttpContext.Request)
            ? await next(context)
            : Problems.Make(context.HttpContext, StatusCodes.Status415UnsupportedMediaType, "unsupported-media-type", "Send text/csv in UTF-8."));
        return endpoint.WithMetadata(new CsvBody());
    }

    public static RouteHandlerBuilder WithIdempotencyKey(this RouteHandlerBuilder endpoint) =>
        endpoint.AddEndpointFilter<RouteHandlerBuilder, IdempotencyFilter>().WithMetadata(new TakesIdempotencyKey());

    /// <summary>The answer of somebody who belongs to no group, or not to that one.</summary>
    public static ProblemResult NoGroup(HttpContext context, Guid? named) => named is null
        ? Problems.From(context, Refusal.Because(RefusalKind.Forbidden, "You belong to no group. An administrator can add you to one."))
        : Problems.From(context, Refusal.NotFound);

    /// <summary>Checks <c>limit</c>: 1 to 200, default 50.</summary>
    public static ProblemResult? CheckLimit(HttpContext context, int? limit) => limit is null or (>= 1 and <= LargestLimit)
        ? null
        : Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", new FieldError("?limit", $"Expected 1 to {LargestLimit}."));

    /// <summary>A handler that refuses a parameter refuses the query, not a body: 400, with the parameter's name.</summary>
    public static ProblemResult QueryProblem(HttpContext context, Refusal refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        return refusal.Kind == RefusalKind.Invalid
            ? Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", refusal.Message, [.. refusal.Faults.Select(f => new FieldError("?" + f.Path.TrimStart('/'), f.Message))])
            : Problems.From(context, refusal);
    }

    /// <summary>Text that the database can compare: at most 200 characters, no U+0000.</summary>
    public static ProblemResult? CheckText(HttpContext context, string name, string? text) => text is null || (text.Length <= 200 && !text.Contains('\0', StringComparison.Ordinal))
        ? null
        : Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", new FieldError("?" + name, "At most 200 characters, without U+0000."));

    /// <summary>JSON bytes that must go out unchanged.</summary>
    public static Utf8ContentHttpResult Json(ReadOnlyMemory<byte> utf8) => TypedResults.Text(utf8.Span, "application/json; charset=utf-8");
}

/// <summary>The type whose schema describes the body.</summary>
/// <param name="Type">A record of this API.</param>
public sealed record JsonBody(Type Type);

/// <summary>Marks an endpoint whose body is a table of comma-separated values.</summary>
public sealed record CsvBody;

/// <summary>A page of results.</summary>
/// <param name="Items">At most as many as asked for.</param>
/// <param name="Next">Give it as <c>cursor</c> to go on; null: no more.</param>
public sealed record PageAnswer<T>(IReadOnlyList<T> Items, string? Next);
