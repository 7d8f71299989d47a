namespace PreApproval.Cli;

/// <summary>Standard input, output and error of one run.</summary>
internal sealed record Streams(Stream Input, TextWriter Output, TextWriter Error);
