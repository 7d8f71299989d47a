using System.Runtime.CompilerServices;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Health;

/// <summary>
/// What the hazard statements of the materials say, those of a substance as they are, carried through solutions and mixtures as they stand on the shelf. Statements alone are notices: exposure, energy and confinement grade up elsewhere.
/// Method: docs/methods/health-mixtures.md.
/// </summary>
public sealed class HealthScreen : IScreen
{
    private static readonly (string Code, string Then, Func<string, bool> Holds)[] Groups =
    [
        ("toxicity.cmr", "say why nothing less harmful serves, handle it closed, and mind people who are or may become pregnant", static code => code.StartsWith("H340", StringComparison.Ordinal) || code.StartsWith("H350", StringComparison.Ordinal) || code.StartsWith("H360", StringComparison.Ordinal)),
        ("toxicity.acute", "know the way to help before the bottle is opened", static code => code is "H300" or "H310" or "H330" or "H301" or "H311" or "H331"),
        ("toxicity.corrosive", "wear eye protection in every step, weighing and cleaning included", static code => code is "H314" or "H318"),
        ("toxicity.sensitising", "avoid the first contact; who is allergic does not handle it", static code => code is "H334" or "H317"),
        ("toxicity.organs", "keep exposure as low as can be", static code => code is "H370" or "H372"),
    ];

    // the classes of a substance do not change from plan to plan
    private static readonly ConditionalWeakTable<IReadOnlyList<HazardStatement>, MixtureClass[]> OfSubstances = [];

    // looked up once: every line of evidence has the same; the rules for mixtures stand behind no substance as it is
    private static readonly IReadOnlyList<string> SourcesOfMixtures = References.Full(["clp-annex-i-mixtures", "clp-annex-vi"]);

    private static readonly IReadOnlyList<string> SourcesOfSubstances = References.Full(["clp-annex-vi"]);

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var classified = new List<(Material Material, MixtureClass[] Classes)>(context.Plan.Materials.Count);
        List<string>? unknown = null;
        foreach (var material in context.Plan.Materials)
        {
            if (material.Composition is Composition.Pure { Substance: var substance })
            {
                if (OfSubstance(substance.Known?.HazardStatements?.Value) is not { } own)
                {
                    (unknown ??= []).Add(material.Id);
                }
                else if (own.Length > 0)
                {
                    classified.Add((material, own));
                }

                continue;
            }

            var (ingredients, form) = Ingredients(material);
            if (ingredients.Any(static part => part.Statements is null && part.MassFraction > 0))
            {
                (unknown ??= []).Add(material.Id);
            }

            if (ingredients.Any(static part => HasHealthStatement(part.Statements)) && MixtureClassification.Of(ingredients, form).ToArray() is { Length: > 0 } classes)
            {
                classified.Add((material, classes));
            }
        }

        foreach (var (code, then, holds) in Groups)
        {
            var hits = new List<(Material Material, MixtureClass[] Classes)>();
            foreach (var (material, classes) in classified)
            {
                if (Of(classes, holds) is { Length: > 0 } of)
                {
                    hits.Add((material, of));
                }
            }

            if (hits.Count > 0)
            {
                yield return Describe(code, then, hits);
            }
        }

