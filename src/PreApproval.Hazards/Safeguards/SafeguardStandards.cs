using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Safeguards;

/// <summary>A standard quoted for a control, and what it is really about.</summary>
/// <param name="Standard">For instance <c>EN 12470</c>.</param>
/// <param name="Controls">Controls it is quoted for.</param>
/// <param name="Rejected">True: the control counts as missing. False: it counts, and the words say what the standard leaves open.</param>
/// <param name="Words">What it is about.</param>
internal sealed record QuotedStandard(string Standard, IReadOnlyList<string> Controls, bool Rejected, string Words)
{
    /// <summary>The standard without spaces.</summary>
    public string Squeezed { get; } = Standard.Replace(" ", "", StringComparison.Ordinal);
}

/// <summary>Standards that do not say what the author hopes (Data/safeguard-standards.tsv).</summary>
internal static class SafeguardStandards
{
    private static readonly QuotedStandard[] Known =
    [
        .. EmbeddedTable.Rows("safeguard-standards.tsv").Select(static row => new QuotedStandard(row["standard"], EmbeddedTable.Entries(row["controls"]), row["verdict"] is "rejected", row["words"])),
    ];

    /// <summary>The standards of the table that the safeguard quotes for a control they are listed for.</summary>
    public static IEnumerable<QuotedStandard> QuotedBy(Safeguard safeguard)
    {
        var control = ControlList.Find(safeguard.Control) ?? ControlList.NamedIn(safeguard.Control);
        if (control is null)
        {
            return [];
        }

        var text = $"{safeguard.Control}{safeguard.Detail}".Replace(" ", "", StringComparison.Ordinal);
        return Array.FindAll(Known, standard => standard.Controls.Contains(control, StringComparer.Ordinal) && Quotes(text, standard.Squeezed));
    }

    public static bool Rejects(Safeguard safeguard) => QuotedBy(safeguard).Any(static standard => standard.Rejected);

    // EN 12470-1, EN12470 and DIN EN 12470 all quote it; EN 1660 does not quote EN 166
    private static bool Quotes(string squeezed, string wanted)
    {
        for (var at = squeezed.IndexOf(wanted, StringComparison.OrdinalIgnoreCase); at >= 0; at = squeezed.IndexOf(wanted, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            if (at + wanted.Length == squeezed.Length || !char.IsDigit(squeezed[at + wanted.Length]))
            {
                return true;
            }
        }

        return false;
    }
}
