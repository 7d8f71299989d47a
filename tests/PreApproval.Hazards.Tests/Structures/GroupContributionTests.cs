using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Structures;

/// <summary>Estimates from groups against worked examples and against the measured values of the catalogue.</summary>
public sealed class GroupContributionTests
{
    // Joback and Reid 1987 applied to acetone: Tb 321.9 K (measured 329), ΔfH −217.8 kJ/mol (measured −217.1, CRC Handbook);
    // Tc and Pc 500.6 K and 48.0 bar, Cp 75.3 J/(mol K) at 300 K: worked example in the public descriptions of the method, from memory
    [Fact]
    public void Joback_Acetone_GivesThePublishedFigures()
    {
        var acetone = Joback("CC(C)=O");
        Assert.Equal(321.9, acetone.BoilingPointK, 0.05);
        Assert.Equal(-217.8, acetone.GasEnthalpyOfFormationJPerMol!.Value / 1000, 0.05);
        Assert.Equal(500.6, acetone.CriticalTemperatureK * 322.11 / acetone.BoilingPointK, 0.5);
        Assert.Equal(48.0, acetone.CriticalPressurePa / 1e5, 0.1);
        Assert.Equal(75.3, acetone.GasHeatCapacityJPerMolK(300), 0.1);
    }

    // sums by hand from the table of the paper: p-cresol 4 ring =CH, 2 ring =C, CH3, phenol OH; ethyl acetate 2 CH3, CH2, COO
    [Theory]
    [InlineData("Cc1ccc(O)cc1", 198 + (4 * 26.73) + (2 * 31.01) + 23.58 + 76.34)]
    [InlineData("CCOC(C)=O", 198 + (2 * 23.58) + 22.88 + 81.10)]
    [InlineData("C1CCCCC1", 198 + (6 * 27.15))]
    [InlineData("N#Cc1ccccc1", 198 + 125.66 + (5 * 26.73) + 31.01)]
    public void Joback_BoilingPoint_IsTheSumOfTheGroups(string smiles, double expectedK) => Assert.Equal(expectedK, Joback(smiles).BoilingPointK, 1e-9);

    [Theory]
    [InlineData("CN(C)C=O", "C bound to N, O")]
    [InlineData("CS(C)=O", "S bound to C, C, O")]
    [InlineData("[Na+].[Cl-]", "salts")]
    [InlineData("CC(=O)[O-]", "ions")]
    [InlineData("[2H]C(Cl)(Cl)Cl", "isotopes")]
    [InlineData("C[Si](C)(C)C", "Si bound to C, C, C, C")]
    [InlineData("CC(C)(C)OO", "O bound to")]
    public void Joback_WithoutAGroupForEveryAtom_GivesNoEstimateAndSaysWhy(string smiles, string because)
    {
        Assert.Null(JobackEstimate.Of(Structure.Of(smiles), out var why));
        Assert.Contains(because, why, StringComparison.Ordinal);
    }

    [Fact]
    public void Joback_SmallRing_GivesNoEnthalpyOfFormation() => Assert.Null(Joback("C1CC1").GasEnthalpyOfFormationJPerMol);

    // measured and correlated values of the catalogue, each with its publication; estimates among them are left out
    [Fact]
    public void Joback_ErrorBars_HoldNineteenOfTwentyMeasuredValues()
    {
        AssertBars("boiling point", s => s.BoilingPointK, j => j.BoilingPointK, _ => JobackEstimate.BoilingPointErrorK, 170);
        AssertBars("critical temperature", s => s.CriticalTemperatureK, j => j.CriticalTemperatureK, _ => JobackEstimate.CriticalTemperatureErrorK, 120);
        AssertBars("critical pressure", s => s.CriticalPressurePa, j => j.CriticalPressurePa, v => v * JobackEstimate.CriticalPressureRelativeError, 120);
        AssertBars("enthalpy of formation", s => s.GasEnthalpyOfFormationJPerMol, j => j.GasEnthalpyOfFormationJPerMol, _ => JobackEstimate.EnthalpyOfFormationErrorJPerMol, 150);
    }

