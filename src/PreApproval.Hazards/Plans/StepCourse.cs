namespace PreApproval.Hazards.Plans;

/// <summary>What happened to a vessel in one step, as the walk saw it. The members are those of <see cref="StepState"/>.</summary>
internal readonly struct StepCourse
{
    public StepCourse()
    {
    }

    /// <summary>Contents before the declared reactions.</summary>
    public required IReadOnlyList<Content> Before { get; init; }

    /// <summary>What the declared reactions have left.</summary>
    public required IReadOnlyList<Content> Remaining { get; init; }

    public required IReadOnlyList<GasMade> Gases { get; init; }

    public required IReadOnlyList<Reaction> Reactions { get; init; }

    public ReactionHeat? Heat { get; init; }

    public StepState? ClosedBefore { get; init; }

    public IReadOnlyList<Addition> Additions { get; init; } = [];

    public IReadOnlyList<Content> Evaporated { get; init; } = [];

    public bool LeftDry { get; init; }

    public IReadOnlyList<Content> MovedIn { get; init; } = [];
}
