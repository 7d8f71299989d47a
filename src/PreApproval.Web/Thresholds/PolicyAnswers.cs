using PreApproval.Documents.Policies;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Thresholds;

namespace PreApproval.Web.Thresholds;

/// <summary>Body of <c>PUT /policy</c>: every member of the policy, numbers in SI units, and why.</summary>
public sealed record PolicyBody(Policy Policy, string Reason);

/// <summary>A version of the group's policy.</summary>
/// <param name="Version">From 1, the program's default.</param>
/// <param name="Digest">What reports under it carry as <c>engine.policy</c>.</param>
/// <param name="Policy">Every member, numbers in SI units.</param>
/// <param name="LooserThanDefault">Members that find less than the default would.</param>
/// <param name="SetBy">Who set it; null for the default.</param>
/// <param name="SetAt">When.</param>
/// <param name="Reason">Why.</param>
public sealed record PolicyVersionAnswer(int Version, string Digest, Policy Policy, IReadOnlyList<string> LooserThanDefault, string? SetBy, DateTimeOffset? SetAt, string? Reason)
{
    public static PolicyVersionAnswer From(PolicyView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return new PolicyVersionAnswer(
            view.Version,
            view.Digest,
            view.Policy,
            [.. PolicyLine.Of(view.Policy).Where(line => line.Against == AgainstDefault.Looser).Select(line => line.Member)],
            view.Setting?.By,
            view.Setting?.At,
            view.Setting?.Reason);
    }
}

/// <summary>Every version, newest first.</summary>
public sealed record PolicyVersionsAnswer(IReadOnlyList<PolicyVersionAnswer> Items);

/// <summary>What is known of one threshold. Numbers in the unit named; <c>fraction</c> for shares.</summary>
/// <param name="Member">Member of <c>policy</c>.</param>
/// <param name="Name">What it is.</param>
/// <param name="Unit">SI unit.</param>
/// <param name="Value">Value in use.</param>
/// <param name="Default">The program's default.</param>
/// <param name="Lowest">Lowest value a group may set.</param>
/// <param name="Highest">Highest value a group may set.</param>
/// <param name="Stricter">Which way it finds more.</param>
/// <param name="Against">The value beside the default.</param>
/// <param name="Source">Published source, or that it is common practice.</param>
public sealed record ThresholdAnswer(string Member, string Name, string Unit, double Value, double Default, double Lowest, double Highest, Stricter Stricter, AgainstDefault Against, string Source);

/// <summary>The policy in use, with what is known of each threshold.</summary>
/// <param name="Group">Group.</param>
/// <param name="Version">From 1, the program's default; the ETag.</param>
/// <param name="Digest">What reports under it carry as <c>engine.policy</c>.</param>
/// <param name="Policy">Every member, numbers in SI units: to be changed and sent back.</param>
/// <param name="Thresholds">The numbers one by one.</param>
/// <param name="SetBy">Who set it; null for the default.</param>
/// <param name="SetAt">When.</param>
/// <param name="Reason">Why.</param>
public sealed record PolicyAnswer(Guid Group, int Version, string Digest, Policy Policy, IReadOnlyList<ThresholdAnswer> Thresholds, string? SetBy, DateTimeOffset? SetAt, string? Reason)
{
    public static PolicyAnswer From(PolicyView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return new PolicyAnswer(
            view.GroupId,
            view.Version,
            view.Digest,
            view.Policy,
            [
                .. PolicyThreshold.All.Select(threshold => new ThresholdAnswer(
                    PolicyWriter.NameOf(threshold.Member), threshold.Name, threshold.Unit, threshold.In(view.Policy), threshold.Default, threshold.Lowest, threshold.Highest,
                    threshold.Stricter, threshold.Against(threshold.In(view.Policy)), threshold.Source)),
            ],
            view.Setting?.By,
            view.Setting?.At,
            view.Setting?.Reason);
    }
}
