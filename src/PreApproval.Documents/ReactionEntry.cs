using PreApproval.Hazards.Substances;

namespace PreApproval.Documents;

/// <summary>A declared reaction.</summary>
public sealed record ReactionEntry
{
    /// <summary>Identifier of the step it happens in.</summary>
    public required string Step { get; init; }

    public IReadOnlyList<ConsumptionEntry>? Consumes { get; init; }

    public IReadOnlyList<ProductionEntry>? Produces { get; init; }

    /// <summary>In kJ per mol of the limiting material; exothermic is negative.</summary>
    public Quantity? Heat { get; init; }

    /// <summary>Largest share of unreacted reagent, 0 to 1.</summary>
    public double? Accumulation { get; init; }

    public Quantity? DecompositionOnset { get; init; }
}

/// <param name="Material">Identifier of the material.</param>
/// <param name="Equivalents">Relative to the limiting material.</param>
public sealed record ConsumptionEntry(string Material, double Equivalents);

/// <param name="Substance">What is formed.</param>
/// <param name="Equivalents">Relative to the limiting material.</param>
/// <param name="State">Gas, liquid or solid; null when not said.</param>
public sealed record ProductionEntry(SubstanceReference? Substance, double Equivalents, Phase? State);
