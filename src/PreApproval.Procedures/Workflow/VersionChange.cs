namespace PreApproval.Procedures.Workflow;

/// <summary>What a version of an entry in one of the group's lists did.</summary>
public enum VersionChange
{
    Added,
    Changed,
    Retired,
}
