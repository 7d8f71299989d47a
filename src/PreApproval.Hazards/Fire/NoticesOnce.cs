using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>Notices that say the same of one vessel, heated again and again, are one; a change that would clear only a part of it is not offered.</summary>
internal static class NoticesOnce
{
    public static List<Finding> Of(List<Finding> findings)
    {
        for (var index = 0; index < findings.Count - 1; index++)
        {
            var first = findings[index];
            if (first.Severity != Severity.Notice)
            {
                continue;
            }

            var same = findings.FindAll(other => IsSame(first, other));
            if (same.Count > 1)
            {
                findings.RemoveAll(other => IsSame(first, other));
                findings.Insert(index, first with
                {
                    Steps = [.. same.SelectMany(static one => one.Steps)],
                    Materials = [.. same.SelectMany(static one => one.Materials).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
                    ClearedBy = [],
                });
            }
        }

        return findings;
    }

    private static bool IsSame(Finding one, Finding other) =>
        other.Severity == Severity.Notice && string.Equals(one.Vessel, other.Vessel, StringComparison.Ordinal) && string.Equals(one.Statement, other.Statement, StringComparison.Ordinal);
}
