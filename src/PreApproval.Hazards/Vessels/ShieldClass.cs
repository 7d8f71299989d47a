using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>What stands between a vessel and people, by its stored energy. Common practice, no source: docs/methods/stored-energy.md.</summary>
public enum ShieldClass
{
    /// <summary>Eye protection and the closed sash.</summary>
    Sash,

    /// <summary>A blast shield in front.</summary>
    Shield,

    /// <summary>A fixed shield or a cell, worked from outside.</summary>
    Cell,

    /// <summary>An engineered cell, or a vessel built to a pressure code with relief.</summary>
    Engineered,
}

/// <summary>Reads the bands.</summary>
public static class ShieldClasses
{
    /// <summary>The class of a stored energy in J.</summary>
    public static ShieldClass Of(double energyJ, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        return energyJ < policy.ShieldFromJ ? ShieldClass.Sash
            : energyJ < policy.CellFromJ ? ShieldClass.Shield
            : energyJ <= policy.EngineeredFromJ ? ShieldClass.Cell
            : ShieldClass.Engineered;
    }

    /// <summary>For sentences.</summary>
    public static string Words(ShieldClass shield) => shield switch
    {
        ShieldClass.Sash => "eye protection behind the closed sash",
        ShieldClass.Shield => "a blast shield",
        ShieldClass.Cell => "a fixed shield or cell, worked from outside",
        ShieldClass.Engineered => "an engineered cell, or a vessel built to a pressure code with relief",
    };
}
