using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace PreApproval.Procedures.Workflow;

/// <summary>The last line of a page: the next page begins after it.</summary>
/// <param name="UpdatedAt">Its time, to the microsecond.</param>
/// <param name="Id">Its identifier.</param>
public sealed record PageCursor(DateTimeOffset UpdatedAt, Guid Id)
{
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{UpdatedAt.UtcTicks}.{Id:N}");

    public static bool TryParse(string text, [NotNullWhen(true)] out PageCursor? cursor)
    {
        cursor = null;
        if (text.Split('.') is not [string ticks, string id]
            || !long.TryParse(ticks, NumberStyles.None, CultureInfo.InvariantCulture, out long at) || at > DateTimeOffset.MaxValue.UtcTicks
            || !Guid.TryParseExact(id, "N", out Guid key))
        {
            return false;
        }

        cursor = new PageCursor(new DateTimeOffset(at, TimeSpan.Zero), key);
        return true;
    }
}
