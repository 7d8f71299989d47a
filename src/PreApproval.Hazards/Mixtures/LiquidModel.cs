namespace PreApproval.Hazards.Mixtures;

/// <summary>How the activities of a liquid were had.</summary>
public enum LiquidModel
{
    /// <summary>One substance: nothing to mix.</summary>
    Pure,

    /// <summary>Modified Raoult with UNIFAC; the liquid is one.</summary>
    OneLiquid,

    /// <summary>Modified Raoult with UNIFAC; the liquid splits in two, in equilibrium with each other.</summary>
    TwoLiquids,

    /// <summary>Modified Raoult with UNIFAC; the liquid splits in three or more, all in equilibrium with each other.</summary>
    MoreLiquids,

    /// <summary>At least one component counts as a liquid of its own: its activity is 1, the highest it can be.</summary>
    Bound,
}
