using PreApproval.Documents;
using PreApproval.Documents.Comparing;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Review;

/// <summary>What changed in the plan since the reviewer last looked at it.</summary>
/// <param name="Number">The earlier revision.</param>
/// <param name="Known">How the reviewer knows it, as a sentence.</param>
/// <param name="Changes">Null: one of the two cannot be read any more.</param>
public sealed record SeenRevision(int Number, string Known, IReadOnlyList<PlanChange>? Changes)
{
    /// <summary>Far more than any procedure was sent back; each is a document to read.</summary>
    private const int MostLookedAt = 20;

    /// <summary>
    /// Against the latest earlier revision that this person decided, else the latest that waited for them, else <paramref name="otherwise"/>; null: there is none.
    /// </summary>
    public static async Task<SeenRevision?> FindAsync(ProcedureQueries queries, DocumentScreener screener, Actor actor, ProcedureView procedure, RevisionView revision, int? otherwise, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(queries);
        ArgumentNullException.ThrowIfNull(screener);
        ArgumentNullException.ThrowIfNull(actor);
        ArgumentNullException.ThrowIfNull(procedure);
        ArgumentNullException.ThrowIfNull(revision);
        RevisionView? waited = null;
        RevisionView? other = null;
        foreach (int number in procedure.Revisions.Select(static r => r.Number).Where(n => n < revision.Number).OrderDescending().Take(MostLookedAt))
        {
            if (await queries.ReadRevisionAsync(actor, procedure.Id, number, cancellationToken) is not { IsOk: true, Value: { } earlier })
            {
                continue;
            }

            if (earlier.Slots.Any(slot => slot.Decision?.SignerId == actor.UserId))
            {
                return Against(earlier, "The last one that you decided on.");
            }

            waited ??= earlier.Slots.Any(slot => slot.AssigneeId == actor.UserId) ? earlier : null;
            other = number == otherwise ? earlier : other;
        }

        return waited is not null ? Against(waited, "The last one that waited for you.")
            : other is not null ? Against(other, "None before it was for you.")
            : null;

        SeenRevision Against(RevisionView earlier, string known) => new(earlier.Number, known, Between(screener, earlier.Document, revision.Document));
    }

    private static IReadOnlyList<PlanChange>? Between(DocumentScreener screener, ReadOnlyMemory<byte> before, ReadOnlyMemory<byte> after)
    {
        Result<ProcedureDocument, DocumentRefusal> old = screener.Read(before);
        Result<ProcedureDocument, DocumentRefusal> now = screener.Read(after);
        return old.IsOk && now.IsOk ? PlanComparison.Between(old.Value, now.Value) : null;
    }
}
