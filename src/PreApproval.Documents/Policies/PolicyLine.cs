using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Policies;

/// <summary>One threshold of a policy in words for people.</summary>
public sealed record PolicyLine
{
    /// <summary>Name of the member as in JSON.</summary>
    public required string Member { get; init; }

    /// <summary>What it is.</summary>
    public required string Name { get; init; }

    /// <summary>Value with its unit.</summary>
    public required string Value { get; init; }

    public required string Default { get; init; }

    public required string Allowed { get; init; }

    public required string Source { get; init; }

    public required AgainstDefault Against { get; init; }

    /// <summary>Every threshold of the policy, in its order; what goes to review is the last.</summary>
    public static IReadOnlyList<PolicyLine> Of(Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        return
        [
            .. PolicyThreshold.All.Select(threshold => new PolicyLine
            {
                Member = PolicyWriter.NameOf(threshold.Member),
                Name = threshold.Name,
                Value = threshold.Words(threshold.In(policy)),
                Default = threshold.Words(threshold.Default),
                Allowed = threshold.Range,
                Source = threshold.Source,
                Against = threshold.Against(threshold.In(policy)),
            }),
            new PolicyLine
            {
                Member = PolicyWriter.NameOf(nameof(Policy.ReviewFrom)),
                Name = "findings that go to review, from this severity on",
                Value = ReportWords.Of(policy.ReviewFrom),
                Default = ReportWords.Of(Policy.Default.ReviewFrom),
                Allowed = "any severity",
                Source = "common practice, no source",
                Against = policy.ReviewFrom == Policy.Default.ReviewFrom ? AgainstDefault.Same : policy.ReviewFrom > Policy.Default.ReviewFrom ? AgainstDefault.Stricter : AgainstDefault.Looser,
            },
        ];
    }

    /// <summary>Where two policies differ, line beside line.</summary>
    public static IReadOnlyList<(PolicyLine Before, PolicyLine After)> Changes(Policy before, Policy after) =>
        [.. Of(before).Zip(Of(after)).Where((pair, index) => index < PolicyThreshold.All.Count
            ? PolicyThreshold.All[index].In(before) != PolicyThreshold.All[index].In(after)
            : before.ReviewFrom != after.ReviewFrom)];

    /// <summary>A value beside the default, for a sentence.</summary>
    public static string Words(AgainstDefault against) => against switch
    {
        AgainstDefault.Same => "the default",
        AgainstDefault.Stricter => "stricter than the default",
        AgainstDefault.Looser => "looser than the default",
    };
}
