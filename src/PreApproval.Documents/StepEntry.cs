using PreApproval.Hazards.Plans;

namespace PreApproval.Documents;

/// <summary>One step of the procedure.</summary>
public sealed record StepEntry
{
    public required string Id { get; init; }

    /// <summary>Null only in a document that is not valid.</summary>
    public StepAction? Action { get; init; }

    /// <summary>Identifier of the vessel it happens in.</summary>
    public required string Vessel { get; init; }

    public IReadOnlyList<MaterialUseEntry>? Materials { get; init; }

    /// <summary>Set temperature of the contents.</summary>
    public Quantity? Temperature { get; init; }

    public Quantity? Duration { get; init; }

    /// <summary>Time over which the materials are added.</summary>
    public Quantity? Over { get; init; }

    public HeatSource? HeatSource { get; init; }

    public bool? IndependentCutOut { get; init; }

    /// <summary>Temperature of the hottest surface.</summary>
    public Quantity? SurfaceTemperature { get; init; }

    /// <summary>Gas over the contents from this step on.</summary>
    public GasEntry? Headspace { get; init; }

    /// <summary>How <see cref="StepAction.Seal"/> closes.</summary>
    public Closure? Closure { get; init; }

    /// <summary>Identifier of the target vessel of a transfer or a filtration.</summary>
    public string? To { get; init; }

    /// <summary>Gas of <see cref="StepAction.Pressurise"/>.</summary>
    public GasEntry? Gas { get; init; }

    /// <summary>Pressure of <see cref="StepAction.Pressurise"/>, <see cref="StepAction.Evacuate"/>, <see cref="StepAction.Concentrate"/> or <see cref="StepAction.Distil"/>. A unit without (g) is absolute.</summary>
    public Quantity? Pressure { get; init; }
}

/// <summary>A gas: by a word (<c>nitrogen</c>) or as a substance. Exactly one is given.</summary>
public sealed record GasEntry(string? Word, SubstanceReference? Substance);

/// <summary>A material added in a step.</summary>
/// <param name="Id">Which material.</param>
/// <param name="Amount">How much; null: the whole remainder.</param>
/// <param name="IsBare">True when written as the identifier alone, false when written as an object.</param>
public sealed record MaterialUseEntry(string Id, Quantity? Amount, bool IsBare);
