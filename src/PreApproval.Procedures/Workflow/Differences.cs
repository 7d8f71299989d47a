using System.Globalization;
using PreApproval.Documents;

namespace PreApproval.Procedures.Workflow;

/// <summary>What changed between two versions of an entry in one of the group's lists, in words for the history.</summary>
internal static class Differences
{
    private const int Longest = 1_500;

    /// <summary>For instance <c>rating 10 bar(g) → 8 bar(g), note (none) → new seal</c>; <paramref name="nothing"/> where no member differs.</summary>
    public static string Words(IEnumerable<(string Name, string Before, string After)> members, string nothing)
    {
        string[] changes = [.. members.Where(member => !string.Equals(member.Before, member.After, StringComparison.Ordinal)).Select(member => $"{member.Name} {Shown(member.Before)} → {Shown(member.After)}")];
        string text = changes.Length == 0 ? nothing : string.Join(", ", changes);
        return text.Length <= Longest ? text : string.Concat(text.AsSpan(0, Longest), " …");
    }

    public static string Words(Quantity? quantity) => quantity is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{quantity.Value} {quantity.Unit}");

    public static string Words(DateOnly? date) => date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    private static string Shown(string text) => text.Length == 0 ? "(none)" : text;
}
