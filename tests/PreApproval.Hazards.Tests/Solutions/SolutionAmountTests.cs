using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Solutions;
using Xunit;

namespace PreApproval.Hazards.Tests.Solutions;

/// <summary>mol of solute in a litre of the bottle: tables of commercial acids and bases (Merck Index, reagent catalogues), from memory.</summary>
public sealed class SolutionAmountTests
{
    [Theory]
    [InlineData("hydrochloric acid 37 %", 12.1, 0.015)]
    [InlineData("hydrochloric acid 32 %", 10.2, 0.015)]
    [InlineData("hydrochloric acid 20 %", 6.0, 0.015)]
    [InlineData("2 M HCl", 2.0, 1e-6)]
    [InlineData("hydrobromic acid 48 %", 8.9, 0.02)]
    [InlineData("hydriodic acid 57 %", 7.6, 0.02)]
    [InlineData("hydrofluoric acid 40 %", 22.6, 0.03)]
    [InlineData("hydrofluoric acid 48 %", 27.6, 0.03)]
    [InlineData("nitric acid 65 %", 14.4, 0.01)]
    [InlineData("nitric acid 70 %", 15.7, 0.015)]
    [InlineData("nitric acid 68 %", 15.2, 0.015)]
    [InlineData("sulfuric acid 98 %", 18.4, 0.01)]
    [InlineData("sulfuric acid 95 %", 17.8, 0.015)]
    [InlineData("2 N H2SO4", 1.0, 1e-6)]
    [InlineData("phosphoric acid 85 %", 14.7, 0.01)]
    [InlineData("perchloric acid 70 %", 11.7, 0.01)]
    [InlineData("perchloric acid 60 %", 9.2, 0.015)]
    [InlineData("acetic acid 80 %", 14.3, 0.015)]
    [InlineData("ammonia solution 28 %", 14.8, 0.015)]
    [InlineData("ammonia solution 25 %", 13.3, 0.015)]
    [InlineData("ammonia solution 35 %", 18.0, 0.015)]
    [InlineData("hydrogen peroxide 30 %", 9.8, 0.01)]
    [InlineData("hydrogen peroxide 50 %", 17.6, 0.015)]
    [InlineData("hydrogen peroxide 3 %", 0.89, 0.015)]
    [InlineData("sodium hydroxide 50 %", 19.1, 0.01)]
    [InlineData("sodium hydroxide 10 %", 2.77, 0.01)]
    [InlineData("potassium hydroxide 45 %", 11.7, 0.01)]
    [InlineData("potassium hydroxide 50 %", 13.5, 0.015)]
    [InlineData("formalin", 13.3, 0.01)]
    [InlineData("brine", 5.3, 0.02)]
    [InlineData("hydrazine hydrate 64 %", 20.6, 0.015)]
    [InlineData("HBr 33 % in acetic acid", 5.3, 0.03)]
    [InlineData("methylamine 33 % in ethanol", 8.0, 0.02)]
    [InlineData("dimethylamine 33 % in ethanol", 5.6, 0.02)]
    [InlineData("methylamine 40 % in water", 11.6, 0.02)]
    [InlineData("sodium methoxide 25 % in methanol", 4.37, 0.02)]
    [InlineData("sodium methoxide 30 % in methanol", 5.4, 0.02)]
    [InlineData("sodium ethoxide 21 % in ethanol", 2.68, 0.02)]
    [InlineData("n-BuLi 2.5 M in hexanes", 2.5, 1e-6)]
    [InlineData("tert-butyl hydroperoxide 70 % in water", 7.2, 0.02)]
    [InlineData("liquid nitrogen", 28.8, 0.01)]
    public void Convert_OneLitreOfTheBottle_HoldsWhatTheTablesSay(string name, double mol, double within)
    {
        Assert.True(SolutionCatalog.Default.TryFind(name, out var solution));
        var converted = AmountConversion.Convert(solution.Composition, new Amount.Volume(1e-3));
        Assert.Empty(converted.Missing);
        var solute = (solution.Solute ?? solution.Parts[0].Substance).Key;
        Assert.Equal(mol, converted.Portions.First(portion => string.Equals(portion.Substance.Key, solute, StringComparison.Ordinal)).Mol!.Value, within * mol);
    }

    [Theory]
    [InlineData("hydrochloric acid 37 %")]
    [InlineData("n-BuLi 1.6 M in hexanes")]
    [InlineData("formalin")]
    [InlineData("4 M HCl in dioxane")]
    [InlineData("hexanes")]
    public void Mass_Of_Portions_Is_Volume_Times_Density(string name)
    {
        Assert.True(SolutionCatalog.Default.TryFind(name, out var solution));
        var kg = AmountConversion.Convert(solution.Composition, new Amount.Volume(1e-3)).Portions.Sum(static portion => portion.Mol!.Value * portion.Substance.Known!.Identity.MolarMassKgPerMol!.Value);
        Assert.Equal(solution.DensityKgPerM3!.Value * 1e-3, kg, 1e-9);
    }

    [Theory]
    [InlineData("hydrochloric acid 37 %")]
    [InlineData("formalin")]
    [InlineData("aqueous ammonia")]
    public void Convert_MolOfASolution_CountsTheSolute(string name)
    {
        Assert.True(SolutionCatalog.Default.TryFind(name, out var solution));
        var portion = AmountConversion.Convert(solution.Composition, new Amount.Mol(0.25)).Portions.First(one => string.Equals(one.Substance.Key, solution.Solute!.Key, StringComparison.Ordinal));
        Assert.Equal(0.25, portion.Mol!.Value, 1e-12);
    }

    [Fact]
    public void Mixture_OfNamedSolutions_IsTakenApart()
    {
        Assert.True(SolutionCatalog.Default.TryFind("hydrochloric acid 37 %", out var hydrochloric));
        Assert.True(SolutionCatalog.Default.TryFind("nitric acid 68 %", out var nitric));
        var unused = new PlanSubstance("x", "x", null);
        var composition = Assert.IsType<Composition.Mixture>(NamedComposition.Mixture(
            [new NamedPart(unused, hydrochloric, 0.75, FractionBasis.Volume), new NamedPart(unused, nitric, 0.25, FractionBasis.Volume)]));

        // three volumes of 12.0 mol/L and one of 15.2 mol/L
        var portions = AmountConversion.Convert(composition, new Amount.Volume(1e-3)).Portions;
        Assert.Equal(9.0, portions.First(static portion => portion.Substance.Key is "7647-01-0").Mol!.Value, 0.1);
        Assert.Equal(3.8, portions.First(static portion => portion.Substance.Key is "7697-37-2").Mol!.Value, 0.05);
    }
}
