using System.Globalization;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Review;

/// <summary>Words that were typed into a form whose time has passed.</summary>
/// <param name="Label">Label of the field.</param>
/// <param name="About">What they are about; empty: the whole.</param>
/// <param name="Text">What was typed.</param>
public sealed record WrittenWords(string Label, string About, string Text);

/// <summary>What happened to a revision while somebody had it open.</summary>
public static class Meanwhile
{
    /// <summary>In one or two sentences, for the person who came too late.</summary>
    /// <param name="revision">The revision as it is now.</param>
    /// <param name="latest">Number of the procedure's latest revision.</param>
    /// <param name="reader">Account of the person.</param>
    public static string Of(RevisionView revision, int latest, Guid reader)
    {
        ArgumentNullException.ThrowIfNull(revision);
        string later = latest > revision.Number ? $" Since then revision {N(latest)} has been submitted." : "";
        return State(revision, reader) + later;
    }

    private static string State(RevisionView revision, Guid reader)
    {
        DecisionView? last = revision.Slots.Select(s => s.Decision).OfType<DecisionView>().MaxBy(d => d.SignedAt);
        if (revision.State == ProcedureState.Withdrawn)
        {
            return $"{revision.AuthorName} withdrew revision {N(revision.Number)} while you had it open.";
        }

        if (last is not null && (revision.State != ProcedureState.InReview || last.SignerId == reader))
        {
            string what = last.Decision switch
            {
                DecisionKind.Approve => "approved",
                DecisionKind.RequestChanges => "requested changes to",
                DecisionKind.Decline => "declined",
            };
            string who = last.SignerId == reader ? "You yourself" : last.SignerName;
            string words = last.Reason.Length > 0 ? $" “{last.Reason}”" : "";
            return $"{who} {what} revision {N(revision.Number)} on {last.SignedAt.UtcDateTime.ToString("d MMM yyyy HH:mm", CultureInfo.InvariantCulture)} UTC.{words}";
        }

        return revision.State == ProcedureState.InReview
            ? $"Revision {N(revision.Number)} no longer waits for this decision of yours."
            : $"Revision {N(revision.Number)} is not in review any more: {Words.Of(revision.State).ToLowerInvariant()}.";
    }

    private static string N(int number) => number.ToString(CultureInfo.InvariantCulture);
}
