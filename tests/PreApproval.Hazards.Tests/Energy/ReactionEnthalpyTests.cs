using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Heats of reaction worked out from enthalpies of formation of the CRC Handbook and the NBS tables, kJ per mol of the equation.</summary>
public sealed class ReactionEnthalpyTests
{
    // Dissolved in water at infinite dilution, NBS Tables of Chemical Thermodynamic Properties (1982), kJ/mol.
    private static readonly Dictionary<string, (string Formula, double Kilojoule)> Dissolved = new(StringComparer.Ordinal)
    {
        ["NaOH"] = ("HNaO", -470.1),
        ["KOH"] = ("HKO", -482.4),
        ["LiOH"] = ("HLiO", -508.5),
        ["HCl"] = ("ClH", -167.2),
    };

    // Each equation is written as "coefficient state name", g gas, l liquid, s solid, aq dissolved.
    // Tolerance 1 % or 1 kJ. Acetic anhydride: the handbook has −484.3 for acetic acid, the Active Thermochemical Tables −483.6, and it counts twice.
    public static TheoryData<string, double, double> Equations => new(
        ("-1 l nitrobenzene; -3 g hydrogen; 1 l aniline; 2 l water", -552.5, 5.53),
        ("-1 l hydrogen peroxide; 1 l water; 0.5 g oxygen", -98.0, 1),
        ("-1 l acetic anhydride; -1 l water; 2 l acetic acid", -58.4, 1.6),
        ("-1 l acetyl chloride; -1 l water; 1 l acetic acid; 1 g hydrogen chloride", -17.9, 1),
        ("-1 l acetyl chloride; -1 l water; 1 l acetic acid; 1 aq HCl", -92.8, 1),
        ("-1 s sodium hydride; -1 l water; 1 aq NaOH; 1 g hydrogen", -128.0, 1.28),
        ("-1 s sodium; -1 l water; 1 aq NaOH; 0.5 g hydrogen", -184.3, 1.84),
        ("-1 s potassium; -1 l water; 1 aq KOH; 0.5 g hydrogen", -196.6, 1.97),
        ("-1 s lithium; -1 l water; 1 aq LiOH; 0.5 g hydrogen", -222.7, 2.23),
        ("-1 l thionyl chloride; -1 l water; 1 g sulfur dioxide; 2 g hydrogen chloride", 50.0, 1),
        ("-1 l cyclohexene; -1 g hydrogen; 1 l cyclohexane", -117.9, 1.18),
        ("-1 l benzene; -3 g hydrogen; 1 l cyclohexane", -205.5, 2.06));

    [Theory]
    [MemberData(nameof(Equations))]
    public void FromFormation_WorkedExample_AgreesWithinOnePerCentOrOneKilojoule(string equation, double kilojoule, double tolerance)
    {
        var heat = ReactionEnthalpy.FromFormation(Parse(equation));
        Assert.Null(heat.Because);
        Assert.NotEmpty(heat.Sources);
        Assert.Equal(kilojoule, heat.JPerEquation!.Value / 1000, tolerance);
    }

    // CaO + H2O to Ca(OH)2: ΔfH −634.9, −285.8, −985.2 kJ/mol (CRC Handbook), −64.5 kJ.
    [Fact]
    public void FromFormation_LimeSlaked_IsMinus64()
    {
        var heat = ReactionEnthalpy.FromFormation([Term("CaO", "CaO", -1, -634.9), Term("water", "H2O", -1, -285.8), Term("Ca(OH)2", "CaH2O2", 1, -985.2)]);
        Assert.Equal(-64.5, heat.JPerEquation!.Value / 1000, 0.1);
    }

    // 30 % peroxide: 98.0 kJ/mol · 0.30/34.01 g/mol = 864 J/g; over 3.71 J/(g K) 233 K.
    [Fact]
    public void FromFormation_Peroxide30Percent_HeatAndAdiabaticRise()
    {
        var perGram = -ReactionEnthalpy.FromFormation(Parse("-1 l hydrogen peroxide; 1 l water; 0.5 g oxygen")).JPerEquation!.Value * 0.30 / 34.01;
        Assert.Equal(864, perGram, 9.0);
        Assert.Equal(233, perGram / 3.71, 2.5);
    }

