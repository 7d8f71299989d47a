using System.Globalization;
using FluentValidation;
using FluentValidation.Results;

namespace PreApproval.Documents.Rules;

/// <summary>
/// How many different components a procedure may have. Each pair of components that meet in a vessel is looked at, and phase equilibria are
/// solved over all of them, so the cost of a screening grows with the square and more.
/// </summary>
internal static class ComponentCounts
{
    public const int MostInAll = 200;
    public const int MostInOneVessel = 40;

    public static void Check(ProcedureDocument document, ValidationContext<ProcedureDocument> context)
    {
        Dictionary<string, HashSet<string>> components = new(StringComparer.Ordinal);
        foreach (MaterialEntry material in document.Materials)
        {
            components.TryAdd(material.Id, [.. NamesOf(material)]);
        }

        int all = components.Values.SelectMany(names => names).Distinct(StringComparer.Ordinal).Count();
        if (all > MostInAll)
        {
            context.AddFailure(new ValidationFailure(nameof(document.Materials), string.Create(CultureInfo.InvariantCulture,
                $"have {all} different components; at most {MostInAll} can be screened together. Divide the procedure, or give a mixture by its main components")));
        }

        CheckVessels(document, components, context);
    }

    /// <summary>What was ever put into a vessel counts as still there: what leaves it depends on the chemistry.</summary>
    private static void CheckVessels(ProcedureDocument document, Dictionary<string, HashSet<string>> components, ValidationContext<ProcedureDocument> context)
    {
        Dictionary<string, HashSet<string>> contents = new(StringComparer.Ordinal);
        HashSet<string> told = new(StringComparer.Ordinal);
        foreach ((int index, StepEntry step) in document.Steps.Index())
        {
            HashSet<string> vessel = ContentsOf(contents, step.Vessel);
            foreach (MaterialUseEntry use in step.Materials ?? [])
            {
                vessel.UnionWith(components.GetValueOrDefault(use.Id) ?? []);
            }

            HashSet<string> fullest = vessel;
            string name = step.Vessel;
            if (step.To is { } target)
            {
                fullest = ContentsOf(contents, target);
                fullest.UnionWith(vessel);
                name = target;
            }

            if (fullest.Count > MostInOneVessel && told.Add(name))
            {
                context.AddFailure(new ValidationFailure(
                    string.Create(CultureInfo.InvariantCulture, $"Steps[{index}].{(step.To is null ? nameof(step.Materials) : nameof(step.To))}"),
                    string.Create(CultureInfo.InvariantCulture, $"brings \"{name}\" to {fullest.Count} different components; at most {MostInOneVessel} in one vessel can be screened. Give a mixture by its main components")));
            }
        }
    }

    private static HashSet<string> ContentsOf(Dictionary<string, HashSet<string>> contents, string vessel)
    {
        if (!contents.TryGetValue(vessel, out HashSet<string>? found))
        {
            contents.Add(vessel, found = new HashSet<string>(StringComparer.Ordinal));
        }

        return found;
    }

    private static IEnumerable<string> NamesOf(MaterialEntry material) =>
        (material.Mixture ?? []).Select(part => part.Substance).Append(material.Substance).Append(material.Solution?.Solvent)
            .Select(reference => reference?.Cas ?? reference?.Smiles ?? reference?.Name?.ToUpperInvariant()).OfType<string>();
}
