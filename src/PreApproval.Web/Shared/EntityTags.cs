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
    /// What If-Match says. <paramref name="version"/> is null when the header is absent or <c>*</c>; 0, which no draft
    /// has, when it names only tags that are not ours or weak: they never match (RFC 9110, 13.1.1).
    /// </summary>
    public static Refusal? ReadIfMatch(HttpRequest request, out bool present, out int? version)
    {
        ArgumentNullException.ThrowIfNull(request);
        StringValues header = request.Headers.IfMatch;
        present = header.Count > 0;
        version = null;
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

        // Versions count up: of several tags only the newest can be current.
        version = tags.Where(t => !t.IsWeak)
            .Select(t => int.TryParse(t.Tag.AsSpan().Trim('"'), NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : 0)
            .DefaultIfEmpty(0).Max();
        return null;
    }
}

/// <summary>Marks an endpoint that looks at If-Match.</summary>
public sealed record TakesIfMatch(bool Required);
