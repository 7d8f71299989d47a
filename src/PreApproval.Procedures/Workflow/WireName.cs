using System.Text.Json;

namespace PreApproval.Procedures.Workflow;

/// <summary>Names of enum members in JSON, in events and in the database: kebab-case, for instance <c>in-review</c>.</summary>
public static class WireName
{
    public static string Of<T>(T value)
        where T : struct, Enum => Names<T>.ByValue[value];

    /// <summary>Throws <see cref="FormatException"/> for a name that no member has.</summary>
    public static T Parse<T>(string name)
        where T : struct, Enum => Names<T>.ByName.TryGetValue(name, out T value)
            ? value
            : throw new FormatException($"'{name}' is no {typeof(T).Name}.");

    public static IReadOnlyCollection<string> All<T>()
        where T : struct, Enum => Names<T>.ByName.Keys;

    private static class Names<T>
        where T : struct, Enum
    {
        public static readonly Dictionary<T, string> ByValue =
            Enum.GetValues<T>().ToDictionary(value => value, value => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString()));

        public static readonly Dictionary<string, T> ByName = ByValue.ToDictionary(pair => pair.Value, pair => pair.Key, StringComparer.Ordinal);
    }
}
