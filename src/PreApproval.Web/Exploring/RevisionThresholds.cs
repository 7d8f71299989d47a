using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Thresholds;

namespace PreApproval.Web.Exploring;

/// <summary>The thresholds that a revision was screened under, and those in use now.</summary>
/// <param name="Then">Null: that version is not among those of the group, or was written by another version of the program.</param>
/// <param name="Now">In use.</param>
public sealed record RevisionThresholds(PolicyView? Then, PolicyView Now)
{
    /// <summary>Word for those in use, in the address of the page.</summary>
    public const string Today = "today";

    public bool Differ => Then is null || !string.Equals(Then.Digest, Now.Digest, StringComparison.Ordinal);

    /// <summary>Which one the sentence beside the charts is about.</summary>
    /// <param name="today">True for those in use.</param>
    public string Words(bool today) => (Then, Differ) switch
    {
        (null, _) => $"Judged by the thresholds in use, version {Number(Now)}. Those that this revision was screened under are not among the group's versions any more.",
        (_, false) => $"Judged by the thresholds that this revision was screened under, which are those in use (version {Number(Now)}).",
        _ when today => $"Judged by the thresholds in use, version {Number(Now)}; this revision was screened under version {Number(Then)}.",
        _ => $"Judged by the thresholds that this revision was screened under, version {Number(Then)}; those in use are version {Number(Now)}.",
    };

    public static string Number(PolicyView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return view.Version.ToString(CultureInfo.InvariantCulture);
    }

    /// <summary>Those of the submission, unless today's are asked for or they are not known.</summary>
    public Policy Choose(bool today) => today ? Now.Policy : (Then ?? Now).Policy;

    /// <param name="versions">All of the group, newest first, the default last.</param>
    /// <param name="digest">Digest of the policy in the revision's report.</param>
    /// <param name="submittedAt">When it was submitted: of several versions with the same numbers the one of that time.</param>
    public static RevisionThresholds Of(IReadOnlyList<PolicyView> versions, string digest, DateTimeOffset submittedAt)
    {
        ArgumentNullException.ThrowIfNull(versions);
        PolicyView[] same = [.. versions.Where(view => string.Equals(view.Digest, digest, StringComparison.Ordinal))];
        return new RevisionThresholds(Array.Find(same, view => view.Setting is null || view.Setting.At <= submittedAt) ?? same.FirstOrDefault(), versions[0]);
    }
}
