using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Planning;

/// <summary>A valid document as the engine reads it: SI units, substances looked up, order and indexes kept.</summary>
public sealed class PlanMapping
{
    private readonly Catalog _catalog;

    private PlanMapping(Catalog catalog) => _catalog = catalog;

    /// <summary>Maps a document that <see cref="DocumentReader.Read"/> accepted.</summary>
    public static Plan ToPlan(ProcedureDocument document, Catalog catalog)
    {
        ArgumentNullException.ThrowIfNull(document);
        return new PlanMapping(catalog).Plan(document);
    }

    private Plan Plan(ProcedureDocument document) => new()
    {
        Materials = [.. document.Materials.Select(Material)],
        Vessels = [.. document.Vessels.Select(Vessel)],
        Steps = [.. document.Steps.Select(Step)],
        Reactions = [.. (document.Reactions ?? []).Select(Reaction)],
        Safeguards = [.. (document.Safeguards ?? []).Select(safeguard => new Safeguard(safeguard.Control, safeguard.Steps ?? [], safeguard.Detail))],
        // where the procedure names none, those at the place are the ones at hand
        FireResponse = document.FireResponse is not null || document.Place?.Agents is not null ? new FireResponse(document.FireResponse?.Agents ?? document.Place?.Agents ?? [], document.FireResponse?.Plan) : null,
        Waste = [.. (document.Waste ?? []).Select(waste => new WasteContainer(waste.Materials, waste.Container))],
        LimitingMaterial = document.Scale?.Limiting,
        Scale = document.Scale?.Amount?.ToAmount(),
        Attendance = document.Attendance ?? Attendance.Attended,
        Lone = document.Lone ?? false,
        Experience = document.People?.Experience,
        Protection = document.Protection is { } protection ? new Protection(protection.Gloves, protection.Eyes, protection.Coat) : null,
        Place = document.Place is { } place ? new Place(place.Name, place.Kind, place.RoomVolume?.Si, place.AirFlow?.Si) { Agents = place.Agents ?? [] } : null,
        PlannedOn = document.PlannedOn,
    };

    private Material Material(MaterialEntry material) => new()
    {
        Id = material.Id,
        Composition = Composition(material),
        ReadAs = material is { Mixture: null, Solution: null, Substance: { } substance } && Named(material, substance) is { } named
            ? new ReadAsSolution(AsTyped(material, substance) ?? named.Name, named)
            : null,
        Role = material.Role ?? Role.Other,
        Amount = material.Amount?.ToAmount(),
        Form = material.Form,
        OpenedOn = material.OpenedOn,
        PeroxideTest = material.PeroxideTest is { On: { } on, Ppm: { } ppm } ? (on, ppm) : null,
    };

    private static string? AsTyped(MaterialEntry material, SubstanceReference substance) =>
        (substance.Name ?? substance.Cas) is not { } word ? null
        : SolutionResolution.Find(substance, asReagent: material.Role is not Role.Product) is null ? $"{word}, {material.Form}"
        : word;

    private Composition Composition(MaterialEntry material) => material switch
    {
        { Mixture: { } mixture } => NamedComposition.Mixture([.. mixture.Select(Part)]),
        { Substance: { } solute, Solution: { Solvent: { } solvent, Concentration: { } concentration } } =>
            SolutionResolution.Find(solvent, asReagent: false) is { } named
                ? NamedComposition.Solution(SolutionResolution.Solute(solute, _catalog), named, Strength(concentration))
                : new Composition.Solution(SolutionResolution.Solute(solute, _catalog), Resolve(solvent), Strength(concentration)),
        { Substance: { } substance } when Named(material, substance) is { } meant => meant.Composition,
        { Substance: { } substance } => new Composition.Pure(Resolve(substance)),
        _ => throw new InvalidOperationException($"Material '{material.Id}' has no composition; the reader excludes that."),
    };

    private NamedSolution? Named(MaterialEntry material, SubstanceReference substance) =>
        SolutionResolution.Find(substance, asReagent: material.Role is not Role.Product) ?? SolutionResolution.FindByForm(substance, material.Form, _catalog);

