using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Solutions;

/// <param name="Substance">The part.</param>
/// <param name="MassFraction">Mass fraction, 0 to 1.</param>
public sealed record SolutionPart(Substance Substance, double MassFraction);

/// <summary>A solution or a mixture that chemists name, at one strength.</summary>
public sealed record NamedSolution
{
    /// <summary>Name without the strength: <c>hydrochloric acid</c>.</summary>
    public required string Name { get; init; }

    /// <summary>Other names it goes by.</summary>
    public IReadOnlyList<string> Synonyms { get; init; } = [];

    /// <summary>CAS number of the solution itself, where one is registered.</summary>
    public string? Cas { get; init; }

    /// <summary>What a chemist means by an amount in mol; null for a mixture without one.</summary>
    public Substance? Solute { get; init; }

    /// <summary>Null for a mixture of more than two parts.</summary>
    public Substance? Solvent { get; init; }

    /// <summary>Null for a mixture.</summary>
    public SolutionStrength? Strength { get; init; }

    /// <summary>True when the strength was not typed and other strengths go by the same name.</summary>
    public bool StrengthAssumed { get; init; }

    /// <summary>The parts by mass fraction; they sum to one.</summary>
    public required IReadOnlyList<SolutionPart> Parts { get; init; }

    /// <summary>Density in kg/m³ at <see cref="DensityTemperatureK"/>; null when none is on file for this strength.</summary>
    public Sourced<double>? DensityKgPerM3 { get; init; }

    public double DensityTemperatureK { get; init; } = 293.15;

    /// <summary>More to know; empty: nothing.</summary>
    public string Note { get; init; } = "";

    /// <summary>How the composition came about.</summary>
    public Quality Quality { get; } = Quality.Assumed;

    /// <summary>Key of the source of the composition in <c>sources.bib</c>.</summary>
    public string Source { get; } = SolutionDensity.Source;

    /// <summary>Name with the strength: <c>hydrochloric acid, 37 %</c>.</summary>
    public string Label => Strength is { } strength ? $"{Name}, {strength}" : Name;

    /// <summary>What is in it, in words: <c>hydrogen chloride 37 %, water 63 % by mass</c>.</summary>
    public string Contents => string.Join(", ", Parts.Select(static part => FormattableString.Invariant($"{part.Substance.Identity.Name} {part.MassFraction * 100:0.##} %"))) + " by mass";

    /// <summary>Concentration of the solute in mol/m³; null without solute or density.</summary>
    public double? SoluteMolPerM3 => Solute?.Identity.MolarMassKgPerMol is { } molarMass && DensityKgPerM3 is { } density
        ? Parts.Where(part => ReferenceEquals(part.Substance, Solute)).Sum(static part => part.MassFraction) * density.Value / molarMass
        : null;

    /// <summary>As the engine follows it.</summary>
    public Composition Composition => this is { Solute: { } solute, Solvent: { } solvent, Strength: { } strength }
        ? new Composition.Solution(Of(solute), Of(solvent), strength.IsMolar
            ? new Concentration.MolPerM3(strength.Value)
            : new Concentration.Fraction(strength.Value, FractionBasis.Mass))
        : new Composition.Mixture([.. Parts.Select(static part => new MixturePart(Of(part.Substance), part.MassFraction, FractionBasis.Mass))])
        {
            DensityKgPerM3 = DensityKgPerM3?.Value,
            CountedPart = Solute is { } counted ? Parts.Index().First(part => ReferenceEquals(part.Item.Substance, counted)).Index : null,
        };

    private static PlanSubstance Of(Substance substance) => new(substance.Key, substance.Identity.Name, substance);
}
