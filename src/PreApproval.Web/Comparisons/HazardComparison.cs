using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Screenings;

namespace PreApproval.Web.Comparisons;

/// <summary>The changes between the hazards of two documents, or why they were not compared.</summary>
/// <param name="Changes">Null: not compared.</param>
/// <param name="Because">A sentence for the page; null: compared.</param>
public sealed record HazardComparison(IReadOnlyList<HazardChange>? Changes, string? Because)
{
    /// <summary>What the materials of the two documents are, by their short names.</summary>
    public IReadOnlyDictionary<string, string> Materials { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);

    public static HazardComparison Unreadable { get; } = new(null, "The earlier document cannot be read by today's format, so its hazards were not compared.");

    public static HazardComparison Busy { get; } = new(null, "Many screenings are running at the moment, so the hazards were not compared. Load this page again in a few seconds.");

    public static HazardComparison Failed { get; } = new(null, "The comparison of the hazards failed here; nothing was changed.");

    /// <summary>Compares two documents that were screened already. A fault of the engine goes to <paramref name="failed"/>, and the page stays up.</summary>
    public static HazardComparison Between(ProcedureDocument before, Report was, ProcedureDocument after, Report now, Policy policy, Action<Exception> failed)
    {
        ArgumentNullException.ThrowIfNull(failed);
        try
        {
            return new HazardComparison(DocumentComparison.Between(before, was, after, now, policy), null) { Materials = MaterialNames.Of(before, after) };
        }
#pragma warning disable CA1031 // a fault of the engine must not take the page with it
        catch (Exception fault)
#pragma warning restore CA1031
        {
            failed(fault);
            return Failed;
        }
    }

    /// <summary>Compares two stored documents. A page that shows more than this stays up when there is no place for two more screenings.</summary>
    public static HazardComparison Between(DocumentScreener screener, ReadOnlyMemory<byte> before, ReadOnlyMemory<byte> after, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(screener);
        Result<ProcedureDocument, DocumentRefusal> old = screener.Read(before);
        Result<ProcedureDocument, DocumentRefusal> now = screener.Read(after);
        if (!old.IsOk || !now.IsOk)
        {
            return Unreadable;
        }

        try
        {
            return new HazardComparison(screener.Compare(old.Value, now.Value, policy), null) { Materials = MaterialNames.Of(old.Value, now.Value) };
        }
        catch (ScreeningBusyException)
        {
            return Busy;
        }
    }
}