    // Data/unifac-assignments.tsv: published assignments of Hansen et al. 1991 and Wittig et al. 2003. The eight that differ are explained in docs/methods/structure-estimates.md.
    [Fact]
    public void Unifac_GroupsOfTheCatalogue_AreThosePublished()
    {
        string[] other = ["3,4-dihydro-2H-pyran", "N-methylmorpholine", "tetrahydrofurfuryl alcohol", "triethylene glycol", "1,1,3,3-tetramethylurea", "chloroform-d", "deuterium oxide", "tetraethyl orthosilicate"];
        var assigned = Catalog.Default.Substances.Where(s => s is { UnifacGroups: not null, Identity.Smiles: not null }).ToList();
        Assert.InRange(assigned.Count, 340, int.MaxValue);
        var differing = assigned.Where(s => !string.Equals(Text(UnifacFragments.Of(GroupFragments.Canonical(Structure.Of(s.Identity.Smiles!)), out _)), Text(s.UnifacGroups!.Value), StringComparison.Ordinal)).Select(s => s.Identity.Name);
        Assert.Equal(other.Order(StringComparer.Ordinal), differing.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("COCCOCCOC", "O(CCOC)CCOC")]
    [InlineData("COC(C)CO", "OCC(OC)C")]
    [InlineData("CC(=O)OCCOC", "O(C)CCOC(=O)C")]
    public void Unifac_AnotherSpelling_GivesTheSameGroups(string one, string other)
    {
        Assert.NotNull(TypedStructure.Of(one).Unifac);
        Assert.Equal(Text(TypedStructure.Of(one).Unifac), Text(TypedStructure.Of(other).Unifac));
    }

    // Meyer, Köhler and Homburg, Explosives, 6th ed. (2007): oxygen balances; TNT −73.96 from Lothrop and Handrick's formula
    [Theory]
    [InlineData("C7H5N3O6", -73.96, 0.01)]
    [InlineData("C3H5N3O9", 3.5, 0.05)]
    [InlineData("C3H6N6O6", -21.6, 0.05)]
    [InlineData("C5H8N4O12", -10.1, 0.05)]
    [InlineData("C6H3N3O7", -45.4, 0.05)]
    [InlineData("H4N2O3", 20.0, 0.05)]
    [InlineData("KNO3", 39.6, 0.05)]
    public void OxygenBalance_OfExplosives_IsThePublishedOne(string formula, double percent, double within) =>
        Assert.Equal(percent, OxygenBalance.Percent(formula)!.Value, within);

    [Theory]
    [InlineData("CCl4")]
    [InlineData("C2H6Hg")]
    [InlineData("nonsense")]
    public void OxygenBalance_WithoutASettledOxide_IsUnknown(string formula) => Assert.Null(OxygenBalance.Percent(formula));

    private static void AssertBars(string what, Func<Substance, Sourced<double>?> measured, Func<JobackEstimate, double?> estimated, Func<double, double> bar, int atLeast)
    {
        var deviations = new List<(string Name, bool Within)>();
        foreach (var substance in Catalog.Default.Substances)
        {
            if (measured(substance) is { Quality: Quality.Measured or Quality.Correlated } value && substance.Identity.Smiles is { } smiles
                && JobackEstimate.Of(Structure.Of(smiles), out _) is { } joback && estimated(joback) is { } estimate)
            {
                deviations.Add((substance.Identity.Name, Math.Abs(estimate - value.Value) <= bar(value.Value)));
            }
        }

        Assert.InRange(deviations.Count, atLeast, int.MaxValue);
        var outside = deviations.Where(d => !d.Within).Select(d => d.Name).ToList();
        Assert.True(outside.Count <= 0.05 * deviations.Count, $"{what}: {outside.Count} of {deviations.Count} outside: {string.Join(", ", outside)}");
    }

    private static JobackEstimate Joback(string smiles) => JobackEstimate.Of(Structure.Of(smiles), out var because) ?? throw new ArgumentException(because, nameof(smiles));

    private static string Text(IReadOnlyDictionary<int, int>? groups) => groups is null ? "none" : string.Join(' ', groups.OrderBy(g => g.Key).Select(g => $"{g.Key}:{g.Value}"));
}
