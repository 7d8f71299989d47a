using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>
/// Every row of the table fires on a pair that textbooks and handbooks warn of, and stays silent on a near neighbour of it.
/// Pairs chosen by hand from general inorganic and organic chemistry; severities after Bretherick's Handbook, from memory.
/// </summary>
public sealed class EncounterTableTests
{
    /// <summary>Row, pair that must fire, neighbour that must not; AIR leaves the flask under air; @ gives °C.</summary>
    public static TheoryData<string, string, string> Cases => new()
    {
        { "alkali-metal-with-water", "sodium + water", "sodium + toluene" },
        { "alkali-metal-with-alcohol", "sodium + 2-propanol", "sodium + tetrahydrofuran" },
        { "alkali-metal-with-chlorinated-solvent", "sodium + dichloromethane", "sodium + chlorobenzene" },
        { "alkali-metal-with-acid", "potassium + hydrogen chloride", "potassium + sodium chloride" },
        { "alkali-metal-with-carbon-dioxide", "sodium + carbon dioxide", "sodium + nitrogen" },
        { "alkali-metal-with-carbon-disulfide", "sodium + carbon disulfide", "sodium + dimethyl sulfide" },
        { "alkali-metal-with-halogen", "sodium + bromine", "sodium + bromobenzene" },
        { "alkali-metal-with-nitro-compound", "lithium + nitrobenzene", "lithium + benzene" },
        { "metal-powder-with-chlorinated-solvent", "magnesium + carbon tetrachloride", "magnesium + diethyl ether" },
        { "metal-powder-with-chlorate-or-perchlorate", "aluminium + potassium chlorate", "aluminium + sodium chloride" },
        { "metal-powder-with-strong-nitric-acid", "zinc + nitric acid", "zinc + acetic acid" },
        { "metal-powder-with-oxidisable-solid", "zinc + sulfur", "iron + sulfur" },
        { "catalyst-with-alcohol-in-air", "palladium + methanol + AIR", "palladium + methanol" },
        { "azide-with-heavy-metal", "sodium azide + copper(II) sulfate", "sodium azide + zinc" },
        { "ammonia-with-silver-gold-or-mercury", "ammonia + silver nitrate", "ammonia + sodium nitrate" },
        { "alkyne-with-silver-or-mercury", "phenylacetylene + silver nitrate", "phenylacetylene + palladium" },
        { "saline-hydride-with-water", "sodium hydride + water", "sodium borohydride + water" },
        { "saline-hydride-with-alcohol", "sodium hydride + methanol", "sodium hydride + tetrahydrofuran" },
        { "saline-hydride-with-acid", "sodium hydride + hydrogen chloride", "sodium hydride + sodium chloride" },
        { "saline-hydride-with-sulfoxide", "sodium hydride + dimethyl sulfoxide", "sodium hydride + sulfolane" },
        { "saline-hydride-with-dipolar-amide-warm", "sodium hydride + N,N-dimethylformamide @ 60", "sodium hydride + N,N-dimethylformamide @ 0" },
        { "saline-hydride-with-dipolar-amide", "sodium hydride + N,N-dimethylformamide @ 0", "sodium hydride + tetrahydrofuran @ 0" },
        { "saline-hydride-with-chlorinated-solvent", "sodium hydride + chloroform", "sodium hydride + chlorobenzene" },
        { "aluminium-hydride-with-water", "lithium aluminium hydride + water", "lithium aluminium hydride + tetrahydrofuran" },
        { "aluminium-hydride-with-alcohol", "lithium aluminium hydride + ethanol", "lithium aluminium hydride + diethyl ether" },
        { "aluminium-hydride-with-acid", "diisobutylaluminium hydride + hydrogen chloride", "diisobutylaluminium hydride + toluene" },
        { "aluminium-hydride-with-chlorinated-solvent", "lithium aluminium hydride + dichloromethane", "lithium aluminium hydride + toluene" },
        { "aluminium-hydride-with-carbon-dioxide", "lithium aluminium hydride + carbon dioxide", "lithium aluminium hydride + argon" },
        { "hydride-with-organic-peroxide", "lithium aluminium hydride + tert-butyl hydroperoxide", "lithium aluminium hydride + tert-butyl chloride" },
        { "borohydride-with-acid", "sodium borohydride + hydrogen chloride", "sodium borohydride + sodium hydroxide" },
        { "borohydride-with-strong-acid", "sodium borohydride + sulfuric acid", "sodium borohydride + sodium sulfate" },
        { "borohydride-with-organic-acid", "sodium borohydride + acetic acid", "sodium borohydride + ethyl acetate" },
        { "borohydride-with-alcohol", "sodium borohydride + methanol", "sodium borohydride + tetrahydrofuran" },
        { "borohydride-with-water", "sodium borohydride + water", "sodium borohydride + acetonitrile" },
        { "borohydride-with-dipolar-amide-hot", "sodium borohydride + N,N-dimethylformamide @ 80", "sodium borohydride + N,N-dimethylformamide @ 20" },
        { "cyanoborohydride-with-acid", "sodium cyanoborohydride + hydrogen chloride", "sodium cyanoborohydride + acetic acid" },
        { "organolithium-with-water", "n-butyllithium + water", "n-butyllithium + n-hexane" },
        { "organolithium-with-alcohol", "n-butyllithium + methanol", "n-butyllithium + tetrahydrofuran" },
        { "organolithium-with-acid", "n-butyllithium + hydrogen chloride", "n-butyllithium + diisopropylamine" },
        { "organolithium-in-air", "tert-butyllithium + AIR", "tert-butyllithium + nitrogen" },
        { "organolithium-with-chlorinated-solvent", "n-butyllithium + dichloromethane", "n-butyllithium + chlorobenzene" },
        { "grignard-with-water", "phenylmagnesium bromide + water", "phenylmagnesium bromide + tetrahydrofuran" },
        { "grignard-with-acid", "phenylmagnesium bromide + hydrogen chloride", "phenylmagnesium bromide + benzaldehyde" },
        { "metal-alkyl-with-water", "triethylaluminium + water", "triethylaluminium + n-hexane" },
        { "metal-alkyl-with-alcohol", "diethylzinc + methanol", "diethylzinc + toluene" },
        { "metal-alkyl-in-air", "triethylborane + AIR", "triethylborane + nitrogen" },
        { "metal-alkyl-with-chlorinated-solvent", "trimethylaluminium + carbon tetrachloride", "trimethylaluminium + toluene" },
        { "strong-base-with-haloform", "potassium tert-butoxide + chloroform", "potassium tert-butoxide + dichloromethane" },
        { "hydroxide-with-haloform", "sodium hydroxide + chloroform", "sodium hydroxide + dichloromethane" },
        { "ketone-with-haloform-and-base", "acetone + chloroform + potassium hydroxide", "acetone + chloroform" },
        { "phosphorus-in-air", "white phosphorus + AIR", "red phosphorus + AIR" },
        { "acid-with-cyanide", "hydrogen chloride + potassium cyanide", "hydrogen chloride + acetonitrile" },
        { "organic-acid-with-cyanide", "acetic acid + sodium cyanide", "acetic acid + acetonitrile" },
        { "ammonium-salt-with-cyanide", "ammonium chloride + sodium cyanide", "sodium chloride + sodium cyanide" },
        { "halogen-with-cyanide", "bromine + potassium cyanide", "bromine + acetonitrile" },
        { "hypochlorite-with-cyanide", "sodium hypochlorite + sodium cyanide", "sodium hypochlorite + sodium chloride" },
        { "silyl-cyanide-or-azide-with-alcohol", "azidotrimethylsilane + methanol", "azidotrimethylsilane + toluene" },
        { "silyl-cyanide-or-azide-with-water", "trimethylsilyl cyanide + water", "chlorotrimethylsilane + water" },
        { "acid-with-sulfide", "hydrogen chloride + sodium sulfide", "hydrogen chloride + sodium sulfate" },
        { "organic-acid-with-sulfide", "acetic acid + sodium sulfide", "acetic acid + dimethyl sulfide" },
        { "acid-with-azide", "hydrogen chloride + sodium azide", "hydrogen chloride + benzyl azide" },
        { "organic-acid-with-azide", "acetic acid + sodium azide", "ethyl acetate + sodium azide" },
        { "ammonium-salt-with-azide", "ammonium chloride + sodium azide", "sodium chloride + sodium azide" },
        { "azide-with-chlorinated-solvent", "sodium azide + dichloromethane", "sodium azide + toluene" },
        { "azide-with-carbon-disulfide", "sodium azide + carbon disulfide", "sodium azide + dimethyl sulfoxide" },
        { "acid-with-hypochlorite", "hydrogen chloride + sodium hypochlorite", "sodium chloride + sodium hypochlorite" },
        { "organic-acid-with-hypochlorite", "acetic acid + sodium hypochlorite", "ethyl acetate + sodium hypochlorite" },
        { "ammonia-with-hypochlorite", "ammonia + sodium hypochlorite", "sodium hydroxide + sodium hypochlorite" },
        { "ammonium-salt-with-hypochlorite", "ammonium chloride + sodium hypochlorite", "sodium bicarbonate + sodium hypochlorite" },
        { "amine-with-hypochlorite", "diethylamine + sodium hypochlorite", "triethylamine + sodium hypochlorite" },
        { "alcohol-with-hypochlorite", "tert-butanol + sodium hypochlorite", "toluene + sodium hypochlorite" },
        { "acid-with-chlorate", "sulfuric acid + potassium chlorate", "sodium hydroxide + potassium chlorate" },
        { "carbonate-with-acid", "sodium bicarbonate + hydrogen chloride", "sodium bicarbonate + sodium hydroxide" },
        { "carbonate-with-organic-acid", "potassium carbonate + acetic acid", "potassium carbonate + ethyl acetate" },
        { "sulfuric-acid-with-water", "sulfuric acid + water", "phosphoric acid + water" },
        { "strong-acid-with-permanganate", "sulfuric acid + potassium permanganate", "sulfuric acid + manganese dioxide" },
        { "strong-acid-with-peroxide", "sulfuric acid + hydrogen peroxide", "acetic acid + hydrogen peroxide" },
        { "nitric-acid-with-alcohol", "nitric acid + ethanol", "sodium nitrate + ethanol" },
        { "nitric-acid-with-ketone", "nitric acid + acetone", "nitrobenzene + acetone" },
        { "nitric-acid-with-ether", "nitric acid + diethyl ether", "sodium nitrate + diethyl ether" },
        { "nitric-acid-with-amine", "nitric acid + aniline", "acetic acid + aniline" },
        { "nitric-acid-with-solvent", "nitric acid + ethyl acetate", "acetic acid + ethyl acetate" },
        { "nitric-acid-with-anhydride", "nitric acid + acetic anhydride", "nitric acid + sulfuric acid" },
        { "perchloric-acid-with-organic-solvent", "perchloric acid + ethanol", "perchloric acid + water" },
        { "perchloric-acid-with-anhydride", "perchloric acid + acetic anhydride", "perchloric acid + acetic acid" },
        { "hydrogen-fluoride-with-glass", "hydrogen fluoride", "hydrogen chloride" },
        { "acid-with-fluoride-salt", "hydrogen chloride + potassium fluoride", "acetic acid + potassium fluoride" },
        { "peroxide-with-ketone-and-acid", "hydrogen peroxide + acetone + hydrogen chloride", "hydrogen peroxide + ethyl acetate + hydrogen chloride" },
        { "peroxide-with-ketone", "hydrogen peroxide + acetone", "hydrogen peroxide + acetophenone" },
        { "peroxide-with-anhydride", "hydrogen peroxide + acetic anhydride", "hydrogen peroxide + ethyl acetate" },
        { "peroxide-with-hydrazine", "hydrogen peroxide + hydrazine", "hydrogen peroxide + ammonium chloride" },
        { "peroxide-with-alkene", "hydrogen peroxide + cyclohexene", "hydrogen peroxide + cyclohexane" },
        { "peroxide-with-organic-acid", "hydrogen peroxide + formic acid", "hydrogen peroxide + sodium chloride" },
        { "peroxide-with-ether", "hydrogen peroxide + tetrahydrofuran", "hydrogen peroxide + dichloromethane" },
        { "organic-peroxide-with-amine", "benzoyl peroxide + N,N-dimethylaniline", "benzoyl peroxide + toluene" },
        { "organic-peroxide-with-monomer", "benzoyl peroxide + styrene", "benzoyl peroxide + ethylbenzene" },
        { "halogen-with-ammonia", "iodine + ammonia", "iodine + ammonium chloride" },
        { "hydrogen-with-oxygen", "hydrogen + oxygen", "hydrogen + nitrogen" },
        { "hydrogen-with-chlorine", "hydrogen + chlorine", "hydrogen + hydrogen chloride" },
        { "oxygen-with-ether", "oxygen + tetrahydrofuran", "nitrogen + tetrahydrofuran" },
        { "oxygen-with-hydrocarbon", "oxygen + toluene", "oxygen + water" },
        { "oxidant-with-alcohol", "chromium trioxide + methanol", "manganese dioxide + methanol" },
        { "oxidant-with-dipolar-amide", "chromium trioxide + N,N-dimethylformamide", "manganese dioxide + N,N-dimethylformamide" },
        { "oxidant-with-sulfoxide", "potassium permanganate + dimethyl sulfoxide", "potassium permanganate + water" },
        { "perchlorate-with-sulfoxide", "sodium perchlorate + dimethyl sulfoxide", "sodium perchlorate + acetonitrile" },
        { "chlorate-with-sulfur", "potassium chlorate + sulfur", "sodium chloride + sulfur" },
        { "nitrite-with-cyanide", "sodium nitrite + sodium cyanide", "sodium nitrite + acetonitrile" },
        { "hydrazine-with-oxidant", "hydrazine + potassium permanganate", "diethylamine + potassium permanganate" },
        { "hydrazine-with-nitrite", "hydrazine + sodium nitrite", "hydrazine + sodium nitrate" },
        { "acyl-halide-with-sulfoxide", "oxalyl chloride + dimethyl sulfoxide @ 20", "oxalyl chloride + dimethyl sulfoxide @ -65" },
        { "acyl-halide-with-sulfoxide-cold", "oxalyl chloride + dimethyl sulfoxide @ -65", "oxalyl chloride + dichloromethane @ -65" },
        { "hydrolysable-halide-with-water", "phosphoryl chloride + water", "chlorotrimethylsilane + water" },
        { "hydrolysable-halide-with-alcohol", "thionyl chloride + methanol", "thionyl chloride + toluene" },
        { "oxalyl-chloride-with-water", "oxalyl chloride + water", "acetyl chloride + water" },
        { "oxalyl-chloride-with-dimethylformamide", "oxalyl chloride + N,N-dimethylformamide", "acetyl chloride + N,N-dimethylformamide" },
        { "phosgene-source-with-amine", "triphosgene + triethylamine", "triphosgene + toluene" },
        { "carbide-or-phosphide-with-water", "calcium carbide + water", "potassium carbonate + water" },
        { "carbide-or-phosphide-with-acid", "calcium carbide + hydrogen chloride", "calcium carbide + toluene" },
        { "diazo-with-acid", "ethyl diazoacetate + hydrogen chloride", "ethyl diazoacetate + toluene" },
        { "nitroalkane-with-hydroxide", "nitromethane + sodium hydroxide", "nitrobenzene + sodium hydroxide" },
        { "nitroalkane-with-strong-base", "nitromethane + sodium methoxide", "nitromethane + triethylamine" },
        { "epoxide-with-lewis-acid", "propylene oxide + boron trifluoride diethyl etherate", "tetrahydrofuran + boron trifluoride diethyl etherate" },
        { "monomer-with-strong-acid", "styrene + sulfuric acid", "ethylbenzene + sulfuric acid" },
        { "borohydride-with-catalyst", "sodium borohydride + palladium", "triethylsilane + palladium" },
        { "hydrazine-with-catalyst", "hydrazine + palladium", "hydrazine + sodium chloride" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_PairOfTheRow_FiresIt(string row, string firing, string neighbour)
    {
        _ = neighbour;
        Assert.Contains("incompatibility." + row, Codes(firing), StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_NearNeighbour_DoesNotFireTheRow(string row, string firing, string neighbour)
    {
        _ = firing;
        Assert.DoesNotContain("incompatibility." + row, Codes(neighbour), StringComparer.Ordinal);
    }

    [Fact]
    public void Table_EveryRow_HasACase()
    {
        Assert.Equal(EncounterTable.All.Select(static row => row.Key).Order(StringComparer.Ordinal), Cases.Select(static row => row.Data.Item1).Order(StringComparer.Ordinal));
        Assert.True(EncounterTable.All.Count >= 40);
    }

    [Fact]
    public void Table_EverySourceAndFamily_IsKnown()
    {
        Assert.All(EncounterTable.All, static row => Assert.All(row.Sources, static source => Assert.True(References.IsOwn(source), source)));
        string[] pseudo = [EncounterTable.Air, EncounterTable.Glass];
        Assert.All(EncounterTable.All.SelectMany(static row => new[] { row.A, row.B, row.C }).OfType<string>(), family => Assert.Contains(family, FamilyTable.Default.All.Concat(pseudo), StringComparer.Ordinal));
    }

    private static List<string> Codes(string mixture)
    {
        var parts = mixture.Split(" @ ");
        var celsius = parts.Length > 1 ? double.Parse(parts[1], CultureInfo.InvariantCulture) : 20;
        var names = parts[0].Split(" + ").ToList();
        var air = names.Remove("AIR");
        var plan = new Plan
        {
            Materials = [.. names.Select(static name => Of(name, name, Mmol(10)))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", celsius, [.. names]) with { Headspace = air ? new Headspace.Air() : Under("nitrogen") }],
        };
        return [.. Screener.Screen(plan, Policy.Default).Findings.Select(static finding => finding.Code)];
    }
}
