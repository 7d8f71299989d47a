namespace PreApproval.Hazards.Plans;

/// <summary>How much of a material a plan has in all, whether the material list states it or the steps do.</summary>
internal static class PlannedAmount
{
    /// <summary>Where the figure comes from, for evidence.</summary>
    public const string Model = "amount of the material list, or of the steps together where they take more";

    /// <summary>
    /// The larger of what the list states and what the steps take together. Without an amount in the list each use must state one: null as soon as one does not, when nothing uses the material, or when
    /// an amount cannot be converted. Null is unknown, never little.
    /// </summary>
    /// <param name="plan">Whose steps count.</param>
    /// <param name="material">The material.</param>
    /// <param name="quantity">The amount in the unit that is asked for (kg, mol, m³); null when it cannot be had.</param>
    public static double? Of(Plan plan, Material material, Func<Amount, double?> quantity)
    {
        double? taken = 0;
        double known = 0;
        var uses = 0;
        foreach (var use in plan.Steps.SelectMany(static step => step.Materials).Where(use => string.Equals(use.MaterialId, material.Id, StringComparison.Ordinal)))
        {
            uses++;
            var part = use.Amount is { } amount ? quantity(amount) : null;
            taken += part;
            known += part ?? 0;
        }

        return material.Amount is { } listed ? quantity(listed) is { } whole ? Math.Max(whole, known) : null
            : uses > 0 ? taken
            : null;
    }
}
