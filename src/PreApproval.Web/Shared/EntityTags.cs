using System.Globalization;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>Versions as strong entity tags: <c>"3"</c> (RFC 9110, 8.8.3).</summary>
public static class EntityTags
{
    public static string Of(int version) => string.Create(CultureInfo.InvariantCulture, $"\"{version}\"");

    /// <summary>
    /// Compares If-Match with the current version, tag by tag, strongly (RFC 9110, 13.1.1). <paramref name="version"/> is the current one
    /// when the header is absent, <c>*</c> or names it; else 0, which nothing has.
    /// </summary>
    public static Refusal? ReadIfMatch(HttpRequest request, int current, out bool present, out int version)
    {
        ArgumentNullException.ThrowIfNull(request);
        StringValues header = request.Headers.IfMatch;
        present = header.Count > 0;
        version = current;
        if (!present)
        {
            return null;
        }

        if (!EntityTagHeaderValue.TryParseStrictList([.. header.OfType<string>()], out IList<EntityTagHeaderValue>? tags))
        {
            return Refusal.Because(RefusalKind.Malformed, "If-Match is not an entity tag: send the ETag of the draft, with its quotation marks.");
        }

        if (tags is [{ } only] && only.Equals(EntityTagHeaderValue.Any))
        {
            return null;
        }

        string ours = Of(current);
        version = tags.Any(t => !t.IsWeak && string.Equals(t.Tag.Value, ours, StringComparison.Ordinal)) ? current : 0;
        return null;
    }

    /// <summary>For calls that need If-Match: 428 without it, 400 where it is no tag; else null and the version it names.</summary>
    /// <param name="context">The request.</param>
    /// <param name="current">Version of what is there.</param>
    /// <param name="what">What is edited, for instance <c>substance</c>.</param>
    /// <param name="version">As <see cref="ReadIfMatch"/> gives it.</param>
    public static ProblemResult? RequireIfMatch(HttpContext context, int current, string what, out int version)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (ReadIfMatch(context.Request, current, out bool present, out version) is { } malformed)
        {
            return Problems.From(context, malformed);
        }

        return present ? null : Problems.Make(context, StatusCodes.Status428PreconditionRequired, "if-match-required",
            $"Send If-Match with the ETag of the {what} you edited, so that nobody's changes are overwritten unseen.");
    }
}

/// <summary>Marks an endpoint that looks at If-Match.</summary>
public sealed record TakesIfMatch(bool Required);
