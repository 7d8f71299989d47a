using PreApproval.Hazards.Plans;
using static PreApproval.Hazards.Tests.Plans.PlanOf;
using static PreApproval.Hazards.Tests.Screening.EverydayPlans;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>Work-up, purification, catalysis and new compounds: invented, like <see cref="EverydayPlans"/>.</summary>
internal static class EverydayPlansMore
{
    private const string Aryl = "CC(C)(C)OC(=O)Nc1ccc(Br)cc1";

    public static Dictionary<string, Plan> All { get; } = new(StringComparer.Ordinal)
    {
        ["Suzuki coupling of a bromotoluene"] = Plan(
            [Of("bromide", "4-bromotoluene", Mmol(4)), Of("boronic", "phenylboronic acid", Mmol(5)), Of("base", "potassium carbonate", Mmol(9)), Of("pd", "Pd(PPh3)4", Mmol(0.1), Role.Catalyst), Of("toluene", "toluene", ML(16), Role.Solvent), Of("water", "water", ML(5), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "bromide", "boronic", "base", "pd", "toluene", "water") with { Headspace = Under("nitrogen") }, S("2", StepAction.Reflux, 85) with { HeatSource = HeatSource.OilBath, SurfaceTemperatureK = 373.15 }, S("3", StepAction.Cool, 20)),
        ["Suzuki coupling of a new bromide"] = Plan(
            [New("bromide", "N-Boc-4-bromoaniline", Aryl, 2), Of("boronic", "phenylboronic acid", Mmol(2.5)), Of("base", "potassium phosphate", Mmol(5)), Of("pd", "Pd(dppf)Cl2", Mmol(0.05), Role.Catalyst), Of("toluene", "toluene", ML(10), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "bromide", "boronic", "base", "pd", "toluene") with { Headspace = Under("nitrogen") }, S("2", StepAction.Heat, 90) with { HeatSource = HeatSource.OilBath, SurfaceTemperatureK = 378.15 }, S("3", StepAction.Cool, 20)),
        ["Buchwald amination"] = Plan(
            [Of("bromide", "bromobenzene", Mmol(3)), Of("amine", "morpholine", Mmol(3.6)), Of("base", "sodium tert-butoxide", Mmol(4)), Of("pd", "Pd2(dba)3", Mmol(0.03), Role.Catalyst), Of("ligand", "XPhos", Mmol(0.1), Role.Catalyst), Of("toluene", "toluene", ML(10), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "bromide", "amine", "base", "pd", "ligand", "toluene") with { Headspace = Under("argon") }, S("2", StepAction.Heat, 90) with { HeatSource = HeatSource.OilBath, SurfaceTemperatureK = 378.15 }, S("3", StepAction.Cool, 20)),
        ["hydrogenation under a balloon"] = Plan(
            [New("cbz", "N-Cbz-benzylamine", "O=C(OCc1ccccc1)NCc1ccccc1", 3), Of("catalyst", "Pd/C", G(0.08), Role.Catalyst), Of("methanol", "methanol", ML(20), Role.Solvent)],
            [Flask(), Flask("second")],
            S("1", StepAction.Charge, 20, "cbz") with { Headspace = Under("nitrogen") }, S("2", StepAction.Add, null, "catalyst"), S("3", StepAction.Add, null, "methanol"), S("4", StepAction.Evacuate, null),
            S("5", StepAction.Seal, null) with { Closure = Closure.Balloon, Headspace = Under("hydrogen") }, S("6", StepAction.Stir, 20), S("7", StepAction.Purge, null) with { Headspace = Under("nitrogen") }, S("8", StepAction.Open, null) with { Headspace = Under("nitrogen") },
            S("9", StepAction.Filter, null) with { ToVessel = "second" }, Step("10", StepAction.Concentrate, "second", 40)),
        ["chromatography of a crude product"] = Plan(
            [new Material { Id = "crude", Composition = new Composition.Pure(Substance("crude product")), Role = Role.Product, Amount = Mmol(3) }, Of("silica", "silica gel", G(60), Role.Other), Of("hexane", "n-hexane", ML(400), Role.Solvent), Of("ea", "ethyl acetate", ML(100), Role.Solvent)],
            [Flask("flask", 1000)],
            S("1", StepAction.Charge, 20, "silica", "crude"), S("2", StepAction.Chromatograph, null, "hexane", "ea"), S("3", StepAction.Concentrate, 40) with { HeatSource = HeatSource.WaterBath }),
        ["recrystallisation of acetanilide"] = Plan(
            [Of("solid", "acetanilide", G(4)), Of("water", "water", ML(80), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "solid", "water"), S("2", StepAction.Heat, 95) with { HeatSource = HeatSource.Hotplate, SurfaceTemperatureK = 423.15 }, S("3", StepAction.Cool, 0), S("4", StepAction.Filter, null)),
        ["recrystallisation from ethyl acetate and hexane"] = Plan(
            [Of("solid", "benzoic acid", G(4)), Of("ea", "ethyl acetate", ML(40), Role.Solvent), Of("hexane", "n-hexane", ML(50), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "solid", "ea"), S("2", StepAction.Heat, 70) with { HeatSource = HeatSource.WaterBath }, S("3", StepAction.Cool, 20), S("4", StepAction.Add, null, "hexane"), S("5", StepAction.Filter, null)),
        ["acid and base extraction"] = Plan(
            [New("ester", "ethyl 4-methylbenzoate", "CCOC(=O)c1ccc(C)cc1", 10), Of("ea", "ethyl acetate", ML(60), Role.Solvent), Molar("hcl", "hydrogen chloride", "water", 1, ML(30)), WeightPercent("nahco3", "sodium bicarbonate", "water", 8, ML(30)), WeightPercent("salt", "sodium chloride", "water", 25, ML(30)), Of("drying", "magnesium sulfate", G(4), Role.Other)],
            [Flask("flask", 500) with { Kind = "separating funnel" }],
            S("1", StepAction.Charge, 20, "ester", "ea"), S("2", StepAction.Wash, null, "hcl"), S("3", StepAction.Wash, null, "nahco3"), S("4", StepAction.Wash, null, "salt"), S("5", StepAction.Dry, null, "drying"), S("6", StepAction.Concentrate, 40)),
        ["click reaction"] = Plan(
            [New("azide", "4-methoxybenzyl azide", "COc1ccc(CN=[N+]=[N-])cc1", 1.5), Of("alkyne", "phenylacetylene", Mmol(1.5)), Of("copper", "copper(II) sulfate pentahydrate", Mmol(0.08), Role.Catalyst), Of("ascorbate", "sodium ascorbate", Mmol(0.2)), Of("tbuoh", "tert-butanol", ML(6), Role.Solvent), Of("water", "water", ML(6), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "azide", "alkyne", "tbuoh", "water"), S("2", StepAction.Add, null, "copper", "ascorbate"), S("3", StepAction.Stir, 20)),
        ["aspirin"] = Plan(
            [Of("acid", "salicylic acid", G(2)), Of("anhydride", "acetic anhydride", ML(4)), Of("catalyst", "phosphoric acid", ML(0.3), Role.Catalyst), Of("water", "water", ML(30), Role.Quench)],
            [Flask("flask", 100)],
            S("1", StepAction.Charge, 20, "acid", "anhydride", "catalyst"), S("2", StepAction.Heat, 70) with { HeatSource = HeatSource.WaterBath }, S("3", StepAction.Cool, 20), S("4", StepAction.Quench, null, "water") with { OverS = 600 }, S("5", StepAction.Filter, null)),
        ["imine formation"] = Plan(
            [Of("aldehyde", "benzaldehyde", Mmol(5)), Of("amine", "aniline", Mmol(5)), Of("ethanol", "ethanol", ML(10), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "aldehyde", "amine", "ethanol"), S("2", StepAction.Reflux, 78) with { HeatSource = HeatSource.WaterBath }, S("3", StepAction.Cool, 5), S("4", StepAction.Filter, null)),
        ["benzylic bromination"] = Plan(
            [Of("arene", "toluene", Mmol(10)), Of("nbs", "NBS", Mmol(10)), Of("initiator", "AIBN", Mmol(0.3), Role.Catalyst), Of("solvent", "acetonitrile", ML(30), Role.Solvent)],
            [Flask()],
            S("1", StepAction.Charge, 20, "arene", "nbs", "initiator", "solvent") with { Headspace = Under("nitrogen") }, S("2", StepAction.Reflux, 81) with { HeatSource = HeatSource.OilBath, SurfaceTemperatureK = 368.15 }, S("3", StepAction.Cool, 20)),
        ["stoppered flask left at room temperature"] = Plan(
            [Of("dcm", "dichloromethane", ML(30), Role.Solvent)],
            [Flask("flask", 100)],
            S("1", StepAction.Charge, 20, "dcm"), S("2", StepAction.Seal, null) with { Closure = Closure.Stopper }, S("3", StepAction.Store, null)),
        ["Grignard reagent from bromobenzene"] = Plan(
            [Of("mg", "magnesium", Mmol(12)), Of("bromide", "bromobenzene", Mmol(10)), Of("iodine", "iodine", G(0.02)), Thf(25), Of("ketone", "benzophenone", Mmol(9)), WeightPercent("nh4cl", "ammonium chloride", "water", 20, ML(30), Role.Quench)],
            [Flask()],
            S("1", StepAction.Charge, 20, "mg", "iodine", "thf") with { Headspace = Under("nitrogen") }, S("2", StepAction.Add, null, "bromide") with { OverS = 1800 }, S("3", StepAction.Reflux, 66) with { HeatSource = HeatSource.OilBath, SurfaceTemperatureK = 353.15 },
            S("4", StepAction.Add, 0, "ketone") with { OverS = 1200 }, S("5", StepAction.Quench, 0, "nh4cl") with { OverS = 900 }) with
        { FireResponse = Agents(Agent.DrySand, Agent.ClassDPowder) },
    };
}
