using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents;

/// <summary>One line of the material list: a substance, a solution of it, or a mixture.</summary>
public sealed record MaterialEntry
{
    public required string Id { get; init; }

    /// <summary>The substance, or the solute of <see cref="Solution"/>; null when <see cref="Mixture"/> is given.</summary>
    public SubstanceReference? Substance { get; init; }

    public SolutionEntry? Solution { get; init; }

    /// <summary>Parts whose fractions sum to 100 %.</summary>
    public IReadOnlyList<MixturePartEntry>? Mixture { get; init; }

    public Role? Role { get; init; }

    /// <summary>Amount in all: mass, amount of substance or volume.</summary>
    public Quantity? Amount { get; init; }

    /// <summary>Powder, wire, 60 % in oil, on carbon …, as typed.</summary>
    public string? Form { get; init; }

    public DateOnly? OpenedOn { get; init; }

    public PeroxideTestEntry? PeroxideTest { get; init; }
}

/// <summary>What names a substance: at least one of CAS number, name and SMILES.</summary>
public sealed record SubstanceReference
{
    public string? Cas { get; init; }

    public string? Name { get; init; }

    /// <summary>Structure as an OpenSMILES string.</summary>
    public string? Smiles { get; init; }

    /// <summary>Values of the group's own, for what the catalogue does not know.</summary>
    public SubstanceProperties? Properties { get; init; }
}

/// <summary>
/// The group's own values of a substance. Each fills a gap of the catalogue. Where the catalogue has a value it stays; of the fire values
/// (flash point, autoignition, limits) the cautious one then governs, and both are kept.
/// </summary>
public sealed record SubstanceProperties
{
    /// <summary>Molecular formula in Hill order.</summary>
    public string? Formula { get; init; }

    /// <summary>In g/mol.</summary>
    public Quantity? MolarMass { get; init; }

    /// <summary>State at 25 °C and 1 atm.</summary>
    public Phase? State { get; init; }

    public Quantity? Density { get; init; }

    public Quantity? MeltingPoint { get; init; }

    public Quantity? BoilingPoint { get; init; }

    public Quantity? FlashPoint { get; init; }

    public Quantity? Autoignition { get; init; }

    /// <summary>In vol%.</summary>
    public Quantity? LowerFlammableLimit { get; init; }

    /// <summary>In vol%.</summary>
    public Quantity? UpperFlammableLimit { get; init; }

    public AntoineEntry? VapourPressure { get; init; }

    /// <summary>Where the values come from, as typed.</summary>
    public string? Source { get; init; }

    /// <summary>Where single values come from that have another source, by the name of the member (<see cref="SourcedMembers"/>).</summary>
    public IReadOnlyDictionary<string, string>? Sources { get; init; }

    /// <summary>Members that may have a source of their own, as the document writes them.</summary>
    public static IReadOnlyList<string> SourcedMembers { get; } =
        ["molarMass", "density", "meltingPoint", "boilingPoint", "flashPoint", "autoignition", "lowerFlammableLimit", "upperFlammableLimit", "vapourPressure"];

    /// <summary>The source of a member: its own, or that of all.</summary>
    public string? SourceOf(string member) => Sources?.GetValueOrDefault(member) ?? Source;
}

/// <param name="Solvent">What it is dissolved in.</param>
/// <param name="Concentration">In mol/L, wt%, vol% or mol%.</param>
public sealed record SolutionEntry(SubstanceReference? Solvent, Quantity? Concentration);

/// <param name="Substance">The component.</param>
/// <param name="Fraction">In wt%, vol% or mol%; one basis for the whole mixture.</param>
public sealed record MixturePartEntry(SubstanceReference? Substance, Quantity? Fraction);

/// <param name="On">Date of the last peroxide test.</param>
/// <param name="Ppm">Its result as a mass fraction in parts per million.</param>
public sealed record PeroxideTestEntry(DateOnly? On, double? Ppm);
