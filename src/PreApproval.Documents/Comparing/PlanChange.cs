namespace PreApproval.Documents.Comparing;

/// <summary>What part of a plan differs.</summary>
public enum PlanPart
{
    Material,
    Vessel,
    Step,
    Reaction,
    Safeguard,
    FireResponse,
    Waste,

    /// <summary>Who, where, when and how much.</summary>
    Circumstance,
}

/// <summary>What became of it.</summary>
public enum PlanEffect
{
    Added,
    Removed,
    Moved,
    Changed,
}

/// <summary>One difference between two plans.</summary>
public sealed record PlanChange
{
    public required PlanPart Part { get; init; }

    /// <summary>What the later document calls it; the earlier one where it is gone.</summary>
    public required string Name { get; init; }

    /// <summary>What the earlier document calls it, where it does so otherwise.</summary>
    public string? NameBefore { get; init; }

    public required PlanEffect Effect { get; init; }

    /// <summary>The action of a step; null for other parts.</summary>
    public string? Action { get; init; }

    /// <summary>Which of its statements, for instance <c>temperature</c>; null: the part as a whole.</summary>
    public string? What { get; init; }

    /// <summary>As the earlier document has it; null: not stated there.</summary>
    public string? Before { get; init; }

    /// <summary>As the later document has it; null: not stated there.</summary>
    public string? After { get; init; }

    /// <summary>In words, for instance <c>step 3 (heat), temperature</c>.</summary>
    public string Where => string.Concat(Named, Action is null ? "" : $" ({Action})", NameBefore is null ? "" : $", was {Quoted(NameBefore)}", What is null ? "" : $", {What}");

    /// <summary>In words, for instance <c>safeguard</c>.</summary>
    public static string WordOf(PlanPart part) => part switch
    {
        PlanPart.Material => "material",
        PlanPart.Vessel => "vessel",
        PlanPart.Step => "step",
        PlanPart.Reaction => "reaction",
        PlanPart.Safeguard => "safeguard",
        PlanPart.FireResponse => "fire response",
        PlanPart.Waste => "waste",
        PlanPart.Circumstance => "circumstance",
    };

    /// <summary>In words, for instance <c>added</c>.</summary>
    public static string WordOf(PlanEffect effect) => effect switch
    {
        PlanEffect.Added => "added",
        PlanEffect.Removed => "removed",
        PlanEffect.Moved => "moved",
        PlanEffect.Changed => "changed",
    };

    private string Named => Part switch
    {
        PlanPart.Step => $"step {Name}",
        PlanPart.Reaction => $"reaction in step {Name}",
        PlanPart.Waste => $"waste into {Quoted(Name)}",
        PlanPart.Material or PlanPart.Vessel or PlanPart.Safeguard => $"{WordOf(Part)} {Quoted(Name)}",
        PlanPart.FireResponse or PlanPart.Circumstance => Name,
    };

    private string Quoted(string name) => Part is PlanPart.Step or PlanPart.Reaction ? name : $"“{name}”";
}
