using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>
/// Invented procedures of the kinds that fill a week in a synthesis laboratory and its teaching courses. Nothing in them is
/// unusual; the amounts are made up.
/// </summary>
internal static class EverydayPlans
{
    private static readonly DateOnly Today = new(2031, 3, 3);

    public static Dictionary<string, Plan> All { get; } = new(StringComparer.Ordinal)
    {
        ["amide from an acid and a carbodiimide"] = Plan(
            [Of("acid", "phenylacetic acid", Mmol(4)), Of("amine", "benzylamine", Mmol(4.4)), Of("edc", "EDC", Mmol(5)), Of("base", "triethylamine", Mmol(8)), Of("dcm", "dichloromethane", ML(25), Role.Solvent), Acid(), Bicarbonate()],
            [Flask()],
            S("1", StepAction.Charge, 0, "acid", "amine", "base", "dcm"), S("2", StepAction.Add, 0, "edc"), S("3", StepAction.Stir, 20), S("4", StepAction.Wash, null, "hcl"), S("5", StepAction.Wash, null, "nahco3"), S("6", StepAction.Concentrate, 35)),
        ["amide with HATU"] = Plan(
            [Of("acid", "benzoic acid", Mmol(3)), Of("amine", "pyrrolidine", Mmol(3.3)), Of("hatu", "HATU", Mmol(3.5)), Of("base", "N,N-diisopropylethylamine", Mmol(9)), Of("dmf", "N,N-dimethylformamide", ML(10), Role.Solvent), Water(60)],
            [Flask()],
            S("1", StepAction.Charge, 0, "acid", "base", "dmf"), S("2", StepAction.Add, 0, "hatu"), S("3", StepAction.Add, 0, "amine"), S("4", StepAction.Stir, 20), S("5", StepAction.Quench, null, "water")),
        ["Boc protection"] = Plan(
            [Of("amine", "benzylamine", Mmol(8)), Of("boc2o", "Boc2O", Mmol(9)), Of("base", "triethylamine", Mmol(10)), Of("dcm", "dichloromethane", ML(30), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "amine", "base", "dcm"), S("2", StepAction.Add, null, "boc2o") with { OverS = 600 }, S("3", StepAction.Stir, 20)),
        ["Boc removal"] = Plan(
            [New("boc", "N-Boc-azepane", "CC(C)(C)OC(=O)N1CCCCCC1", 4), Of("tfa", "trifluoroacetic acid", ML(4)), Of("dcm", "dichloromethane", ML(16), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 0, "boc", "dcm"), S("2", StepAction.Add, 0, "tfa") with { OverS = 600 }, S("3", StepAction.Stir, 20), S("4", StepAction.Concentrate, 35)),
        ["Williamson ether"] = Plan(
            [Of("hydride", "sodium hydride", Mmol(5)), Of("alcohol", "benzyl alcohol", Mmol(4)), Of("iodide", "iodomethane", Mmol(5)), Thf(20), Ammonium()],
            [Flask()],
            S("1", StepAction.Charge, 0, "hydride", "thf") with { Headspace = Under("nitrogen") }, S("2", StepAction.Add, 0, "alcohol") with { OverS = 900 }, S("3", StepAction.Add, 0, "iodide"), S("4", StepAction.Stir, 20), S("5", StepAction.Quench, 0, "nh4cl") with { OverS = 600 }) with
        { Reactions = [Reaction("2", ["hydride", "alcohol"], ("hydrogen", Phase.Gas))], FireResponse = Agents(Agent.DrySand) },
        ["Swern oxidation"] = Plan(
            [Of("oxalyl", "oxalyl chloride", Mmol(6)), Of("dmso", "dimethyl sulfoxide", Mmol(13)), Of("alcohol", "1-octanol", Mmol(5)), Of("base", "triethylamine", Mmol(25)), Of("dcm", "dichloromethane", ML(40), Role.Solvent), Water(40)],
            [Flask()],
            S("1", StepAction.Charge, -78, "oxalyl", "dcm") with { Headspace = Under("nitrogen"), HeatSource = HeatSource.CryogenicBath }, S("2", StepAction.Add, null, "dmso") with { OverS = 900 }, S("3", StepAction.Add, null, "alcohol") with { OverS = 900 },
            S("4", StepAction.Add, null, "base") with { OverS = 600 }, S("5", StepAction.Stir, 0), S("6", StepAction.Quench, null, "water")),
        ["periodinane oxidation"] = Plan(
            [Of("alcohol", "benzyl alcohol", Mmol(4)), Of("dmp", "DMP", Mmol(5)), Of("dcm", "dichloromethane", ML(25), Role.Solvent), WeightPercent("thio", "sodium thiosulfate", "water", 10, ML(25), Role.Quench), Bicarbonate()],
            [Flask()],
            S("1", StepAction.Charge, 0, "alcohol", "dcm"), S("2", StepAction.Add, 0, "dmp"), S("3", StepAction.Stir, 20), S("4", StepAction.Quench, null, "thio", "nahco3") with { OverS = 600 }),
        ["epoxidation with a peracid"] = Plan(
            [Of("alkene", "cyclohexene", Mmol(8)) with { OpenedOn = Today.AddMonths(-1) }, Of("peracid", "mCPBA", Mmol(9)), Of("dcm", "dichloromethane", ML(40), Role.Solvent), WeightPercent("thio", "sodium thiosulfate", "water", 10, ML(30), Role.Quench)],
            [Flask()],
            S("1", StepAction.Charge, 0, "alkene", "dcm"), S("2", StepAction.Add, 0, "peracid") with { OverS = 900 }, S("3", StepAction.Stir, 20), S("4", StepAction.Quench, null, "thio") with { OverS = 600 }, S("5", StepAction.Concentrate, 35)),
        ["Wittig olefination"] = Plan(
            [Of("salt", "methyltriphenylphosphonium bromide", Mmol(8)), Molar("buli", "n-butyllithium", "n-hexane", 2.5, ML(3.2)), Of("aldehyde", "benzaldehyde", Mmol(7)), Thf(40), Ammonium()],
            [Flask()],
            S("1", StepAction.Charge, 0, "salt", "thf") with { Headspace = Under("nitrogen"), HeatSource = HeatSource.CryogenicBath }, S("2", StepAction.Add, null, "buli") with { OverS = 600 }, S("3", StepAction.Add, null, "aldehyde") with { OverS = 600 }, S("4", StepAction.Quench, null, "nh4cl") with { OverS = 600 }) with
        { Reactions = [Reaction("2", ["buli", "salt"])], FireResponse = Agents(Agent.DrySand) },
        ["ester reduction with a hydride"] = Plan(
            [Of("lah", "lithium aluminium hydride", G(0.4)), Of("ester", "ethyl benzoate", Mmol(4)), Thf(40), Of("w1", "water", ML(0.4), Role.Quench), WeightPercent("naoh", "sodium hydroxide", "water", 15, ML(0.4), Role.Quench), Of("w2", "water", ML(1.2), Role.Quench)],
            [Flask()],
            S("1", StepAction.Charge, 0, "lah", "thf") with { Headspace = Under("nitrogen") }, S("2", StepAction.Add, 0, "ester") with { OverS = 1200 }, S("3", StepAction.Stir, 20), S("4", StepAction.Quench, 0, "w1") with { OverS = 1200 },
            S("5", StepAction.Quench, 0, "naoh") with { OverS = 600 }, S("6", StepAction.Quench, 0, "w2") with { OverS = 600 }, S("7", StepAction.Filter, null)) with
        { FireResponse = Agents(Agent.DrySand, Agent.ClassDPowder) },
        ["acid chloride with thionyl chloride"] = Plan(
            [Of("acid", "benzoic acid", Mmol(8)), Of("socl2", "thionyl chloride", ML(3)), Of("dcm", "dichloromethane", ML(20), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "acid", "dcm"), S("2", StepAction.Add, null, "socl2") with { OverS = 900 }, S("3", StepAction.Reflux, 40) with { HeatSource = HeatSource.WaterBath }, S("4", StepAction.Concentrate, 40)),
        ["Fischer esterification"] = Plan(
            [Of("acid", "acetic acid", ML(8)), Of("alcohol", "1-butanol", ML(10)), Of("catalyst", "sulfuric acid", ML(0.4), Role.Catalyst), Bicarbonate()],
            [Flask()],
            S("1", StepAction.Charge, 20, "acid", "alcohol", "catalyst"), S("2", StepAction.Reflux, 115) with { HeatSource = HeatSource.Mantle }, S("3", StepAction.Cool, 20), S("4", StepAction.Wash, null, "nahco3") with { OverS = 600 }),
        ["saponification"] = Plan(
            [Of("ester", "ethyl benzoate", Mmol(8)), Of("lioh", "lithium hydroxide", Mmol(16)), Thf(16), Water(10), Acid()],
            [Flask()],
            S("1", StepAction.Charge, 20, "ester", "thf", "water", "lioh"), S("2", StepAction.Stir, 20), S("3", StepAction.Quench, null, "hcl") with { OverS = 600 }),
        ["aldol condensation"] = Plan(
            [Of("ketone", "acetone", Mmol(8)), Of("aldehyde", "benzaldehyde", Mmol(17)), WeightPercent("naoh", "sodium hydroxide", "water", 10, ML(15)), Of("ethanol", "ethanol", ML(20), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "ketone", "aldehyde", "ethanol"), S("2", StepAction.Add, null, "naoh") with { OverS = 600 }, S("3", StepAction.Stir, 20), S("4", StepAction.Filter, null)),
        ["reductive amination"] = Plan(
            [Of("aldehyde", "benzaldehyde", Mmol(4)), Of("amine", "morpholine", Mmol(4)), Of("hydride", "sodium triacetoxyborohydride", Mmol(6)), Of("dce", "1,2-dichloroethane", ML(16), Role.Solvent), Bicarbonate()],
            [Flask()],
            S("1", StepAction.Charge, 20, "aldehyde", "amine", "dce"), S("2", StepAction.Add, null, "hydride"), S("3", StepAction.Stir, 20), S("4", StepAction.Quench, null, "nahco3")),
        ["silyl protection"] = Plan(
            [Of("alcohol", "1-octanol", Mmol(6)), Of("tbscl", "TBSCl", Mmol(7)), Of("imidazole", "imidazole", Mmol(13)), Of("dmf", "N,N-dimethylformamide", ML(10), Role.Solvent), Water(40)],
            [Flask()],
            S("1", StepAction.Charge, 20, "alcohol", "imidazole", "dmf"), S("2", StepAction.Add, null, "tbscl"), S("3", StepAction.Stir, 20), S("4", StepAction.Quench, null, "water")),
    };

    private static Material Acid() => Molar("hcl", "hydrogen chloride", "water", 1, ML(25), Role.Quench);

    private static Material Bicarbonate() => WeightPercent("nahco3", "sodium bicarbonate", "water", 8, ML(25), Role.Quench);

    private static Material Ammonium() => WeightPercent("nh4cl", "ammonium chloride", "water", 20, ML(20), Role.Quench);

    private static Material Water(double mL) => Of("water", "water", ML(mL), Role.Quench);

    internal static Material Thf(double mL) => Of("thf", "tetrahydrofuran", ML(mL), Role.Solvent) with { OpenedOn = Today.AddMonths(-1), PeroxideTest = (Today, 0) };

    internal static Material New(string id, string name, string smiles, double mmol) =>
        new() { Id = id, Composition = new Composition.Pure(new PlanSubstance(name, name, null, smiles)), Role = Role.Reagent, Amount = Mmol(mmol) };

    internal static Step S(string id, StepAction action, double? celsius, params string[] materials) => Step(id, action, "flask", celsius, materials);

    internal static Plan Plan(Material[] materials, Vessel[] vessels, params Step[] steps) => new()
    {
        Materials = materials,
        Vessels = vessels,
        Steps = steps,
        Place = new Place("hood", PlaceKind.Hood, null, null),
        FireResponse = Agents(Agent.CarbonDioxide, Agent.DryPowder, Agent.DrySand),
        PlannedOn = Today,
    };
}
