using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>A declared reaction.</summary>
public sealed record Reaction
{
    /// <summary>Identifier of the step it happens in.</summary>
    public required string Step { get; init; }

    public IReadOnlyList<Consumption> Consumes { get; init; } = [];

    public IReadOnlyList<Production> Produces { get; init; } = [];

    /// <summary>Heat in J per mol of the limiting material; exothermic is negative.</summary>
    public double? HeatJPerMol { get; init; }

    /// <summary>Largest share of unreacted reagent, 0 to 1.</summary>
    public double? Accumulation { get; init; }

    public double? DecompositionOnsetK { get; init; }
}

public sealed record Consumption(string MaterialId, double Equivalents);

public sealed record Production(PlanSubstance Substance, double Equivalents, Phase? State);
