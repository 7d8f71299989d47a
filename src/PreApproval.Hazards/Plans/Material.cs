using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>One line of the material list.</summary>
public sealed record Material
{
    public required string Id { get; init; }

    public required Composition Composition { get; init; }

    public required Role Role { get; init; }

    /// <summary>Amount in all; null when only the steps give amounts.</summary>
    public Amount? Amount { get; init; }

    /// <summary>The named solution that the typed name was read as; null where composition and strength were typed.</summary>
    public ReadAsSolution? ReadAs { get; init; }

    /// <summary>Powder, wire, 60 % in oil, on carbon …, as typed.</summary>
    public string? Form { get; init; }

    public DateOnly? OpenedOn { get; init; }

    /// <summary>Date and result (mass fraction as ppm) of the last peroxide test.</summary>
    public (DateOnly On, double Ppm)? PeroxideTest { get; init; }
}

/// <summary>A name read as a solution or a mixture.</summary>
/// <param name="Typed">The name as typed.</param>
/// <param name="Solution">What it was read as.</param>
public sealed record ReadAsSolution(string Typed, Solutions.NamedSolution Solution);

/// <summary>A substance as named in the plan: known to the catalogue, or only by its name.</summary>
/// <param name="Key">CAS number as given, or the name or SMILES as typed: the key used in results.</param>
/// <param name="Name">For sentences.</param>
/// <param name="Known">The catalogue entry or the group's own; null when nobody knows it, which is a finding.</param>
/// <param name="Smiles">Structure as typed, kept even when unlisted.</param>
public sealed record PlanSubstance(string Key, string Name, Substance? Known, string? Smiles = null)
{
    /// <summary>The structure of a substance that the catalogue does not list, where a SMILES was typed; null for a listed one.</summary>
    public TypedStructure? Structure { get; } = Smiles is null || (Known?.Identity.Cas is { } cas && Catalog.Default.TryFindByCas(cas, out _)) ? null : TypedStructure.Of(Smiles);
}

/// <summary>An amount as given; conversion to mol needs the substance.</summary>
public abstract record Amount
{
    private Amount()
    {
    }

    /// <param name="Kg">Mass in kg.</param>
    public sealed record Mass(double Kg) : Amount;

    /// <param name="Moles">Amount of substance in mol.</param>
    public sealed record Mol(double Moles) : Amount;

    /// <param name="M3">Volume in m³ at room temperature.</param>
    public sealed record Volume(double M3) : Amount;
}

/// <summary>What a material is made of.</summary>
public abstract record Composition
{
    private Worked? worked;

    private Composition()
    {
    }

    /// <summary>Its substances with their mass fractions as delivered, worked out once.</summary>
    internal IReadOnlyList<Portion> Portions
    {
        get
        {
            // a changed copy takes the field along, and asks anew
            if (worked is null || !ReferenceEquals(worked.Of, this))
            {
                worked = new Worked(this, AmountConversion.PartsOf(this));
            }

            return worked.Portions;
        }
    }

    /// <inheritdoc/>
    public virtual bool Equals(Composition? other) => other is not null && EqualityContract == other.EqualityContract;

    /// <inheritdoc/>
    public override int GetHashCode() => EqualityContract.GetHashCode();

    private sealed record Worked(Composition Of, IReadOnlyList<Portion> Portions);

    public sealed record Pure(PlanSubstance Substance) : Composition;

    /// <summary>A solute in a solvent. A <see cref="Amount.Mol"/> of a solution counts the solute.</summary>
    public sealed record Solution(PlanSubstance Solute, PlanSubstance Solvent, Concentration Concentration) : Composition;

    /// <summary>A mixture by fractions that sum to one.</summary>
    public sealed record Mixture(IReadOnlyList<MixturePart> Parts) : Composition
    {
        /// <summary>Density in kg/m³ of the mixture as named, for parts by mass; null: volumes of the parts are added.</summary>
        public double? DensityKgPerM3 { get; init; }

        /// <summary>Index of the part that a <see cref="Amount.Mol"/> counts; null: the first of two, else all together.</summary>
        public int? CountedPart { get; init; }
    }
}

/// <param name="Substance">The component.</param>
/// <param name="Fraction">Fraction between 0 and 1 on <paramref name="Basis"/>.</param>
/// <param name="Basis">What the fraction counts.</param>
public sealed record MixturePart(PlanSubstance Substance, double Fraction, FractionBasis Basis);

public enum FractionBasis
{
    Mass,
    Volume,
    Mole,
}

/// <summary>Strength of a solution.</summary>
public abstract record Concentration
{
    private Concentration()
    {
    }

    /// <param name="Value">mol of solute per m³ of solution.</param>
    public sealed record MolPerM3(double Value) : Concentration;

    /// <param name="Value">Fraction between 0 and 1.</param>
    /// <param name="Basis">What it counts.</param>
    public sealed record Fraction(double Value, FractionBasis Basis) : Concentration;
}

public enum Role
{
    Reagent,
    Solvent,
    Catalyst,
    Product,
    Quench,
    Gas,
    Other,
}
