namespace PreApproval.Documents.Tests;

internal static class Paths
{
    /// <summary>The places of the faults, in ordinal order.</summary>
    public static string InOrder(this IEnumerable<Fault> faults) =>
        string.Join(' ', faults.Select(fault => fault.Path).Order(StringComparer.Ordinal));
}
