namespace PreApproval.Hazards.Health;

/// <summary>One ingredient of a mixture.</summary>
/// <param name="MassFraction">Share of the mass, 0 to 1.</param>
/// <param name="Statements">Its hazard statements; empty: known as not classified; null: not on file.</param>
public sealed record MixtureIngredient(double MassFraction, IReadOnlyList<HazardStatement>? Statements);

/// <summary>A class that a mixture comes into.</summary>
/// <param name="Code">Hazard statement.</param>
/// <param name="Category">Category within the class.</param>
/// <param name="Because">The sum or share that decides, for a sentence.</param>
public sealed record MixtureClass(string Code, string Category, string Because);

/// <summary>
/// Health classes of a mixture from those of its ingredients, by the generic rules of Regulation (EC) No 1272/2008, Annex I: additivity for acute toxicity (3.1.3.6), skin (Table 3.2.3) and eyes
/// (Table 3.3.3), generic concentration limits for the rest. Specific limits of Annex VI and measured data of the mixture would come first and are not on file. Figures from memory. Docs: docs/methods/health-mixtures.md.
/// </summary>
public static class MixtureClassification
{
    private const double Percent = 100;

    private static readonly string[] Second = ["2"];

    /// <summary>What the mixture is classified as, in a fixed order; empty when nothing reaches a limit.</summary>
    /// <param name="parts">Ingredients; the fractions may sum to less than one.</param>
    /// <param name="form">In what form it would be breathed.</param>
    public static IReadOnlyList<MixtureClass> Of(IReadOnlyList<MixtureIngredient> parts, InhaledForm form)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var found = new List<MixtureClass>();
        foreach (var route in AcuteToxicity.Routes)
        {
            if (AcuteToxicity.EstimateOf(parts, route, form) is { } estimate && AcuteToxicity.Category(route, form, estimate) is { } category)
            {
                found.Add(new MixtureClass(AcuteToxicity.Code(route, category), category.ToString(System.Globalization.CultureInfo.InvariantCulture), $"estimate {Screening.Wording.Figures(estimate)} {AcuteToxicity.Unit(route, form)}"));
            }
        }

        Skin(parts, found);
        Eyes(parts, found);
        Limits(parts, form, found);
        return found;
    }

    private static void Skin(IReadOnlyList<MixtureIngredient> parts, List<MixtureClass> found)
    {
        var corrosive = Percentage(parts, "skin corrosion", null, summed: true);
        var irritant = Percentage(parts, "skin irritation", Second, summed: true);
        if (corrosive >= 5)
        {
            found.Add(new MixtureClass("H314", "1", $"{Share(corrosive)} skin-corrosive"));
        }
        else if (corrosive >= 1 || irritant >= 10 || (10 * corrosive) + irritant >= 10)
        {
            found.Add(new MixtureClass("H315", "2", $"{Share(corrosive)} skin-corrosive and {Share(irritant)} irritant"));
        }
    }

    private static void Eyes(IReadOnlyList<MixtureIngredient> parts, List<MixtureClass> found)
    {
        double damaging = 0;
        foreach (var part in parts)
        {
            // what is both corrosive to skin and damaging to eyes counts once
            damaging += Is(part, "skin corrosion", null) || Is(part, "serious eye damage", null) ? Percent * part.MassFraction : 0;
        }

        var irritant = Percentage(parts, "eye irritation", Second, summed: true);
        if (damaging >= 3)
        {
            if (!Has(found, "H314"))
            {
                found.Add(new MixtureClass("H318", "1", $"{Share(damaging)} damaging to eyes"));
            }
        }
        else if (damaging >= 1 || irritant >= 10 || (10 * damaging) + irritant >= 10)
        {
            found.Add(new MixtureClass("H319", "2", $"{Share(damaging)} damaging and {Share(irritant)} irritating to eyes"));
        }
    }

    private static void Limits(IReadOnlyList<MixtureIngredient> parts, InhaledForm form, List<MixtureClass> found)
    {
        foreach (var limit in GenericLimit.All)
        {
            var share = Percentage(parts, limit.HazardClass, limit.Categories, limit.Summed);
            var from = form == InhaledForm.Gas ? limit.FromPercentGas : limit.FromPercent;
            if (share >= from && share < limit.BelowPercent && !limit.Supersedes.Any(code => Has(found, code)))
            {
                found.Add(new MixtureClass(limit.Code ?? CodeOf(parts, limit), limit.Category, $"{Share(share)}, limit {Screening.Wording.Text(from)} %"));
            }
        }
    }

    /// <summary>The code of the ingredient that decides keeps what it says (H360D, H350i).</summary>
    private static string CodeOf(IReadOnlyList<MixtureIngredient> parts, GenericLimit limit) =>
        parts.Where(part => Is(part, limit.HazardClass, limit.Categories)).OrderByDescending(static part => part.MassFraction)
            .SelectMany(static part => part.Statements!)
            .First(statement => Matches(statement, limit.HazardClass, limit.Categories)).Code;

    private static string Share(double percent) => $"{Screening.Wording.Figures(percent)} %";

    /// <summary>Share in % of the ingredients of a class: all together, or the largest of them.</summary>
    private static double Percentage(IReadOnlyList<MixtureIngredient> parts, string hazardClass, IReadOnlyList<string>? categories, bool summed)
    {
        double share = 0;
        foreach (var part in parts)
        {
            if (Is(part, hazardClass, categories))
            {
                share = summed ? share + part.MassFraction : Math.Max(share, part.MassFraction);
            }
        }

        return Percent * share;
    }

    private static bool Has(List<MixtureClass> found, string code)
    {
        foreach (var one in found)
        {
            if (string.Equals(one.Code, code, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static bool Is(MixtureIngredient part, string hazardClass, IReadOnlyList<string>? categories)
    {
        if (part.Statements is { } statements)
        {
            for (var i = 0; i < statements.Count; i++)
            {
                if (Matches(statements[i], hazardClass, categories))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static bool Matches(HazardStatement statement, string hazardClass, IReadOnlyList<string>? categories) =>
        string.Equals(statement.HazardClass, hazardClass, StringComparison.Ordinal) && (categories is null || categories.Contains(statement.Category, StringComparer.Ordinal));
}
