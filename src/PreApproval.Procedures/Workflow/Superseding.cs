using PreApproval.Procedures.History;

namespace PreApproval.Procedures.Workflow;

/// <summary>An earlier revision stays runnable until a later one may be run.</summary>
internal static class Superseding
{
    public static async Task<IReadOnlyList<AuditEntry>> SupersedeAsync(IProcedureStore procedures, ProcedureRecord procedure, int by, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var entries = new List<AuditEntry>();
        foreach (RevisionHead earlier in await procedures.RevisionsAsync(procedure.GroupId, procedure.Id, cancellationToken))
        {
            if (earlier.Number >= by || Transitions.Next(earlier.State, WorkflowAction.Supersede) is not { } superseded)
            {
                continue;
            }

            // The procedure's row is held, so nothing can have moved it in between.
            if (!await procedures.MoveAsync(procedure.GroupId, procedure.Id, earlier, superseded, now, cancellationToken))
            {
                throw new InvalidOperationException("A revision moved while its procedure was held.");
            }

            entries.Add(AuditEntry.About(procedure, earlier.Number, "revision.superseded", $"Revision {by} of '{procedure.Title}' takes the place of revision {earlier.Number}.") with
            {
                Before = WireName.Of(earlier.State),
                After = WireName.Of(superseded),
            });
        }

        return entries;
    }
}