        if (unknown is not null)
        {
            unknown.Sort(StringComparer.Ordinal);
            yield return new Finding
            {
                Code = "data.hazard-statements",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Materials = unknown,
                Statement = $"No hazard statements are on file for all of {Wording.List(unknown.Select(static id => $"“{id}”"))}: what it does to health is read from the safety data sheet, not from here.",
            };
        }
    }

    /// <summary>
    /// A substance has its own classes: the converted estimates of the formula for mixtures are meant for shares, and the one of category 3 by dust, 0.5 mg/L, is the limit of category 2.
    /// </summary>
    /// <returns>Null where no statements are on file.</returns>
    private static MixtureClass[]? OfSubstance(IReadOnlyList<HazardStatement>? statements) =>
        statements is null ? null : HasHealthStatement(statements) ? OfSubstances.GetValue(statements, InOrder) : [];

    private static MixtureClass[] InOrder(IReadOnlyList<HazardStatement> statements) =>
        [.. statements.OrderBy(static one => one.Code, StringComparer.Ordinal).Select(static one => new MixtureClass(one.Code, one.Category, "classification of the substance"))];

    private static MixtureClass[] Of(MixtureClass[] classes, Func<string, bool> holds)
    {
        List<MixtureClass>? of = null;
        foreach (var one in classes)
        {
            if (holds(one.Code))
            {
                (of ??= []).Add(one);
            }
        }

        return of is null ? [] : [.. of];
    }

    private static Finding Describe(string code, string then, List<(Material Material, MixtureClass[] Classes)> hits)
    {
        hits.Sort(static (one, other) => string.CompareOrdinal(one.Material.Id, other.Material.Id));
        return new Finding
        {
            Code = code,
            Hazard = Hazard.Toxicity,
            Severity = Severity.Notice,
            Materials = hits.ConvertAll(static hit => hit.Material.Id),
            Statement = $"By its hazard statements, {Wording.List(hits.ConvertAll(static hit => $"“{hit.Material.Id}” ({Codes(hit.Classes)})"))} {HealthWords.Of(code, Codes(hits), hits.Count > 1)}: {then}.",
            Evidence = Evidence(hits),
        };
    }

    private static string Codes(MixtureClass[] classes) => classes.Length == 1 ? classes[0].Code : string.Join(", ", classes.Select(static one => one.Code).Distinct(StringComparer.Ordinal));

    private static Evidence[] Evidence(List<(Material Material, MixtureClass[] Classes)> hits)
    {
        var evidence = new Evidence[hits.Sum(static hit => hit.Classes.Length)];
        var at = 0;
        foreach (var (material, classes) in hits)
        {
            foreach (var one in classes)
            {
                evidence[at++] = new Evidence
                {
                    Name = $"{one.Code} of “{material.Id}”",
                    Value = 1,
                    Unit = "rule",
                    Worse = WorseWhen.Neither,
                    Model = material.Composition is Composition.Pure ? one.Because : $"generic rules for mixtures: {one.Because}",
                    Sources = material.Composition is Composition.Pure ? SourcesOfSubstances : SourcesOfMixtures,
                    Quality = Quality.Assumed,
                };
            }
        }

        return evidence;
    }

    private static bool HasHealthStatement(IReadOnlyList<HazardStatement>? statements)
    {
        for (var i = 0; i < statements?.Count; i++)
        {
            if (statements[i].Code.StartsWith("H3", StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static List<string> Codes(List<(Material Material, MixtureClass[] Classes)> hits)
    {
        var codes = new List<string>();
        foreach (var (_, classes) in hits)
        {
            foreach (var one in classes)
            {
                if (!codes.Contains(one.Code))
                {
                    codes.Add(one.Code);
                }
            }
        }

        return codes;
    }

    /// <summary>Ingredients by mass; an ingredient whose share cannot be had counts whole, which is the cautious reading.</summary>
    internal static (IReadOnlyList<MixtureIngredient> Ingredients, InhaledForm Form) Ingredients(Material material)
    {
        if (material.Composition is Composition.Pure pure)
        {
            return ((MixtureIngredient[])[new MixtureIngredient(1, pure.Substance.Known?.HazardStatements?.Value)], FormOf(pure.Substance.Known));
        }

        var portions = AmountConversion.Parts(material.Composition);
        if (portions.Any(static portion => portion.MassFraction is null))
        {
            portions = AmountConversion.Convert(material.Composition, new Amount.Mass(1)).Portions;
        }

        var ingredients = portions
            .Select(static portion => new MixtureIngredient(portion.MassFraction ?? (portion.Mol * portion.Substance.Known?.Identity.MolarMassKgPerMol) ?? 1, portion.Substance.Known?.HazardStatements?.Value))
            .ToArray();
        return (ingredients, portions.Any(static portion => portion.Substance.Known is { PhaseAt298K: Phase.Liquid }) ? InhaledForm.Vapour : FormOf(portions[0].Substance.Known));
    }

    private static InhaledForm FormOf(Substance? substance) => substance?.PhaseAt298K switch
    {
        Phase.Gas => InhaledForm.Gas,
        Phase.Liquid => InhaledForm.Vapour,
        Phase.Solid or null => InhaledForm.DustOrMist,
    };
}