    [Fact]
    public void FromFormation_MissingValue_NamesTheSubstance()
    {
        var heat = ReactionEnthalpy.FromFormation([new ReactionTerm("reagent X", "C6H6", -1, null)]);
        Assert.Null(heat.JPerEquation);
        Assert.Contains("reagent X", heat.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void FromFormation_Unbalanced_NamesTheElements()
    {
        var heat = ReactionEnthalpy.FromFormation(Parse("-1 l benzene; -2 g hydrogen; 1 l cyclohexane"));
        Assert.Null(heat.JPerEquation);
        Assert.Equal("the equation does not balance in H", heat.Because);
    }

    [Fact]
    public void FromFormation_NothingReacts_IsMissing() => Assert.Null(ReactionEnthalpy.FromFormation([]).JPerEquation);

    [Fact]
    public void Heat_of_the_reverse_eq_minus_heat()
    {
        var forward = Parse("-1 l benzene; -3 g hydrogen; 1 l cyclohexane");
        var back = forward.Select(t => t with { Coefficient = -t.Coefficient }).ToList();
        Assert.Equal(-ReactionEnthalpy.FromFormation(forward).JPerEquation!.Value, ReactionEnthalpy.FromFormation(back).JPerEquation!.Value, 1e-6);
    }

    [Theory]
    [InlineData("hydrogen", Phase.Gas, true)]
    [InlineData("bromine", Phase.Liquid, true)]
    [InlineData("bromine", Phase.Gas, false)]
    [InlineData("ozone", Phase.Gas, false)]
    [InlineData("sodium", Phase.Solid, true)]
    [InlineData("red phosphorus", Phase.Solid, false)]
    public void Element_InItsReferenceState_HasNone(string name, Phase phase, bool reference)
    {
        Assert.Equal(reference, FormationEnthalpy.IsElementInReferenceState(ByName(name), phase));
        Assert.Equal(reference, FormationEnthalpy.JPerMol(ByName(name), phase)?.Value == 0);
    }

    // Ethanol: gas −234.8 and liquid −277.6 kJ/mol (CRC Handbook 95th ed.); one from the other by the enthalpy of vaporisation.
    [Fact]
    public void FormationEnthalpy_OtherStateOnFile_IsShiftedByVaporisationAndEstimated()
    {
        var ethanol = ByName("ethanol") with { GasEnthalpyOfFormationJPerMol = null };
        var gas = FormationEnthalpy.JPerMol(ethanol, Phase.Gas)!;
        Assert.Equal(Quality.Estimated, gas.Quality);
        Assert.Equal(-234.8, gas.Value / 1000, 1.5);
        Assert.Null(FormationEnthalpy.JPerMol(ethanol, Phase.Solid));
    }

    private static List<ReactionTerm> Parse(string equation) => [.. equation.Split("; ").Select(static part =>
    {
        var words = part.Split(' ', 3);
        var coefficient = double.Parse(words[0], System.Globalization.CultureInfo.InvariantCulture);
        return words[1] switch
        {
            "g" => ReactionTerm.Of(ByName(words[2]), coefficient, Phase.Gas),
            "l" => ReactionTerm.Of(ByName(words[2]), coefficient, Phase.Liquid),
            "s" => ReactionTerm.Of(ByName(words[2]), coefficient, Phase.Solid),
            _ => Term(words[2] + " in water", Dissolved[words[2]].Formula, coefficient, Dissolved[words[2]].Kilojoule),
        };
    })];

    private static ReactionTerm Term(string name, string formula, double coefficient, double kilojoule) =>
        new(name, formula, coefficient, new Sourced<double>(kilojoule * 1000, Quality.Measured, ["nbs1982"]));

    private static Substance ByName(string name) => Catalog.Default.TryFindByName(name, out var substance) ? substance : throw new ArgumentException(name, nameof(name));
}
