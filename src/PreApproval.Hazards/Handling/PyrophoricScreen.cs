using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Handling;

/// <summary>
/// What ignites in air (H250: liquids apart from solids) and what gives gas and fire with water (H260), by amount and technique. What they meet is the matter of the encounters; here: how much, and whether
/// anything destroys what is left. Docs: docs/methods/special-handling.md.
/// </summary>
public sealed class PyrophoricScreen : IScreen
{
    /// <summary>Volume in m³ of a pyrophoric solution of at least <see cref="StrongMolPerM3"/> above which the work goes to review (10 mL).</summary>
    internal const double ReviewM3 = 10e-6;

    /// <summary>Strength in mol/m³ from which a solution counts there (1 mol/L).</summary>
    internal const double StrongMolPerM3 = 1000;

    /// <summary>Volume in m³ of tert-butyllithium above which it is a danger (50 mL).</summary>
    internal const double MostTertiaryM3 = 50e-6;

    /// <summary>Mass in kg of a water-reactive substance, or of a solid that ignites in air, from which it is more than a notice (5 g). Common practice, no source.</summary>
    internal const double MuchSolidKg = 5e-3;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var material in context.Plan.Materials)
        {
            if (AmountConversion.Parts(material.Composition).FirstOrDefault(static part => Says(part.Substance, "H250", "pyrophoric liquid")) is { } pyrophoric)
            {
                yield return Pyrophoric(material, pyrophoric.Substance, context);
            }
            else if (AmountConversion.Parts(material.Composition).FirstOrDefault(static part => Says(part.Substance, "H260")) is { } waterReactive)
            {
                yield return WaterReactive(material, waterReactive.Substance, context);
            }
            else if (AmountConversion.Parts(material.Composition).FirstOrDefault(static part => Says(part.Substance, "H250")) is { } solid)
            {
                yield return PyrophoricSolid(material, solid.Substance, context);
            }
        }

        foreach (var finding in Left(context))
        {
            yield return finding;
        }
    }

    private static bool Says(PlanSubstance substance, string code, string? hazardClass = null)
    {
        if (substance.Known?.HazardStatements?.Value is not { } statements)
        {
            return false;
        }

        for (var index = 0; index < statements.Count; index++)
        {
            var statement = statements[index];
            if (string.Equals(statement.Code, code, StringComparison.Ordinal) && (hazardClass is null || string.Equals(statement.HazardClass, hazardClass, StringComparison.Ordinal)))
            {
                return true;
            }
        }

        return false;
    }

    private static Finding Pyrophoric(Material material, PlanSubstance substance, ScreeningContext context)
    {
        var neat = material.Composition is Composition.Pure && substance.Known!.PhaseAt298K == Phase.Liquid;
        var volume = PlannedAmount.Of(context.Plan, material, amount => VolumeM3(material.Composition, amount));
        var strong = material.Composition is not Composition.Solution { Concentration: Concentration.MolPerM3 { Value: < StrongMolPerM3 } };
        var tertiary = FamilyTable.Default.Of(substance).Contains("tertiary alkyllithium", StringComparer.Ordinal);
        // a volume that is not known counts as above every limit
        var severity = tertiary && !(volume <= MostTertiaryM3) ? Severity.Danger
            : tertiary || neat || (strong && !(volume <= ReviewM3)) ? Severity.Warning
            : Severity.Notice;
        var amount = volume is { } m3 ? $"{Findings.Litres(m3)} of {(neat ? "neat " : "")}{substance.Name}" : $"{Wording.Capital(substance.Name)} in a volume that is not known";
        var why = severity == Severity.Notice ? ""
            : severity == Severity.Danger ? $", {(volume is null ? "taken as " : "")}above {Findings.Litres(MostTertiaryM3)}"
            : tertiary ? ", which is reviewed at any amount"
            : neat ? ", which is reviewed at any amount when neat"
            : $", {(volume is null ? "taken as " : "")}above {Findings.Litres(ReviewM3)} of a solution of 1 mol/L or more";
        return new Finding
        {
            Code = "fire.pyrophoric",
            Hazard = Hazard.Fire,
            Severity = severity,
            Steps = UsedIn(material, context),
            Materials = [material.Id],
            Statement = $"{amount} ignites in air{why}: dry glass under inert gas, at most 20 mL a draw with a locking syringe and a cannula above, dry sand in reach, nothing else that burns beside it.",
            Evidence = volume is { } known ? [Findings.Number("volume of a pyrophoric liquid", known * 1e6, "mL", (tertiary ? severity == Severity.Danger ? MostTertiaryM3 : 0 : neat ? 0 : ReviewM3) * 1e6, PlannedAmount.Model, Quality.Assumed, "pyrophoric-practice", "prudent-practices")] : [],
        };
    }

    private static Finding WaterReactive(Material material, PlanSubstance substance, ScreeningContext context)
    {
        var kg = MassKg(material, substance, context.Plan);
        var also = Says(substance, "H250") ? "ignites in air and " : "";
        return new Finding
        {
            Code = "fire.water-reactive",
            Hazard = Hazard.Fire,
            Severity = BySolidMass(kg),
            Steps = UsedIn(material, context),
            Materials = [material.Id],
            Statement = $"{InWords(kg, substance)} {also}gives gas and fire with water: dry glass, inert gas, no water in the bath, and a cold, dilute quench over time, from 2-propanol to ethanol to water, open under a stream of inert gas.",
            Evidence = MassOf("a water-reactive substance", kg),
        };
    }

    /// <summary>What ignites in air and keeps in water or oil (white phosphorus) needs other words than what burns with water.</summary>
    private static Finding PyrophoricSolid(Material material, PlanSubstance substance, ScreeningContext context)
    {
        var kg = MassKg(material, substance, context.Plan);
        return new Finding
        {
            Code = "fire.pyrophoric",
            Hazard = Hazard.Fire,
            Severity = BySolidMass(kg),
            Steps = UsedIn(material, context),
            Materials = [material.Id],
            Statement = $"{InWords(kg, substance)} ignites in air: keep, cut and weigh it under the liquid it is supplied in or under inert gas, let nothing that touched it dry in air, tools, paper and filter included, and have dry sand in reach.",
            Evidence = MassOf("a solid that ignites in air", kg),
        };
    }

    private static Severity BySolidMass(double? kg) => kg < MuchSolidKg ? Severity.Notice : Severity.Caution;

    private static string InWords(double? kg, PlanSubstance substance) =>
        kg is { } mass ? $"{Wording.Figures(mass * 1000)} g of {substance.Name}" : $"{Wording.Capital(substance.Name)} in an amount that is not known";

    private static Evidence[] MassOf(string what, double? kg) =>
        kg is { } known ? [Findings.Number("mass of " + what, known * 1000, "g", MuchSolidKg * 1000, PlannedAmount.Model, Quality.Assumed, "common-practice", "prudent-practices")] : [];

    private static double? MassKg(Material material, PlanSubstance substance, Plan plan) => PlannedAmount.Of(
        plan,
        material,
        amount => AmountConversion.Convert(material.Composition, amount).Portions.Where(portion => string.Equals(portion.Substance.Key, substance.Key, StringComparison.Ordinal))
            .Aggregate((double?)0, static (sum, portion) => sum + (portion.Mol * portion.Substance.Known?.Identity.MolarMassKgPerMol)));

    /// <summary>What is still there, unquenched, in the last state of a vessel.</summary>
    private static IEnumerable<Finding> Left(ScreeningContext context)
    {
        foreach (var vessel in context.Walk.ByVessel)
        {
            var last = vessel[^1];
            var left = last.ContentsAfter.Where(static content => content is { Spent: false, Mol: null or > 0 } && (Says(content.Substance, "H250") || Says(content.Substance, "H260")) && FamilyTable.Default.IsDestroyedByQuench(content.Substance)).ToArray();
            if (left.Length == 0)
            {
                continue;
            }

            yield return new Finding
            {
                Code = "fire.not-quenched",
                Hazard = Hazard.Fire,
                Severity = Severity.Caution,
                Steps = [last.Step.Id],
                Vessel = vessel[0].Vessel.Id,
                Materials = Findings.Ids(left),
                Statement = $"After its last step “{vessel[0].Vessel.Id}” still holds {Wording.List(left.Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))}, which no step quenches and no declared reaction uses up: plan its end.",
                Evidence = [],
            };
        }
    }

    private static double? VolumeM3(Composition composition, Amount amount) => (amount, composition) switch
    {
        (Amount.Volume volume, _) => volume.M3,
        (Amount.Mol mol, Composition.Solution { Concentration: Concentration.MolPerM3 { Value: > 0 } strength }) => mol.Moles / strength.Value,
        _ => AmountConversion.Convert(composition, amount).Portions.Aggregate((double?)0, static (sum, portion) => sum + (portion.Mol * portion.Substance.Known?.Identity.MolarMassKgPerMol / portion.Substance.Known?.DensityKgPerM3?.Value)),
    };

    private static string[] UsedIn(Material material, ScreeningContext context) =>
        [.. context.Plan.Steps.Where(step => step.Materials.Any(use => string.Equals(use.MaterialId, material.Id, StringComparison.Ordinal))).Select(static step => step.Id)];
}
