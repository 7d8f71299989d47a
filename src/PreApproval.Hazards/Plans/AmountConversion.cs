using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>Turns what was typed (mass, mol, volume; pure, solution, mixture) into mol of each substance.</summary>
/// <remarks>
/// Where the density of a solution over its strength is on file (<see cref="SolutionDensity"/>), it converts volume to mass.
/// Volumes of other solutions are taken as additive: V = V(solvent) + n·M/ρ of a condensed solute of known density; the volume
/// of a dissolved gas is neglected. What boils below room temperature is a liquid below its boiling point, with the density
/// of the saturated liquid there; above it, or when the plan calls it a gas, its volume is ideal at 293.15 K and 101 325 Pa.
/// These are conventions of laboratory practice, not sourced. An unknown molar mass, density or temperature of a liquefied
/// gas leaves the amount null, never zero.
/// </remarks>
public static class AmountConversion
{
    /// <summary>Share up to which a dissolved solid of unknown density takes the room of the water it displaces. Common practice, no source.</summary>
    private const double DiluteFraction = 0.05;

    /// <summary>Converts an amount of a composition. Never throws on a valid plan.</summary>
    public static ConvertedAmount Convert(Composition composition, Amount amount, Measured measured = default)
    {
        // most materials are pure, and of most of those all is known
        if (composition is Composition.Pure { Substance: var alone } && ConversionLedger.KnownMol(alone, amount) is { } known)
        {
            return new ConvertedAmount([new Portion(alone, known, 1)], [], [], []);
        }

        var ledger = new ConversionLedger(measured);
        var portions = composition switch
        {
            Composition.Pure pure => [new Portion(pure.Substance, ledger.Mol(pure.Substance, amount), 1)],
            Composition.Solution solution => Solution(solution, amount, ledger),
            Composition.Mixture mixture => Mixture(mixture, amount, ledger),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        return new ConvertedAmount(portions, ledger.Missing, ledger.Assumptions, ledger.TakenAs);
    }

    /// <summary>Substances of a composition with their mass fractions as delivered, where known.</summary>
    public static IReadOnlyList<Portion> Parts(Composition composition)
    {
        ArgumentNullException.ThrowIfNull(composition);
        return composition.Portions;
    }

    internal static IReadOnlyList<Portion> PartsOf(Composition composition) => composition switch
    {
        Composition.Pure pure => [new Portion(pure.Substance, null, 1)],
        Composition.Solution solution => SolutionParts(solution),
        Composition.Mixture mixture =>
        [
            .. mixture.Parts.Select(part => new Portion(part.Substance, null, part.Basis == FractionBasis.Mass ? part.Fraction : null)),
        ],
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private static Portion[] SolutionParts(Composition.Solution solution)
    {
        var fraction = solution.Concentration switch
        {
            Concentration.Fraction { Basis: FractionBasis.Mass } mass => mass.Value,
            Concentration.Fraction => (double?)null,
            Concentration.MolPerM3 molar => MassFraction(solution, molar.Value),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        return [new Portion(solution.Solute, null, fraction), new Portion(solution.Solvent, null, 1 - fraction)];
    }

    private static double? MassFraction(Composition.Solution solution, double molPerM3)
    {
        if (Published(solution) is { } published)
        {
            return published.MassFraction;
        }

        if (ConversionLedger.KnownMolarMass(solution.Solute) is not { } molarMass || ConversionLedger.KnownDensity(solution.Solvent) is not { } density)
        {
            return null;
        }

        var solute = molPerM3 * molarMass;
        var solvent = Math.Max(0, 1 - SoluteVolume(solution.Solute, molPerM3)) * density;
        return solute / (solute + solvent);
    }

    private static Portion[] Solution(Composition.Solution solution, Amount amount, ConversionLedger ledger)
    {
        var parts = solution.Portions;
        if (Published(solution) is { } published)
        {
            var (soluteMol, solventMol) = ByDensity(solution, published, amount, ledger);
            return [parts[0] with { Mol = soluteMol }, parts[1] with { Mol = solventMol }];
        }

        var (solute, solvent) = solution.Concentration switch
        {
            Concentration.MolPerM3 molar => ByVolume(solution, molar.Value, amount, ledger),
            Concentration.Fraction fraction => ByFraction(
                [(solution.Solute, fraction.Value), (solution.Solvent, 1 - fraction.Value)], fraction.Basis, amount, ledger) is var mol
                ? (mol[0], mol[1])
                : throw new System.Diagnostics.UnreachableException(),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        return [parts[0] with { Mol = solute }, parts[1] with { Mol = solvent }];
    }

    /// <summary>Strength and density of a solution whose density over strength is on file; null for any other.</summary>
    private static (double MassFraction, double DensityKgPerM3)? Published(Composition.Solution solution)
    {
        if (SolutionDensity.Of(solution.Solute.Known?.Identity.Cas, solution.Solvent.Known?.Identity.Cas) is not { } curve
            || ConversionLedger.KnownMolarMass(solution.Solute) is not { } molarMass || ConversionLedger.KnownMolarMass(solution.Solvent) is null)
        {
            return null;
        }

        var fraction = solution.Concentration switch
        {
            Concentration.Fraction { Basis: FractionBasis.Mass } mass => mass.Value,
            Concentration.Fraction => (double?)null,
            Concentration.MolPerM3 molar => curve.MassFraction(molar.Value, molarMass),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        return fraction is { } w && w > 0 && curve.At(w) is { } density ? (w, density) : null;
    }

    private static (double? Solute, double? Solvent) ByDensity(
        Composition.Solution solution, (double MassFraction, double DensityKgPerM3) published, Amount amount, ConversionLedger ledger)
    {
        var soluteKgPerMol = ConversionLedger.KnownMolarMass(solution.Solute)!.Value;
        var solventKgPerMol = ConversionLedger.KnownMolarMass(solution.Solvent)!.Value;
        var kg = amount switch
        {
            Amount.Volume volume => volume.M3 * published.DensityKgPerM3,
            Amount.Mass mass => mass.Kg,
            Amount.Mol solute => solute.Moles * soluteKgPerMol / published.MassFraction,
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        if (amount is Amount.Volume || solution.Concentration is Concentration.MolPerM3)
        {
            ledger.Assume($"density of {solution.Solute.Name} in {solution.Solvent.Name} {published.DensityKgPerM3.ToString("0", System.Globalization.CultureInfo.InvariantCulture)} kg/m³");
        }

        return (kg * published.MassFraction / soluteKgPerMol, kg * (1 - published.MassFraction) / solventKgPerMol);
    }

    private static (double? Solute, double? Solvent) ByVolume(Composition.Solution solution, double molPerM3, Amount amount, ConversionLedger ledger)
    {
        var volume = amount switch
        {
            Amount.Volume given => given.M3,
            Amount.Mol solute => solute.Moles / molPerM3,
            Amount.Mass mass => MassPerM3(solution, molPerM3, ledger) is { } perM3 ? mass.Kg / perM3 : (double?)null,
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        if (volume is not { } m3)
        {
            return (null, null);
        }

        var solvent = m3 * Math.Max(0, 1 - SoluteVolume(solution.Solute, molPerM3));
        ledger.Assume("volumes of solute and solvent taken as additive");
        return (m3 * molPerM3, ledger.Mol(solution.Solvent, new Amount.Volume(solvent)));
    }

    private static double? MassPerM3(Composition.Solution solution, double molPerM3, ConversionLedger ledger) =>
        ledger.MolarMass(solution.Solute) is { } molarMass && ledger.Density(solution.Solvent) is { } density
            ? (molPerM3 * molarMass) + (density * Math.Max(0, 1 - SoluteVolume(solution.Solute, molPerM3)))
            : null;

    /// <summary>Volume of the solute in m³ per m³ of solution; 0 for a gas or an unknown density.</summary>
    private static double SoluteVolume(PlanSubstance solute, double molPerM3) =>
        solute.Known is { PhaseAt298K: not Phase.Gas } && ConversionLedger.KnownMolarMass(solute) is { } molarMass && ConversionLedger.KnownDensity(solute) is { } density
            ? molPerM3 * molarMass / density
            : 0;

    private static Portion[] Mixture(Composition.Mixture mixture, Amount amount, ConversionLedger ledger)
    {
        var parts = Parts(mixture);
        var basis = mixture.Parts.Count == 0 ? FractionBasis.Mass : mixture.Parts[0].Basis;
        if (basis == FractionBasis.Mass && mixture.DensityKgPerM3 is { } density && amount is Amount.Volume whole)
        {
            amount = new Amount.Mass(whole.M3 * density);
            ledger.Assume($"density of the mixture {density.ToString("0", System.Globalization.CultureInfo.InvariantCulture)} kg/m³");
        }

        if (mixture.CountedPart is { } counted && amount is Amount.Mol solute)
        {
            var one = ByFraction([.. mixture.Parts.Select(static part => (part.Substance, part.Fraction))], basis, new Amount.Mass(1), ledger);
            return [.. parts.Select((part, index) => part with { Mol = one[index] * solute.Moles / one[counted] })];
        }

        var mol = ByFraction([.. mixture.Parts.Select(part => (part.Substance, part.Fraction))], basis, amount, ledger);
        return [.. parts.Select((part, index) => part with { Mol = mol[index] })];
    }

    private static double?[] ByFraction(IReadOnlyList<(PlanSubstance Substance, double Fraction)> parts, FractionBasis basis, Amount amount, ConversionLedger ledger)
    {
        // mol, mass and volume of each part for one unit of the basis; the amount then scales them all
        var perUnit = parts.Select(part => PerUnit(part.Substance, part.Fraction, basis, amount, ledger)).ToArray();
        double? scale = amount switch
        {
            Amount.Mol mol => Ratio(mol.Moles, basis == FractionBasis.Mole ? 1 : parts.Count == 2 ? perUnit[0].Mol : Sum(perUnit.Select(part => part.Mol))),
            Amount.Mass mass => Ratio(mass.Kg, basis == FractionBasis.Mass ? 1 : Sum(perUnit.Select(part => part.Mass))),
            Amount.Volume volume => Ratio(volume.M3, basis == FractionBasis.Volume ? 1 : Sum(perUnit.Select(part => part.Volume))),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        return [.. perUnit.Select(part => part.Mol * scale)];
    }

    private static (double? Mol, double? Mass, double? Volume) PerUnit(
        PlanSubstance substance, double fraction, FractionBasis basis, Amount amount, ConversionLedger ledger)
    {
        if (fraction <= 0)
        {
            return (0, 0, 0);
        }

        var molarMass = ledger.MolarMass(substance);
        var density = basis == FractionBasis.Volume || amount is Amount.Volume ? DensityInMixture(substance, fraction, ledger) : null;
        var mass = basis switch
        {
            FractionBasis.Mass => fraction,
            FractionBasis.Mole => fraction * molarMass,
            FractionBasis.Volume => fraction * density,
        };
        return (mass / molarMass, mass, mass / density);
    }

    private static double? DensityInMixture(PlanSubstance substance, double fraction, ConversionLedger ledger)
    {
        if (substance.Known is { PhaseAt298K: Phase.Gas })
        {
            // a dissolved gas takes about the room of the water it displaces; exact to 20 % for aqueous acids and ammonia
            ledger.Assume($"{substance.Name} in solution counted with 1000 kg/m³");
            return 1000;
        }

        if (substance.Known is { PhaseAt298K: Phase.Solid, DensityKgPerM3: null } && fraction <= DiluteFraction)
        {
            // whatever its density, so little of it shifts the volume by less than a tenth of its share
            ledger.Assume($"{substance.Name} in dilute solution counted with 1000 kg/m³");
            return 1000;
        }

        return ledger.Density(substance);
    }

    private static double? Ratio(double numerator, double? denominator) => denominator is > 0 ? numerator / denominator : null;

    private static double? Sum(IEnumerable<double?> values) =>
        values.Aggregate((double?)0, static (sum, value) => sum + value);
}
