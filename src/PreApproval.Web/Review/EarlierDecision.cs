using System.Globalization;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Review;

/// <summary>Finds what was decided on an earlier revision, for those who write or judge the next one.</summary>
public static class EarlierDecision
{
    /// <summary>The latest revision with a number below <paramref name="before"/> that was decided; null: none was.</summary>
    public static async Task<RevisionView?> FindAsync(ProcedureQueries queries, Actor actor, ProcedureView procedure, int before, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(queries);
        ArgumentNullException.ThrowIfNull(procedure);
        int number = procedure.Revisions.Where(r => r.Number < before && IsDecided(r.State)).Select(r => r.Number).DefaultIfEmpty(0).Max();
        return number > 0 && await queries.ReadRevisionAsync(actor, procedure.Id, number, cancellationToken) is { IsOk: true } found
            && found.Value.Slots.Any(s => s.Decision is not null)
            ? found.Value
            : null;
    }

    /// <summary>Who asked what, by the last decision.</summary>
    public static string Heading(RevisionView revision)
    {
        ArgumentNullException.ThrowIfNull(revision);
        DecisionView last = revision.Slots.Select(s => s.Decision).OfType<DecisionView>().MaxBy(d => d.SignedAt)!;
        string number = revision.Number.ToString(CultureInfo.InvariantCulture);
        return last.Decision switch
        {
            DecisionKind.Approve => $"What was asked when revision {number} was approved",
            DecisionKind.RequestChanges => $"{last.SignerName} requested changes to revision {number}",
            DecisionKind.Decline => $"{last.SignerName} declined revision {number}",
        };
    }

    private static bool IsDecided(ProcedureState state) => state switch
    {
        ProcedureState.Approved or ProcedureState.ChangesRequested or ProcedureState.Declined or ProcedureState.Expired or ProcedureState.Superseded or ProcedureState.Suspended => true,
        ProcedureState.Draft or ProcedureState.Cleared or ProcedureState.InReview or ProcedureState.Withdrawn => false,
    };
}
