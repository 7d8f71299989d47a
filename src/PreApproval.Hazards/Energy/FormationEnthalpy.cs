using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>Standard molar enthalpy of formation at 298.15 K and 1 bar, by state of matter.</summary>
public static class FormationEnthalpy
{
    /// <summary>Temperature in K that the standard values hold for.</summary>
    public const double StandardK = 298.15;

    // Zero by definition (IUPAC): the stable form at 298.15 K; for phosphorus the white one. Carbon is taken for graphite.
    private static readonly HashSet<string> NotReference = new(StringComparer.Ordinal) { "O3", "P" };

    /// <summary>
    /// Enthalpy of formation in J/mol in a state: zero for an element in its reference state; the published value; between gas and liquid, where only the other is on file,
    /// that one and the enthalpy of vaporisation at 298.15 K, as estimated; else null, which is a missing value and never zero.
    /// </summary>
    public static Sourced<double>? JPerMol(Substance substance, Phase phase)
    {
        if (IsElementInReferenceState(substance, phase))
        {
            return new Sourced<double>(0, Quality.Measured, ["iupac-reference-state"]);
        }

        var vaporisation = EnthalpyOfVaporisation.At(substance, StandardK);
        return phase switch
        {
            Phase.Gas => substance.GasEnthalpyOfFormationJPerMol ?? Shifted(substance.LiquidEnthalpyOfFormationJPerMol, vaporisation, 1),
            Phase.Liquid => substance.LiquidEnthalpyOfFormationJPerMol ?? Shifted(substance.GasEnthalpyOfFormationJPerMol, vaporisation, -1),
            Phase.Solid => substance.SolidEnthalpyOfFormationJPerMol,
        };
    }

    /// <summary>True for an element in the form that has no enthalpy of formation by definition.</summary>
    public static bool IsElementInReferenceState(Substance substance, Phase phase) =>
        phase == substance.PhaseAt298K && substance.Identity.Formula is { } formula && Formula.TryCount(formula, out var atoms) && atoms.Count == 1 && !NotReference.Contains(formula);

    private static Sourced<double>? Shifted(Sourced<double>? known, Sourced<double>? vaporisation, int sign) =>
        known is null || vaporisation is null
            ? null
            : new Sourced<double>(known.Value + (sign * vaporisation.Value), Quality.Estimated, [.. known.Sources.Union(vaporisation.Sources, StringComparer.Ordinal)]);
}
