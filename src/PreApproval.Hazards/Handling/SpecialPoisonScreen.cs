using System.Globalization;
using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Handling;

/// <summary>
/// Poisons whose first aid must be agreed before the work (Data/special-poisons.tsv). The pointer defers to local rules and to the occupational physician. Docs: docs/methods/special-handling.md.
/// </summary>
public sealed class SpecialPoisonScreen : IScreen
{
    private static readonly Poison[] Poisons =
    [
        .. EmbeddedTable.Rows("special-poisons.tsv").Select(static row => new Poison(
            row["key"],
            EmbeddedTable.Entries(row["families"]),
            EmbeddedTable.Entries(row["cas"]),
            Enum.Parse<Severity>(row["severity"], ignoreCase: true),
            row["largeGrams"].Length == 0 ? null : double.Parse(row["largeGrams"], CultureInfo.InvariantCulture) / 1000,
            row["pointer"],
            EmbeddedTable.Entries(row["sources"]))),
    ];

    private static readonly StructureGroup Organomercury = StructurePatterns.Default.Group("organomercury");

    /// <summary>Keys of the rows, for the tests.</summary>
    internal static IEnumerable<string> Keys => Poisons.Select(static poison => poison.Key);

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var group in Met(context).GroupBy(static met => met.Poison.Key, StringComparer.Ordinal))
        {
            var poison = group.First().Poison;
            var substance = group.First().Substance;
            string[] materials = [.. group.Select(static met => met.Material).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
            string[] steps =
            [
                .. context.Walk.States.Where(state => group.Any(met => Array.Exists(met.Steps, step => string.Equals(step, state.Step.Id, StringComparison.Ordinal))
                        || state.Contents.Any(content => !content.Spent && string.Equals(content.Substance.Key, met.Substance.Key, StringComparison.Ordinal))))
                    .Select(static state => state.Step.Id)
                    .Distinct(StringComparer.Ordinal),
            ];
            var kg = group.Aggregate((double?)0, static (sum, met) => sum + met.Kg);
            var large = poison.LargeKg is { } limit && !(kg < limit);
            var severity = large && poison.Severity > Severity.Danger ? poison.Severity - 1 : poison.Severity;
            yield return new Finding
            {
                Code = "toxicity." + poison.Key,
                Hazard = Hazard.Toxicity,
                Severity = severity,
                Steps = steps,
                Materials = materials,
                Statement = $"{Wording.Capital(substance.Name)}{(large ? kg is { } mass ? $" ({Wording.Figures(mass * 1000)} g)" : " in an amount that is not known" : "")}: {poison.Pointer}. Local rules and the physician named in them come first.",
                Evidence = large && kg is { } known ? [Findings.Number("mass", known * 1000, "g", poison.LargeKg * 1000, PlannedAmount.Model, Quality.Assumed, [.. poison.Sources])] : [],
            };
        }
    }

    private static IEnumerable<Encountered> Met(ScreeningContext context)
    {
        foreach (var material in context.Plan.Materials)
        {
            var parts = AmountConversion.Parts(material.Composition);
            for (var index = 0; index < parts.Count; index++)
            {
                var part = parts[index];
                foreach (var poison in Of(part.Substance))
                {
                    yield return new Encountered(poison, part.Substance, material.Id, MassKg(material, part.Substance, context.Plan), []);
                }
            }
        }

        foreach (var step in context.Plan.Steps)
        {
            if (step is { Gas: null, Headspace: not Headspace.Gas })
            {
                continue;
            }

            foreach (var gas in new[] { step.Gas, (step.Headspace as Headspace.Gas)?.Substance }.OfType<PlanSubstance>())
            {
                foreach (var poison in Of(gas))
                {
                    yield return new Encountered(poison, gas, null, 0, [step.Id]);
                }
            }
        }

        foreach (var (substance, step) in context.Plan.Reactions.SelectMany(static reaction => reaction.Produces.Select(made => (made.Substance, reaction.Step))))
        {
            foreach (var poison in Of(substance))
            {
                yield return new Encountered(poison, substance, null, MadeKg(substance, step, context.Walk), [step]);
            }
        }
    }

    /// <summary>Mass of a declared product in kg; null when the step's turnover is not known, which is never little.</summary>
    private static double? MadeKg(PlanSubstance substance, string step, WalkResult walk)
    {
        var states = walk.States.Where(state => string.Equals(state.Step.Id, step, StringComparison.Ordinal)).ToArray();
        double?[] held = [.. states.SelectMany(static state => state.Remaining).Where(content => content.MaterialId is null && string.Equals(content.Substance.Key, substance.Key, StringComparison.Ordinal)).Select(static content => content.Mol)];
        double?[] gas = [.. states.SelectMany(static state => state.GasMade).Where(made => string.Equals(made.Gas.Key, substance.Key, StringComparison.Ordinal)).Select(static made => made.Mol)];
        // one part that is not known leaves the whole unknown
        return held.Length + gas.Length == 0 || Array.Exists(held, static mol => mol is null) || Array.Exists(gas, static mol => mol is null)
            ? null
            : ((held.Max() ?? 0) + gas.Sum()) * substance.Known?.Identity.MolarMassKgPerMol;
    }

    private static double? MassKg(Material material, PlanSubstance substance, Plan plan) => PlannedAmount.Of(plan, material, amount =>
        AmountConversion.Convert(material.Composition, amount).Portions.FirstOrDefault(portion => string.Equals(portion.Substance.Key, substance.Key, StringComparison.Ordinal))?.Mol * substance.Known?.Identity.MolarMassKgPerMol);

    private static Poison[] Of(PlanSubstance substance)
    {
        if (With(static poison => poison.Cas, [substance.Known?.Identity.Cas ?? substance.Key]) is { Length: > 0 } listed)
        {
            return listed;
        }

        var byFamily = With(static poison => poison.Families, FamilyTable.Default.Of(substance));
        return byFamily.Length > 0 ? byFamily
            : substance.Structure?.Groups is { } groups && groups.Present.Concat(groups.Undecided).Contains(Organomercury)
                ? Array.FindAll(Poisons, static poison => poison.Key is "organomercury")
                : [];
    }

    private static Poison[] With(Func<Poison, IReadOnlyList<string>> list, IReadOnlyList<string> names)
    {
        List<Poison>? found = null;
        foreach (var poison in Poisons)
        {
            for (var index = 0; index < names.Count; index++)
            {
                if (list(poison).Contains(names[index], StringComparer.Ordinal))
                {
                    (found ??= []).Add(poison);
                    break;
                }
            }
        }

        return found is null ? [] : [.. found];
    }

    private sealed record Poison(string Key, IReadOnlyList<string> Families, IReadOnlyList<string> Cas, Severity Severity, double? LargeKg, string Pointer, IReadOnlyList<string> Sources);

    private sealed record Encountered(Poison Poison, PlanSubstance Substance, string? Material, double? Kg, string[] Steps);
}
