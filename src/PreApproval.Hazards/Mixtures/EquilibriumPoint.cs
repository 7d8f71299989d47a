using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>A bubble or dew point: temperature, pressure and both compositions, or why there is none.</summary>
public sealed record EquilibriumPoint
{
    /// <summary>Temperature in K; null where there is no answer.</summary>
    public double? TemperatureK { get; init; }

    /// <summary>Pressure in Pa absolute; null where there is no answer.</summary>
    public double? PressurePaAbs { get; init; }

    /// <summary>Mole fractions of the vapour in the order of the parts; null where there is no answer.</summary>
    public IReadOnlyList<double>? VapourMoleFractions { get; init; }

    /// <summary>Mole fractions of the liquid (of the first drop, at a dew point) in the order of the parts.</summary>
    public IReadOnlyList<double>? LiquidMoleFractions { get; init; }

    /// <summary>How the activities were had; null where there is no answer.</summary>
    public LiquidModel? Model { get; init; }

    /// <summary>The liquids where the liquid splits, among the components with groups; empty where it is one.</summary>
    public IReadOnlyList<LiquidPhase> Liquids { get; init; } = [];

    /// <summary>Worst quality of what went in.</summary>
    public Quality Quality { get; init; }

    /// <summary>Keys of <c>sources.bib</c>.</summary>
    public IReadOnlyList<string> Sources { get; init; } = [];

    /// <summary>What a reader must know of the answer.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>Why there is no answer; null where there is one.</summary>
    public string? Because { get; init; }

    internal static EquilibriumPoint None(string because) => new() { Because = because };
}
