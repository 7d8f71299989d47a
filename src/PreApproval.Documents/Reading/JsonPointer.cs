using System.Globalization;

namespace PreApproval.Documents.Reading;

/// <summary>JSON Pointers of RFC 6901.</summary>
internal static class JsonPointer
{
    public static string Member(string parent, string name) =>
        $"{parent}/{name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}";

    public static string Item(string parent, int index) => string.Create(CultureInfo.InvariantCulture, $"{parent}/{index}");
}
