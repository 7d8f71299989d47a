using System.Text.Json;
using System.Text.Json.Serialization;

namespace PreApproval.Web.Shared;

/// <summary>How this API writes JSON: camelCase members, kebab-case words, null members kept.</summary>
public static class ApiJson
{
    public static JsonSerializerOptions Options { get; } = Create();

    public static void Configure(JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.AllowDuplicateProperties = false;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false));
    }

    /// <summary>The word for a member of an enumeration, for instance <c>in-review</c>.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    /// <summary>Reads such a word; numbers and other cases are refused.</summary>
    public static bool TryReadWord<T>(string? text, out T value)
        where T : struct, Enum
    {
        foreach (T candidate in Enum.GetValues<T>())
        {
            if (string.Equals(Word(candidate), text, StringComparison.Ordinal))
            {
                value = candidate;
                return true;
            }
        }

        value = default;
        return false;
    }

    /// <summary>All words of an enumeration, for messages.</summary>
    public static string Words<T>()
        where T : struct, Enum => string.Join(", ", Enum.GetValues<T>().Select(Word));

    private static JsonSerializerOptions Create()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web);
        Configure(options);
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }
}
