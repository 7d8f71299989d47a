using PreApproval.Documents.Planning;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using Xunit;

namespace PreApproval.Documents.Tests.Reading;

/// <summary>What a document means by the name of a solution.</summary>
public sealed class SolutionNameTests
{
    [Theory]
    [InlineData("""{"name": "hydrochloric acid"}""", "7647-01-0", "7732-18-5", 0.37)]
    [InlineData("""{"name": "conc. HCl"}""", "7647-01-0", "7732-18-5", 0.37)]
    [InlineData("""{"cas": "7647-01-0", "name": "hydrochloric acid"}""", "7647-01-0", "7732-18-5", 0.37)]
    [InlineData("""{"name": "nitric acid"}""", "7697-37-2", "7732-18-5", 0.68)]
    [InlineData("""{"cas": "1336-21-6"}""", "7664-41-7", "7732-18-5", 0.28)]
    [InlineData("""{"name": "30 % H2O2"}""", "7722-84-1", "7732-18-5", 0.30)]
    public void ToPlan_NameOfASolution_IsTheSolution(string substance, string solute, string solvent, double fraction)
    {
        var solution = Assert.IsType<Composition.Solution>(Material(substance).Composition);
        Assert.Equal((solute, solvent), (solution.Solute.Key, solution.Solvent.Key));
        Assert.Equal(fraction, Assert.IsType<Concentration.Fraction>(solution.Concentration).Value, 1e-12);
    }

    [Theory]
    [InlineData("""{"name": "hydrogen chloride"}""")]
    [InlineData("""{"cas": "7647-01-0"}""")]
    [InlineData("""{"cas": "7647-01-0", "name": "hydrogen chloride"}""")]
    public void ToPlan_PureGas_StaysTheGas(string substance) =>
        Assert.Equal("7647-01-0", Assert.IsType<Composition.Pure>(Material(substance).Composition).Substance.Known?.Key);

    [Fact]
    public void ToPlan_TypedStrength_WinsOverTheUsualOne()
    {
        var material = Material("""{"name": "hydrochloric acid"}""", """, "solution": {"solvent": {"name": "water"}, "concentration": {"value": 2, "unit": "mol/L"}}""");
        var solution = Assert.IsType<Composition.Solution>(material.Composition);
        Assert.Equal("7647-01-0", solution.Solute.Key);
        Assert.Equal(2000, Assert.IsType<Concentration.MolPerM3>(solution.Concentration).Value, 1e-9);
        Assert.Null(material.ReadAs);
    }

    [Fact]
    public void ToPlan_SolventThatIsANamedMixture_IsTakenApart()
    {
        var material = Material("""{"cas": "109-72-8"}""", """, "solution": {"solvent": {"name": "petroleum ether 40-60"}, "concentration": {"value": 2.5, "unit": "mol/L"}}""");
        var mixture = Assert.IsType<Composition.Mixture>(material.Composition);
        Assert.Equal("109-72-8 109-66-0 110-54-3", string.Join(" ", mixture.Parts.Select(static part => part.Substance.Key)));
    }

    /// <summary>The bottle of sodium hydride holds 60 % in mineral oil (reagent catalogues, from memory): its form is its composition.</summary>
    [Fact]
    public void ToPlan_FormOfANamedSolution_IsCounted()
    {
        var material = Material("""{"cas": "7646-69-7", "name": "sodium hydride"}""", """, "form": "60 % in mineral oil" """);

        var solution = Assert.IsType<Composition.Solution>(material.Composition);
        Assert.Equal(("7646-69-7", "8042-47-5"), (solution.Solute.Key, solution.Solvent.Key));
        Assert.Equal(0.6, Assert.IsType<Concentration.Fraction>(solution.Concentration).Value, 1e-12);
        Assert.Equal("sodium hydride, 60 % in mineral oil", material.ReadAs?.Typed);
    }

    [Fact]
    public void Screen_StrengthInAFormNobodyKnows_SaysThatItIsNotCounted()
    {
        var report = Screener.Screen(Plan("""{"name": "platinum"}""", """, "form": "3 % on barium sulfate" """), Policy.Default);

        var finding = Assert.Single(report.Findings, static finding => finding.Code is "data.form-not-counted");
        Assert.Equal(Severity.Notice, finding.Severity);
        Assert.Contains("3 % on barium sulfate", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(Screener.Screen(Plan("""{"name": "sodium hydride"}""", """, "form": "60 % in mineral oil" """), Policy.Default).Findings, static other => other.Code is "data.form-not-counted");
    }

    [Fact]
    public void Screen_StrengthNotTyped_IsANoticeWithTheStrength()
    {
        var report = Screener.Screen(Plan("""{"name": "hydrochloric acid"}""", ""), Policy.Default);
        var finding = Assert.Single(report.Findings, static finding => finding.Code is "data.strength-assumed");
        Assert.Equal(Severity.Notice, finding.Severity);
        Assert.Equal((37.0, "wt%", Quality.Assumed), (finding.Evidence[0].Value, finding.Evidence[0].Unit, finding.Evidence[0].Quality));
        Assert.DoesNotContain(Screener.Screen(Plan("""{"name": "hydrochloric acid 37 %"}""", ""), Policy.Default).Findings, static other => other.Code is "data.strength-assumed");
    }

    private static Material Material(string substance, string more = "") => Plan(substance, more).Materials[0];

    private static Plan Plan(string substance, string more)
    {
        var json = $$$"""
            {"schema": "preapproval/procedure/1", "title": "Test",
             "materials": [{"id": "a", "substance": {{{substance}}}, "role": "reagent", "amount": {"value": 10, "unit": "mL"}{{{more}}}}],
             "vessels": [{"id": "flask", "kind": "round-bottom flask", "volume": {"value": 100, "unit": "mL"}}],
             "steps": [{"id": "1", "action": "charge", "vessel": "flask", "materials": ["a"], "temperature": {"value": 20, "unit": "°C"}}]}
            """;
        var read = DocumentReader.Read(System.Text.Encoding.UTF8.GetBytes(json));
        Assert.True(read.IsOk);
        return PlanMapping.ToPlan(read.Value!, Catalog.Default);
    }
}
