using System.Globalization;

namespace PreApproval.Documents.Reading;

/// <summary>JSON Pointers of RFC 6901.</summary>
internal static class JsonPointer
{
    /// <summary>Longer names are no names of ours; a path that repeats them helps nobody.</summary>
    private const int LongestName = 100;

    public static string Member(string parent, string name) =>
        $"{parent}/{(name.Length > LongestName ? name[..(char.IsHighSurrogate(name[LongestName - 1]) ? LongestName - 1 : LongestName)] : name).Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}";

    public static string Item(string parent, int index) => string.Create(CultureInfo.InvariantCulture, $"{parent}/{index}");
}
