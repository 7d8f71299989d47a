namespace PreApproval.Hazards.Health;

/// <summary>How a poison comes into the body.</summary>
public enum ExposureRoute
{
    Oral,
    Dermal,
    Inhaled,
}

/// <summary>In what form it would be breathed.</summary>
public enum InhaledForm
{
    Gas,
    Vapour,
    DustOrMist,
}

/// <summary>
/// Acute toxicity of a mixture by the additivity formula 100/ATE = Σ C/ATE (Regulation (EC) No 1272/2008, Annex I, 3.1.3.6.1), with the converted estimates of Table 3.1.2 for ingredients known by their
/// category, and (100 − Σ C unknown)/ATE where more than a tenth is of unknown toxicity (3.1.3.6.2.3). Figures from memory.
/// </summary>
public static class AcuteToxicity
{
    /// <summary>Share in % from which ingredients of unknown toxicity change the formula.</summary>
    private const double UnknownFromPercent = 10;

    /// <summary>Share in % from which an ingredient counts: 1 % in general, 0.1 % for categories 1 to 3.</summary>
    private const double CountsFromPercent = 1;

    private const double PoisonCountsFromPercent = 0.1;

    private static readonly ExposureRoute[] All = [ExposureRoute.Oral, ExposureRoute.Dermal, ExposureRoute.Inhaled];

    /// <summary>Every route.</summary>
    public static IReadOnlyList<ExposureRoute> Routes => All;

    /// <summary>Acute toxicity estimate of the mixture in the unit of <see cref="Unit"/>; null when no ingredient counts.</summary>
    public static double? EstimateOf(IReadOnlyList<MixtureIngredient> parts, ExposureRoute route, InhaledForm form)
    {
        ArgumentNullException.ThrowIfNull(parts);
        double sum = 0;
        double unknown = 0;
        foreach (var part in parts)
        {
            var percent = 100 * part.MassFraction;
            if (part.Statements is null)
            {
                unknown += percent;
            }
            else if (CategoryOf(part.Statements, route) is { } category && percent >= (category <= 3 ? PoisonCountsFromPercent : CountsFromPercent))
            {
                sum += percent / Converted(route, form)[category - 1];
            }
        }

        return sum > 0 ? (100 - (unknown > UnknownFromPercent ? Math.Min(unknown, 100) : 0)) / sum is var estimate && estimate > 0 ? estimate : null : null;
    }

    /// <summary>Category 1 to 4 of an estimate; null above category 4.</summary>
    public static int? Category(ExposureRoute route, InhaledForm form, double estimate)
    {
        var limits = Limits(route, form);
        for (var category = 0; category < limits.Length; category++)
        {
            if (estimate <= limits[category])
            {
                return category + 1;
            }
        }

        return null;
    }

    /// <summary>Hazard statement of a category by a route.</summary>
    public static string Code(ExposureRoute route, int category) => route switch
    {
        ExposureRoute.Oral => category <= 2 ? "H300" : category == 3 ? "H301" : "H302",
        ExposureRoute.Dermal => category <= 2 ? "H310" : category == 3 ? "H311" : "H312",
        ExposureRoute.Inhaled => category <= 2 ? "H330" : category == 3 ? "H331" : "H332",
    };

    /// <summary>Unit of an estimate.</summary>
    public static string Unit(ExposureRoute route, InhaledForm form) => route switch
    {
        ExposureRoute.Oral or ExposureRoute.Dermal => "mg/kg",
        ExposureRoute.Inhaled => form switch
        {
            InhaledForm.Gas => "ppm",
            InhaledForm.Vapour or InhaledForm.DustOrMist => "mg/L",
        },
    };

    private static int? CategoryOf(IReadOnlyList<HazardStatement> statements, ExposureRoute route)
    {
        var name = route switch
        {
            ExposureRoute.Oral => "acute toxicity, oral",
            ExposureRoute.Dermal => "acute toxicity, dermal",
            ExposureRoute.Inhaled => "acute toxicity, inhalation",
        };
        foreach (var statement in statements)
        {
            if (string.Equals(statement.HazardClass, name, StringComparison.Ordinal) && statement.Category is ['1' or '2' or '3' or '4'])
            {
                return statement.Category[0] - '0';
            }
        }

        return null;
    }

    // Table 3.1.2: converted acute toxicity point estimates of categories 1 to 4
    private static ReadOnlySpan<double> Converted(ExposureRoute route, InhaledForm form) => route switch
    {
        ExposureRoute.Oral => [0.5, 5, 100, 500],
        ExposureRoute.Dermal => [5, 50, 300, 1100],
        ExposureRoute.Inhaled => form switch
        {
            InhaledForm.Gas => [10, 100, 700, 4500],
            InhaledForm.Vapour => [0.05, 0.5, 3, 11],
            InhaledForm.DustOrMist => [0.005, 0.05, 0.5, 1.5],
        },
    };

    // Table 3.1.1: upper limits of categories 1 to 4
    private static ReadOnlySpan<double> Limits(ExposureRoute route, InhaledForm form) => route switch
    {
        ExposureRoute.Oral => [5, 50, 300, 2000],
        ExposureRoute.Dermal => [50, 200, 1000, 2000],
        ExposureRoute.Inhaled => form switch
        {
            InhaledForm.Gas => [100, 500, 2500, 20_000],
            InhaledForm.Vapour => [0.5, 2, 10, 20],
            InhaledForm.DustOrMist => [0.05, 0.5, 1, 5],
        },
    };
}
