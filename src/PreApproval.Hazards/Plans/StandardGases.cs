using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>The gases every plan may be closed under.</summary>
internal static class StandardGases
{
    public static PlanSubstance Nitrogen { get; } = Of("7727-37-9", "nitrogen", "N2", 0.0280134);

    public static PlanSubstance Oxygen { get; } = Of("7782-44-7", "oxygen", "O2", 0.0319988);

    /// <summary>Dry air as nitrogen and oxygen.</summary>
    public static IReadOnlyList<(PlanSubstance Gas, double Fraction)> Air { get; } = [(Nitrogen, 0.79), (Oxygen, 0.21)];

    private static PlanSubstance Of(string cas, string name, string formula, double molarMassKgPerMol) =>
        new(cas, name, Catalog.Default.TryFindByCas(cas, out var known)
            ? known
            : new Substance
            {
                Identity = new Identity { Cas = cas, Name = name, Formula = formula, MolarMassKgPerMol = molarMassKgPerMol },
                PhaseAt298K = Phase.Gas,
            });
}
