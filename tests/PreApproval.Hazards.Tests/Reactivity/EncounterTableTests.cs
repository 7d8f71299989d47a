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
        { "saline-hydride-with-sulfoxide", "sodium hydride + dimethyl sulfoxide @ 40", "sodium hydride + sulfolane @ 40" },
        { "saline-hydride-with-sulfoxide-cold", "sodium hydride + dimethyl sulfoxide @ 20", "sodium hydride + sulfolane @ 20" },
        { "saline-hydride-with-dipolar-amide-warm", "sodium hydride + N,N-dimethylformamide @ 30", "sodium hydride + N,N-dimethylformamide @ 20" },
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
        { "alkali-metal-with-strong-acid", "sodium + triflic acid", "sodium + sodium sulfate" },
        { "alkali-metal-with-strong-nitric-acid", "potassium + nitric acid", "potassium + potassium nitrate" },
        { "alkali-metal-with-nitroalkane", "sodium + nitromethane", "sodium + toluene" },
        { "alkali-metal-with-hydrolysable-halide", "potassium + phosphorus trichloride", "potassium + triphenylphosphine" },
        { "alkali-metal-with-chlorate", "sodium + potassium chlorate", "sodium + sodium chloride" },
        { "alkali-metal-with-peroxide", "sodium + hydrogen peroxide", "sodium + dibutyl ether" },
        { "alkali-metal-with-hydrazine", "sodium + hydrazine", "sodium + ammonia" },
        { "metal-with-acid", "zinc + hydrogen chloride", "zinc + sodium chloride" },
        { "metal-with-organic-acid", "zinc + acetic acid", "zinc + ethyl acetate" },
        { "aluminium-or-zinc-with-hydroxide", "aluminium + sodium hydroxide", "magnesium + sodium hydroxide" },
        { "metal-powder-with-perchloric-acid", "magnesium + perchloric acid", "magnesium + acetic acid" },
        { "metal-powder-with-halogen", "aluminium + bromine", "magnesium + iodine" },
        { "metal-powder-with-perchlorate", "aluminium + ammonium perchlorate", "aluminium + ammonium chloride" },
        { "metal-powder-with-nitrate", "magnesium + potassium nitrate", "magnesium + potassium iodide" },
        { "metal-powder-with-permanganate", "magnesium + potassium permanganate", "magnesium + manganese dioxide" },
        { "metal-powder-with-peroxide", "zinc + hydrogen peroxide", "zinc + water" },
        { "metal-powder-in-oxygen", "magnesium + oxygen", "magnesium + argon" },
        { "catalyst-in-oxygen", "palladium + oxygen", "palladium + nitrogen" },
        { "hydrogen-over-catalyst-in-air", "palladium + hydrogen + UNPURGED", "palladium + hydrogen" },
        { "hydrogen-with-unpurged-air", "hydrogen + UNPURGED", "hydrogen + nitrogen" },
        { "silver-perchlorate-with-hydrocarbon", "silver perchlorate + toluene", "silver nitrate + toluene" },
        { "saline-hydride-with-strong-acid", "sodium hydride + triflic acid", "sodium hydride + toluene" },
        { "saline-hydride-with-strong-nitric-acid", "sodium hydride + nitric acid", "sodium hydride + sodium nitrate" },
        { "saline-hydride-with-nitroalkane", "sodium hydride + nitromethane", "sodium hydride + nitrobenzene" },
        { "saline-hydride-with-halogen", "sodium hydride + bromine", "sodium hydride + bromobenzene" },
        { "hydride-with-strong-nitric-acid", "lithium aluminium hydride + nitric acid", "lithium aluminium hydride + diethyl ether" },
        { "borohydride-with-strong-nitric-acid", "sodium borohydride + nitric acid", "sodium borohydride + sodium nitrate" },
        { "aluminium-hydride-with-dipolar-amide", "lithium aluminium hydride + N,N-dimethylformamide", "lithium aluminium hydride + tetrahydrofuran" },
        { "borohydride-with-lewis-acid", "sodium borohydride + aluminium chloride", "sodium borohydride + sodium chloride" },
        { "aluminium-hydride-with-lewis-acid", "lithium aluminium hydride + boron trifluoride diethyl etherate", "lithium aluminium hydride + lithium chloride" },
        { "saline-hydride-with-hypochlorite", "sodium hydride + sodium hypochlorite", "sodium hydride + sodium chloride" },
        { "aluminium-hydride-with-hypochlorite", "lithium aluminium hydride + calcium hypochlorite", "lithium aluminium hydride + calcium hydride" },
        { "borohydride-with-hypochlorite", "sodium borohydride + sodium hypochlorite", "sodium borohydride + sodium hydroxide" },
        { "saline-hydride-with-permanganate", "sodium hydride + potassium permanganate", "sodium hydride + potassium iodide" },
        { "aluminium-hydride-with-permanganate", "lithium aluminium hydride + chromium trioxide", "lithium aluminium hydride + iron" },
        { "borohydride-with-permanganate", "sodium borohydride + potassium permanganate", "sodium borohydride + potassium iodide" },
        { "organolithium-in-oxygen", "n-butyllithium + oxygen", "n-butyllithium + argon" },
        { "organolithium-with-organic-acid", "n-butyllithium + acetic acid", "n-butyllithium + diethyl ether" },
        { "metal-alkyl-with-acid", "triethylaluminium + hydrogen chloride", "triethylaluminium + sodium chloride" },
        { "metal-alkyl-with-organic-acid", "diethylzinc + acetic acid", "diethylzinc + diethyl ether" },
        { "metal-alkyl-with-dipolar-amide", "triethylaluminium + N,N-dimethylformamide", "triethylaluminium + toluene" },
        { "metal-alkyl-with-halogen", "trimethylaluminium + bromine", "trimethylaluminium + bromobenzene" },
        { "metal-alkyl-in-oxygen", "diethylzinc + oxygen", "diethylzinc + argon" },
        { "strong-base-with-strong-acid", "potassium tert-butoxide + sulfuric acid", "potassium tert-butoxide + acetic acid" },
        { "phosphorus-in-oxygen", "white phosphorus + oxygen", "triphenylphosphine + oxygen" },
        { "phosphorus-with-halogen", "white phosphorus + bromine", "triphenylphosphine + bromine" },
        { "phosphorus-with-chlorate", "white phosphorus + potassium chlorate", "white phosphorus + potassium chloride" },
        { "phosphorus-with-peroxide", "white phosphorus + hydrogen peroxide", "triphenylphosphine + hydrogen peroxide" },
        { "phosphorus-with-strong-nitric-acid", "phosphine + nitric acid", "triphenylphosphine + nitric acid" },
        { "white-phosphorus-with-hydroxide", "white phosphorus + sodium hydroxide", "red phosphorus + sodium hydroxide" },
        { "white-phosphorus-in-carbon-disulfide", "white phosphorus + carbon disulfide", "sulfur + carbon disulfide" },
        { "oxidisable-solid-with-perchlorate", "sulfur + sodium perchlorate", "sulfur + sodium chloride" },
        { "oxidisable-solid-with-nitrate", "sulfur + potassium nitrate", "sulfur + potassium chloride" },
        { "oxidisable-solid-with-permanganate", "red phosphorus + potassium permanganate", "red phosphorus + iodine" },
        { "oxidisable-solid-with-peroxide", "red phosphorus + hydrogen peroxide", "red phosphorus + water" },
        { "oxidisable-solid-with-perchloric-acid", "sulfur + perchloric acid", "sulfur + hydrogen chloride" },
        { "hydrazine-with-strong-nitric-acid", "hydrazine + nitric acid", "hydrazine + acetic acid" },
        { "hydrazine-with-perchlorate", "hydrazine + sodium perchlorate", "hydrazine + sodium chloride" },
        { "hydrazine-with-nitrate", "hydrazine + lead(II) nitrate", "hydrazine + sodium sulfate" },
        { "hydrazine-with-oxygen", "hydrazine + oxygen", "hydrazine + nitrogen" },
        { "hydrazine-with-nitroalkane", "hydrazine + nitromethane", "triethylamine + nitromethane" },
        { "strong-acid-with-perchlorate", "sulfuric acid + sodium perchlorate", "acetic acid + sodium perchlorate" },
        { "strong-acid-with-nitroarene-hot", "sulfuric acid + nitrobenzene @ 140", "sulfuric acid + nitrobenzene @ 60" },
        { "strong-acid-with-epoxide", "sulfuric acid + propylene oxide", "sulfuric acid + tetrahydrofuran" },
        { "strong-acid-with-organic-peroxide", "sulfuric acid + tert-butyl hydroperoxide", "acetic acid + tert-butyl hydroperoxide" },
        { "strong-acid-with-organic-azide", "sulfuric acid + benzyl azide", "acetic acid + benzyl azide" },
        { "strong-acid-with-nitrite", "sulfuric acid + sodium nitrite", "sulfuric acid + sodium sulfate" },
        { "strong-acid-with-formic-acid", "formic acid + sulfuric acid", "acetic acid + sulfuric acid" },
        { "nitric-acid-with-nitrite", "nitric acid + sodium nitrite", "nitric acid + sodium chloride" },
        { "nitric-acid-with-hydrochloric-acid", "nitric acid + hydrogen chloride", "nitric acid + sodium chloride" },
        { "nitric-acid-with-hydrocarbon", "nitric acid + toluene", "acetic acid + toluene" },
        { "nitric-acid-with-thiol", "nitric acid + thiophenol", "acetic acid + thiophenol" },
        { "nitric-acid-with-sulfoxide", "nitric acid + dimethyl sulfoxide", "nitric acid + sulfolane" },
        { "nitric-acid-with-nitroarene", "nitric acid + nitrobenzene", "nitric acid + chlorobenzene" },
        { "nitric-acid-with-nitroalkane", "nitric acid + nitromethane", "acetic acid + nitromethane" },
        { "nitric-acid-with-nitrile", "nitric acid + acetonitrile", "acetic acid + acetonitrile" },
        { "nitric-acid-with-chlorinated-solvent", "nitric acid + dichloromethane", "nitric acid + chlorobenzene" },
        { "nitric-acid-with-alkene", "nitric acid + cyclohexene", "nitric acid + sodium sulfate" },
        { "nitric-acid-with-monomer", "nitric acid + acrylonitrile", "acetic acid + acrylonitrile" },
        { "nitric-acid-with-epoxide", "nitric acid + propylene oxide", "acetic acid + propylene oxide" },
        { "nitric-acid-with-organic-peroxide", "nitric acid + benzoyl peroxide", "acetic acid + benzoyl peroxide" },
        { "perchloric-acid-with-ketone", "perchloric acid + acetone", "perchloric acid + water" },
        { "perchloric-acid-with-ether", "perchloric acid + diethyl ether", "hydrogen chloride + diethyl ether" },
        { "perchloric-acid-with-hydrocarbon", "perchloric acid + toluene", "phosphoric acid + toluene" },
        { "perchloric-acid-with-ester", "perchloric acid + ethyl acetate", "phosphoric acid + ethyl acetate" },
        { "perchloric-acid-with-strong-acid", "perchloric acid + sulfuric acid", "perchloric acid + phosphoric acid" },
        { "perchloric-acid-with-sulfoxide", "perchloric acid + dimethyl sulfoxide", "perchloric acid + sodium perchlorate" },
        { "perchloric-acid-with-amine", "perchloric acid + pyridine", "phosphoric acid + pyridine" },
        { "perchloric-acid-with-aldehyde", "perchloric acid + benzaldehyde", "phosphoric acid + benzaldehyde" },
        { "perchloric-acid-with-thiol", "perchloric acid + thiophenol", "phosphoric acid + thiophenol" },
        { "perchloric-acid-with-monomer", "perchloric acid + styrene", "perchloric acid + water" },
        { "hydroxide-with-trichloroethylene", "sodium hydroxide + trichloroethylene", "sodium hydroxide + dichloromethane" },
        { "ammonium-salt-with-chlorate", "ammonium chloride + potassium chlorate", "sodium chloride + potassium chlorate" },
        { "ammonia-with-chlorate", "ammonia + potassium chlorate", "sodium hydroxide + potassium chlorate" },
        { "hypochlorite-with-azide", "sodium hypochlorite + sodium azide", "sodium chloride + sodium azide" },
        { "hypochlorite-with-alkyne", "sodium hypochlorite + phenylacetylene", "sodium chloride + phenylacetylene" },
        { "hypochlorite-with-nitroalkane", "calcium hypochlorite + nitromethane", "calcium hypochlorite + sodium chloride" },
        { "halogen-with-azide", "bromine + sodium azide", "bromine + sodium chloride" },
        { "halogen-with-alkyne", "chlorine + acetylene", "iodine + acetylene" },
        { "chlorate-with-sulfide", "potassium chlorate + sodium sulfide", "potassium chlorate + sodium sulfate" },
        { "chlorate-with-cyanide", "potassium chlorate + sodium cyanide", "potassium chlorate + acetonitrile" },
        { "chlorate-with-thiol", "potassium chlorate + thiophenol", "potassium chlorate + water" },
        { "chlorate-with-hydrocarbon", "potassium chlorate + toluene", "potassium chloride + toluene" },
        { "perchlorate-with-alcohol", "sodium perchlorate + ethanol", "sodium perchlorate + acetonitrile" },
        { "perchlorate-with-hydrocarbon", "sodium perchlorate + toluene", "sodium perchlorate + water" },
        { "perchlorate-with-ammonia", "silver perchlorate + ammonia", "silver nitrate + sodium perchlorate" },
        { "perchlorate-with-amine", "sodium perchlorate + ethylenediamine", "sodium chloride + ethylenediamine" },
        { "nitrate-with-thiosulfate-hot", "sodium nitrate + sodium thiosulfate @ 200", "sodium nitrate + sodium thiosulfate @ 20" },
        { "nitrate-with-cyanide-hot", "sodium nitrate + sodium cyanide @ 200", "sodium nitrate + sodium cyanide @ 20" },
        { "strong-peroxide-with-alcohol", "hydrogen peroxide + ethanol", "hydrogen peroxide + sodium sulfate" },
        { "strong-peroxide-with-hydrocarbon", "hydrogen peroxide + toluene", "hydrogen peroxide + dichloromethane" },
        { "peroxide-with-aldehyde", "hydrogen peroxide + acetaldehyde", "hydrogen peroxide + acetic acid" },
        { "peroxide-with-carbon-disulfide", "hydrogen peroxide + carbon disulfide", "hydrogen peroxide + chlorobenzene" },
        { "peroxide-with-catalyst", "hydrogen peroxide + manganese dioxide", "hydrogen peroxide + sodium sulfate" },
        { "organic-peroxide-with-lewis-acid", "benzoyl peroxide + aluminium chloride", "benzoyl peroxide + sodium chloride" },
        { "oxygen-with-alkene", "oxygen + cyclohexene", "nitrogen + cyclohexene" },
        { "oxygen-with-alkyne", "oxygen + acetylene", "nitrogen + acetylene" },
        { "oxygen-with-carbon-disulfide", "oxygen + carbon disulfide", "nitrogen + carbon disulfide" },
        { "azide-with-hydrolysable-halide", "sodium azide + thionyl chloride", "sodium azide + toluene" },
        { "diazonium-with-thiol", "benzenediazonium tetrafluoroborate + thiophenol", "benzenediazonium tetrafluoroborate + phenol" },
        { "diazonium-with-sulfide", "benzenediazonium tetrafluoroborate + sodium sulfide", "benzenediazonium tetrafluoroborate + sodium sulfate" },
        { "diazonium-with-perchlorate", "benzenediazonium tetrafluoroborate + sodium perchlorate", "benzenediazonium tetrafluoroborate + sodium chloride" },
        { "nitroarene-with-lewis-acid-hot", "nitrobenzene + aluminium chloride @ 130", "nitrobenzene + aluminium chloride @ 20" },
        { "hydrolysable-halide-with-cyanide", "phosphoryl chloride + sodium cyanide", "phosphoryl chloride + acetonitrile" },
        { "anhydride-with-cyanide", "acetic anhydride + sodium cyanide", "acetic anhydride + acetonitrile" },
        { "formaldehyde-with-hydrogen-chloride", "formaldehyde + hydrogen chloride", "formaldehyde + sodium chloride" },
        { "thionyl-chloride-with-acid", "thionyl chloride + benzoic acid", "thionyl chloride + toluene" },
        { "oxalyl-chloride-with-acid", "oxalyl chloride + benzoic acid", "oxalyl chloride + toluene" },
        { "oxalyl-chloride-with-alcohol", "oxalyl chloride + ethanol", "oxalyl chloride + dichloromethane" },
        { "azo-initiator-heated", "azobisisobutyronitrile @ 70", "azobisisobutyronitrile @ 20" },
        { "azo-initiator-concentrated", "azobisisobutyronitrile + CONCENTRATE", "azobisisobutyronitrile" },
        { "explosive-heated", "picric acid @ 80", "picric acid @ 20" },
        { "explosive-dried", "picric acid + DRY", "picric acid" },
        { "explosive-ground", "picric acid + GRIND", "nitrobenzene + GRIND" },
        { "explosive-concentrated", "picric acid + CONCENTRATE", "nitrobenzene + CONCENTRATE" },
        { "explosive-with-metal", "picric acid + lead(II) acetate", "picric acid + sodium chloride" },
        { "organic-peroxide-heated", "2-butanone peroxide @ 80", "2-butanone peroxide @ 20" },
        { "organic-peroxide-dried", "benzoyl peroxide + DRY", "benzoic acid + DRY" },
        { "organic-peroxide-ground", "benzoyl peroxide + GRIND", "benzoic acid + GRIND" },
        { "organic-peroxide-concentrated", "tert-butyl hydroperoxide + CONCENTRATE", "tert-butanol + CONCENTRATE" },
        { "diazomethane-concentrated", "diazomethane + CONCENTRATE", "ethyl diazoacetate" },
        { "diazomethane-in-ground-joints", "diazomethane + JOINT", "ethyl diazoacetate + JOINT" },
        { "diazomethane-heated", "diazomethane @ 60", "diazomethane @ 0" },
        { "diazo-concentrated", "ethyl diazoacetate + CONCENTRATE", "ethyl acetate + CONCENTRATE" },
        { "diazo-heated", "ethyl diazoacetate @ 80", "ethyl diazoacetate @ 20" },
        { "diazonium-heated", "benzenediazonium tetrafluoroborate @ 20", "benzenediazonium tetrafluoroborate @ 0" },
        { "diazonium-dried", "benzenediazonium tetrafluoroborate + DRY", "sodium tetrafluoroborate + DRY" },
        { "diazonium-ground", "benzenediazonium tetrafluoroborate + GRIND", "sodium chloride + GRIND" },
        { "organic-azide-heated", "benzyl azide @ 80", "benzyl azide @ 20" },
        { "organic-azide-concentrated", "phenyl azide + CONCENTRATE", "phenyl azide" },
        { "organic-azide-ground", "tosyl azide + GRIND", "p-toluenesulfonyl chloride + GRIND" },
        { "azide-salt-heated", "sodium azide @ 250", "sodium azide @ 100" },
        { "azide-salt-ground", "sodium azide + GRIND", "sodium chloride + GRIND" },
        { "perchlorate-heated", "sodium perchlorate @ 150", "sodium perchlorate @ 60" },
        { "perchlorate-concentrated", "sodium perchlorate + CONCENTRATE", "sodium chloride + CONCENTRATE" },
        { "perchlorate-ground", "sodium perchlorate + GRIND", "sodium chloride + GRIND" },
        { "perchloric-acid-concentrated", "perchloric acid + CONCENTRATE", "phosphoric acid + CONCENTRATE" },
        { "chlorate-ground", "potassium chlorate + GRIND", "potassium chloride + GRIND" },
        { "hydroxylamine-concentrated", "hydroxylamine + CONCENTRATE", "hydrazine" },
        { "hydroxylamine-heated", "hydroxylamine @ 80", "hydroxylamine @ 20" },
        { "strong-peroxide-concentrated", "hydrogen peroxide + CONCENTRATE", "water + CONCENTRATE" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_PairOfTheRow_FiresIt(string row, string firing, string neighbour)
    {
        _ = neighbour;
        Assert.Contains(row, Codes(firing), StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_NearNeighbour_DoesNotFireTheRow(string row, string firing, string neighbour)
    {
        _ = firing;
        Assert.DoesNotContain(row, Codes(neighbour), StringComparer.Ordinal);
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
        Assert.All(EncounterTable.All.SelectMany(static row => new[] { row.A, row.B, row.C }).OfType<string>(), family => Assert.Contains(family, FamilyTable.Default.All.Concat(EncounterTable.Pseudo), StringComparer.Ordinal));
    }

    /// <summary>Words in capitals: what is done, or a vessel still full of air when hydrogen comes in.</summary>
    private static List<string> Codes(string mixture)
    {
        var parts = mixture.Split(" @ ");
        var celsius = parts.Length > 1 ? double.Parse(parts[1], CultureInfo.InvariantCulture) : 20;
        var names = parts[0].Split(" + ").ToList();
        var air = names.Remove("AIR");
        var unpurged = names.Remove("UNPURGED");
        var joint = names.Remove("JOINT");
        StepAction? treatment = names.Remove("GRIND") ? StepAction.Grind : names.Remove("DRY") ? StepAction.Dry : names.Remove("CONCENTRATE") ? StepAction.Concentrate : null;
        if (unpurged)
        {
            names.Remove("hydrogen");
        }

        var charge = Step("1", StepAction.Charge, "flask", celsius, [.. names]) with { Headspace = air || unpurged ? new Headspace.Air() : Under("nitrogen") };
        Step[] later = unpurged ? [Step("2", StepAction.Pressurise, "flask", celsius) with { Gas = Substance("hydrogen"), PressurePaAbs = 5e5 }]
            : treatment is { } action ? [Step("2", action, "flask", celsius)]
            : [];
        var plan = new Plan
        {
            Materials = [.. names.Select(static name => Of(name, name, Mmol(10)))],
            Vessels = [joint ? Flask() with { Kind = "flask with ground joints" } : Flask()],
            Steps = [charge, .. later],
        };
        return [.. Screener.Screen(plan, Policy.Default).Findings.Select(static finding => finding.Code[(finding.Code.IndexOf('.', StringComparison.Ordinal) + 1)..])];
    }
}
