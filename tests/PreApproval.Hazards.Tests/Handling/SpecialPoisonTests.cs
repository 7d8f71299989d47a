using PreApproval.Hazards.Handling;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Handling.Charges;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Handling;

/// <summary>Poisons with a first aid of their own (Prudent Practices 2011 and NIOSH Pocket Guide, from memory).</summary>
public sealed class SpecialPoisonTests
{
    [Theory]
    [InlineData(2, Severity.Caution)]
    [InlineData(3, Severity.Warning)]
    public void Screen_CyanideInTwoSteps_CountsBoth(double grams, Severity severity) =>
        Assert.Equal(severity, Only(Drawn(Of("a", "sodium cyanide", null), G(grams), G(grams)), "toxicity.cyanide").Severity);

    /// <summary>A declared product counts with its mass: 0.2 mol of sodium cyanide (49.01 g/mol) are 9.8 g, 20 mmol 1.0 g; 5 g and more are a step worse.</summary>
    [Theory]
    [InlineData(200, Severity.Warning)]
    [InlineData(20, Severity.Caution)]
    public void Screen_CyanideAsADeclaredProduct_CountsItsMass(double mmol, Severity severity)
    {
        var plan = Charged(Of("a", "sodium amide", Mmol(mmol))) with { Reactions = [Reaction("1", ["a"], ("sodium cyanide", Phase.Solid))] };

        Assert.Equal(severity, Only(plan, "toxicity.cyanide").Severity);
    }

    /// <summary>20 mmol are 1.0 g of 49.0 g/mol, below 5 g; beside what is made in an amount that nobody knows they are not little, in whichever order and state.</summary>
    [Theory]
    [InlineData("known", "unknown", Phase.Solid, Phase.Solid)]
    [InlineData("unknown", "known", Phase.Solid, Phase.Solid)]
    [InlineData("unknown", "known", Phase.Gas, Phase.Gas)]
    [InlineData("unknown", "known", Phase.Solid, Phase.Gas)]
    [InlineData("known", "unknown", Phase.Gas, Phase.Gas)]
    public void Screen_CyanideMadeInPartInAnUnknownAmount_IsNotLittle(string first, string second, Phase one, Phase other)
    {
        var plan = Charged(Of("known", "sodium amide", Mmol(20)), Of("unknown", "lithium diisopropylamide", null)) with
        {
            Reactions = [Reaction("1", [first], ("sodium cyanide", one)), Reaction("1", [second], ("sodium cyanide", other))],
        };

        var finding = Only(plan, "toxicity.cyanide");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("in an amount that is not known", finding.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("sodium cyanide", 2, "toxicity.cyanide", Severity.Caution)]
    [InlineData("sodium cyanide", 6, "toxicity.cyanide", Severity.Warning)]
    [InlineData("hydrogen cyanide", 1, "toxicity.hydrogen-cyanide", Severity.Warning)]
    [InlineData("phosgene", 1, "toxicity.phosgene", Severity.Warning)]
    [InlineData("triphosgene", 2, "toxicity.phosgene-source", Severity.Caution)]
    [InlineData("triphosgene", 12, "toxicity.phosgene-source", Severity.Warning)]
    [InlineData("trimethylsilyldiazomethane", 0.1, "toxicity.diazomethane", Severity.Warning)]
    [InlineData("nickel tetracarbonyl", 0.1, "toxicity.nickel-carbonyl", Severity.Danger)]
    [InlineData("dimethylmercury", 0.1, "toxicity.organomercury", Severity.Danger)]
    public void Screen_SpecialPoison_PointsToWhatMustBeAgreed(string name, double grams, string code, Severity severity)
    {
        var finding = Only(Charged(Of("a", name, G(grams))), code);

        Assert.Equal(severity, finding.Severity);
        Assert.Contains("Local rules", finding.Statement, StringComparison.Ordinal);
        Assert.NotEmpty(finding.Controls);
    }

    [Fact]
    public void Screen_HydrofluoricAcid_AsksForGluconateGel()
    {
        var plan = Charged(WeightPercent("a", "hydrogen fluoride", "water", 40, ML(5)));
        var safe = plan with { Safeguards = [new Safeguard("calcium gluconate gel", [], null)] };

        Assert.Equal(ControlStatus.Missing, Assert.Single(Only(plan, "toxicity.hydrogen-fluoride").Controls, static needed => needed.Control is "calcium gluconate gel").Status);
        Assert.Equal(ControlStatus.Present, Assert.Single(Only(safe, "toxicity.hydrogen-fluoride").Controls, static needed => needed.Control is "calcium gluconate gel").Status);
    }

    [Theory]
    [InlineData("carbon monoxide", "toxicity.carbon-monoxide")]
    [InlineData("hydrogen sulfide", "toxicity.hydrogen-sulfide")]
    public void Screen_GasOverTheContents_IsAPoisonToo(string gas, string code)
    {
        var plan = Charged(Of("a", "toluene", ML(20)));

        Assert.Equal(["1"], Only(plan with { Steps = [plan.Steps[0] with { Headspace = Under(gas) }] }, code).Steps);
    }

    [Fact]
    public void Screen_OrganomercuryByStructure_IsFound()
    {
        var ethyl = new Material { Id = "a", Composition = new Composition.Pure(new PlanSubstance("CC[Hg]CC", "diethylmercury", null, "CC[Hg]CC")), Role = Role.Reagent, Amount = G(1) };

        Assert.Equal(Severity.Danger, Only(Charged(ethyl), "toxicity.organomercury").Severity);
        Assert.DoesNotContain(Screener.Screen(Charged(Of("a", "mercury(II) chloride", G(1))), Policy.Default).Findings, static finding => finding.Code is "toxicity.organomercury");
    }

    [Fact]
    public void Screen_OrganomercuryOfTheGroup_IsFoundByItsStructure()
    {
        var known = new Substance { Identity = new Identity { Name = "our ethylmercury", Smiles = "CC[Hg]Cl" }, PhaseAt298K = Phase.Solid };
        var ours = new Material { Id = "a", Composition = new Composition.Pure(new PlanSubstance("ours", "our ethylmercury", known, "CC[Hg]Cl")), Role = Role.Reagent, Amount = G(1) };

        Assert.Equal(Severity.Danger, Only(Charged(ours), "toxicity.organomercury").Severity);
    }

    [Fact]
    public void Table_EveryPoison_HasItsOwnControls() =>
        Assert.All(SpecialPoisonScreen.Keys, static key => Assert.StartsWith("toxicity." + key.Split('-')[0], ControlNeeds.Of("toxicity." + key)!.Code, StringComparison.Ordinal));
}
