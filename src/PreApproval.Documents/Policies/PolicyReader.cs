using PreApproval.Documents.Reading;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Policies;

/// <summary>A policy from JSON in the form of <see cref="PolicyWriter"/>: members as in the engine, numbers in SI units.</summary>
public static class PolicyReader
{
    private static readonly WordTable<Severity> Severities = new(ReportWords.Of);

    /// <summary>Strict: every member is needed, no other is known, and the policy must be allowed. Every fault has the path of its member.</summary>
    public static Result<Policy, DocumentRefusal> Read(ReadOnlyMemory<byte> utf8)
    {
        var faults = new FaultList();
        Policy? policy = JsonTreeReader.Read(utf8.Span, faults) is { } tree ? Members(tree, faults, every: true) : null;
        if (policy is not null && faults.All.Count == 0)
        {
            foreach (PolicyFault fault in PolicyRules.Faults(policy))
            {
                faults.Invalid(PathOf(fault), fault.Message);
            }
        }

        return policy is not null && faults.All.Count == 0
            ? policy
            : new DocumentRefusal(faults.All.Min(fault => fault.Kind), [.. faults.All.Select(fault => new Fault(fault.Path, fault.Message))]);
    }

    /// <summary>
    /// A stored version, which is read by its form alone: it was allowed when it was set. A threshold that came with a later program begins
    /// at its default; the digest of the policy in use is that of what it says now.
    /// </summary>
    /// <exception cref="FormatException">The bytes are not one.</exception>
    public static Policy Parse(ReadOnlyMemory<byte> utf8)
    {
        var faults = new FaultList();
        return JsonTreeReader.Read(utf8.Span, faults) is { } tree && Members(tree, faults, every: false) is { } policy && faults.All.Count == 0
            ? policy
            : throw new FormatException($"A stored policy can't be read: {faults.All[0].Path} {faults.All[0].Message}.");
    }

    /// <summary>JSON Pointer of the member at fault.</summary>
    public static string PathOf(PolicyFault fault)
    {
        ArgumentNullException.ThrowIfNull(fault);
        return JsonPointer.Member("", PolicyWriter.NameOf(fault.Member));
    }

    private static Policy? Members(JsonTree tree, FaultList faults, bool every)
    {
        var reader = new ObjectReader(tree, "", "a policy", faults);
        if (!reader.IsObject)
        {
            return null;
        }

        Policy policy = Policy.Default;
        foreach (PolicyThreshold threshold in PolicyThreshold.All)
        {
            string what = $"{threshold.Name} in {(threshold.Unit is "fraction" ? "parts of 1" : threshold.Unit)}";
            if (reader.Number(PolicyWriter.NameOf(threshold.Member), what, every ? what : null) is { } value)
            {
                policy = threshold.Set(policy, value);
            }
        }

        if (reader.Word(PolicyWriter.NameOf(nameof(Policy.ReviewFrom)), Severities, every ? "the mildest severity that goes to review" : null) is { } from)
        {
            policy = policy with { ReviewFrom = from };
        }

        reader.End();
        return policy;
    }
}
