namespace PreApproval.Hazards.Substances;

/// <summary>How a value came about, best first. The word stands beside the number wherever it is shown.</summary>
public enum Quality
{
    /// <summary>Measured and published.</summary>
    Measured,

    /// <summary>From a published correlation, inside its range.</summary>
    Correlated,

    /// <summary>From a predictive method.</summary>
    Estimated,

    /// <summary>Taken from common practice or from memory, without a checked source.</summary>
    Assumed,
}

/// <summary>A value with its quality and the sources behind it (keys of <c>sources.bib</c>, resolved by <see cref="Catalog"/>).</summary>
/// <param name="Value">The value in SI units.</param>
/// <param name="Quality">How it came about.</param>
/// <param name="Sources">At least one source.</param>
public sealed record Sourced<T>(T Value, Quality Quality, IReadOnlyList<string> Sources)
{
    /// <summary>What a reader must know to use the value (a suspected misprint, the surface it holds for), or null.</summary>
    public string? Note { get; init; }
}

/// <summary>One quantity for which publications may disagree: the cautious value governs, all are kept and shown.</summary>
/// <param name="Governing">The value that governs.</param>
/// <param name="All">Every published value, the governing one included.</param>
public sealed record Published(Sourced<double> Governing, IReadOnlyList<Sourced<double>> All);
