using System.Text.RegularExpressions;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.History;

/// <summary>Events in words for people. The record below them stays as it is stored.</summary>
public static partial class EventWords
{
    /// <summary>The summary with the places of a review in words instead of their identifiers.</summary>
    public static string Summary(EventView item)
    {
        ArgumentNullException.ThrowIfNull(item);
        bool routed = item.Action.StartsWith("review.", StringComparison.Ordinal);
        return Slot.Replace(item.Summary, match => match.Groups["kind"].Value is "countersign"
            ? routed ? " for countersignature" : ""
            : routed ? " for review" : " as reviewer");
    }

    /// <summary>Why, where the summary does not say it already.</summary>
    public static string? Reason(EventView item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Reason is { Length: > 0 } reason && !item.Summary.Contains(reason, StringComparison.Ordinal) ? reason : null;
    }

    /// <summary>The decision that an event records, among those of its revision.</summary>
    public static DecisionView? DecisionOf(EventView item, RevisionView? revision)
    {
        ArgumentNullException.ThrowIfNull(item);
        return revision?.Slots.Select(s => s.Decision).OfType<DecisionView>().FirstOrDefault(d => d.SignerId == item.ActorId && (d.SignedAt - item.At).Duration() < TimeSpan.FromSeconds(1));
    }

    [GeneratedRegex(@" \((?<kind>review|countersign)(?:-[0-9]+)?\)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Slot { get; }
}
