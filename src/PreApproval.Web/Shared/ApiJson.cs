using System.Text.Json;
using System.Text.Json.Serialization;
using PreApproval.Procedures.Workflow;

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

    /// <summary>Reads the word of a member, for instance <c>in-review</c>; numbers and other cases are refused.</summary>
    public static bool TryReadWord<T>(string? text, out T value)
        where T : struct, Enum
    {
        bool known = text is not null && WireName.All<T>().Contains(text, StringComparer.Ordinal);
        value = known ? WireName.Parse<T>(text!) : default;
        return known;
    }

    /// <summary>The word of a member.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum => WireName.Of(value);

    /// <summary>All words of an enumeration, for messages.</summary>
    public static string Words<T>()
        where T : struct, Enum => string.Join(", ", WireName.All<T>());

    private static JsonSerializerOptions Create()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web);
        Configure(options);
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }
}
