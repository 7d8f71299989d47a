using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace PreApproval.Web.Drafting;

/// <summary>
/// The invented procedures and the demo's inventory are written for one planned day. They are moved as a whole, so that the work is planned for the day on which
/// they are taken, and every bottle, test and inspection is as old as it was invented.
/// </summary>
public static partial class ExampleDates
{
    private static readonly DateOnly WrittenFor = new(2031, 5, 28);

    /// <summary>JSON with every date in it moved to the day given.</summary>
    public static string Moved(string json, DateOnly today) => Date().Replace(json, match =>
        DateOnly.TryParseExact(match.Groups["day"].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day)
            ? string.Create(CultureInfo.InvariantCulture, $"\"{day.AddDays(today.DayNumber - WrittenFor.DayNumber):yyyy-MM-dd}\"")
            : match.Value);

    /// <summary>The same of a document.</summary>
    public static byte[] Moved(ReadOnlyMemory<byte> document, DateOnly today) => Encoding.UTF8.GetBytes(Moved(Encoding.UTF8.GetString(document.Span), today));

    /// <summary>The day that it is now.</summary>
    public static DateOnly Today(TimeProvider clock) => DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);

    [GeneratedRegex("\"(?<day>[0-9]{4}-[0-9]{2}-[0-9]{2})\"", RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Date();
}
