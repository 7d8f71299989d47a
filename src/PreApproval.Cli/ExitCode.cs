namespace PreApproval.Cli;

/// <summary>Exit codes of the contract.</summary>
internal static class ExitCode
{
    public const int Clear = 0;
    public const int Unusable = 2;
    public const int Flagged = 3;
}