    private NamedPart Part(MixturePartEntry part) => part is { Substance: { } substance, Fraction: { } fraction }
        ? new NamedPart(Resolve(substance), SolutionResolution.Find(substance, asReagent: false), fraction.Si, BasisOf(fraction))
        : throw new InvalidOperationException("A part of a mixture has no substance or no fraction; the reader excludes that.");

    private static Concentration Strength(Quantity concentration) => concentration.Definition.Basis is null
        ? new Concentration.MolPerM3(concentration.Si)
        : new Concentration.Fraction(concentration.Si, BasisOf(concentration));

    private static FractionBasis BasisOf(Quantity fraction) => fraction.Definition.Basis
        ?? throw new InvalidOperationException($"{fraction.Unit} is no fraction; the reader excludes that.");

    private static Vessel Vessel(VesselEntry vessel) => new()
    {
        Id = vessel.Id,
        Kind = vessel.Kind,
        VolumeM3 = vessel.Volume?.Si,
        RatingPaGauge = vessel.Rating?.PaGauge,
        RatingEvidence = vessel.RatingEvidence,
        MaximumTemperatureK = vessel.MaximumTemperature?.Si,
        Closure = vessel.Closure,
        InspectedOn = vessel.InspectedOn,
        Relief = vessel.Relief is { Device: { } device, Set: { } set } ? new Relief(device, set.PaGauge) : null,
        GlassTube = vessel.GlassTube is { OutsideDiameterMm: { } outside, WallMm: { } wall } tube ? new GlassTube(outside * 1e-3, wall * 1e-3, tube.Annealed is true) : null,
        Parts = [.. (vessel.Parts ?? []).Select(part => new VesselPart(part.Part, part.Rating?.PaGauge, part.MaximumTemperature?.Si))],
    };

    private Step Step(StepEntry step) => new()
    {
        Id = step.Id,
        Action = step.Action ?? throw new InvalidOperationException($"Step '{step.Id}' has no action; the reader excludes that."),
        Vessel = step.Vessel,
        Materials = [.. (step.Materials ?? []).Select(use => new MaterialUse(use.Id, use.Amount?.ToAmount()))],
        TemperatureK = step.Temperature?.Si,
        DurationS = step.Duration?.Si,
        OverS = step.Over?.Si,
        HeatSource = step.HeatSource,
        IndependentCutOut = step.IndependentCutOut ?? false,
        SurfaceTemperatureK = step.SurfaceTemperature?.Si,
        Headspace = step.Headspace is { } headspace ? HeadspaceOf(headspace) : null,
        Closure = step.Closure,
        ToVessel = step.To,
        Gas = step.Gas is { } gas ? GasOf(gas) : null,
        PressurePaAbs = step.Pressure?.Si,
    };

    private Headspace HeadspaceOf(GasEntry gas) => gas switch
    {
        { Word: "air" } => new Headspace.Air(),
        { Word: "vacuum" } => new Headspace.Vacuum(),
        _ => new Headspace.Gas(GasOf(gas)),
    };

    private PlanSubstance GasOf(GasEntry gas) => gas.Substance is { } substance
        ? Resolve(substance)
        : SubstanceResolution.Resolve(gas.Word ?? "", _catalog);

    private Reaction Reaction(ReactionEntry reaction) => new()
    {
        Step = reaction.Step,
        Consumes = [.. (reaction.Consumes ?? []).Select(consumption => new Consumption(consumption.Material, consumption.Equivalents))],
        Produces = [.. (reaction.Produces ?? []).Where(production => production.Substance is not null)
            .Select(production => new Production(Resolve(production.Substance!), production.Equivalents, production.State))],
        HeatJPerMol = reaction.Heat?.Si,
        Accumulation = reaction.Accumulation,
        DecompositionOnsetK = reaction.DecompositionOnset?.Si,
    };

    private PlanSubstance Resolve(SubstanceReference reference) => SubstanceResolution.Resolve(reference, _catalog);
}
