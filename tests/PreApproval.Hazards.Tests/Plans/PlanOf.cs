using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Plans;

/// <summary>Short words for the plans of the tests: mL, g, mmol, °C, bar(g).</summary>
internal static class PlanOf
{
    public static PlanSubstance Substance(string nameOrCas) =>
        Catalog.Default.TryFindByCas(nameOrCas, out var known) || Catalog.Default.TryFindByName(nameOrCas, out known)
            ? new PlanSubstance(known.Key, known.Identity.Name, known)
            : new PlanSubstance(nameOrCas, nameOrCas, null);

    public static Amount ML(double value) => new Amount.Volume(value * 1e-6);

    public static Amount G(double value) => new Amount.Mass(value * 1e-3);

    public static Amount Mmol(double value) => new Amount.Mol(value * 1e-3);

    public static Material Of(string id, string substance, Amount? amount, Role role = Role.Reagent) =>
        new() { Id = id, Composition = new Composition.Pure(Substance(substance)), Role = role, Amount = amount };

    public static Material Molar(string id, string solute, string solvent, double molPerL, Amount? amount, Role role = Role.Reagent) => new()
    {
        Id = id,
        Composition = new Composition.Solution(Substance(solute), Substance(solvent), new Concentration.MolPerM3(molPerL * 1000)),
        Role = role,
        Amount = amount,
    };

    public static Material WeightPercent(string id, string solute, string solvent, double percent, Amount? amount, Role role = Role.Reagent) => new()
    {
        Id = id,
        Composition = new Composition.Solution(Substance(solute), Substance(solvent), new Concentration.Fraction(percent / 100, FractionBasis.Mass)),
        Role = role,
        Amount = amount,
    };

    public static Vessel Flask(string id = "flask", double mL = 250) => new() { Id = id, Kind = "round-bottom flask", VolumeM3 = mL * 1e-6 };

    public static Vessel Tube(double mL, double? barGauge, string id = "tube", double? maximumC = null) => new()
    {
        Id = id,
        Kind = "thick-walled glass tube",
        VolumeM3 = mL * 1e-6,
        RatingPaGauge = barGauge * 1e5,
        MaximumTemperatureK = maximumC + 273.15,
    };

    public static Step Step(string id, StepAction action, string vessel, double? celsius = null, params string[] materials) => new()
    {
        Id = id,
        Action = action,
        Vessel = vessel,
        TemperatureK = celsius + 273.15,
        Materials = [.. materials.Select(static material => new MaterialUse(material, null))],
    };

    public static Headspace Under(string gas) => new Headspace.Gas(Substance(gas));

    public static Reaction Reaction(string step, IEnumerable<string> consumes, params (string Substance, Phase State)[] produces) => new()
    {
        Step = step,
        Consumes = [.. consumes.Select(static material => new Consumption(material, 1))],
        Produces = [.. produces.Select(static product => new Production(Substance(product.Substance), 1, product.State))],
    };

    public static FireResponse Agents(params Agent[] agents) => new(agents, null);
}
