using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Exploring;

/// <summary>One liquid of the vessel exchanged for the same volume of another.</summary>
/// <param name="Material">Index of the material in the document.</param>
/// <param name="Instead">What comes instead: a listed solvent.</param>
public sealed record SolventSwap(int Material, Substance Instead);

/// <summary>What is tried on a step. A null member is as planned.</summary>
public sealed record ExploredValues
{
    /// <summary>Nothing is tried.</summary>
    public static ExploredValues AsPlanned { get; } = new();

    /// <summary>Set temperature in °C.</summary>
    public double? TemperatureC { get; init; }

    /// <summary>Fill as a fraction of the vessel, reached by scaling all amounts of the procedure.</summary>
    public double? Fill { get; init; }

    /// <summary>All amounts of the procedure times this factor, where the fill is not known; else null.</summary>
    public double? Amounts { get; init; }

    /// <summary>Another kind of vessel, in words.</summary>
    public string? Kind { get; init; }

    /// <summary>Inner volume of the vessel in mL.</summary>
    public double? VolumeML { get; init; }

    /// <summary>Rated pressure of the vessel in bar above the atmosphere.</summary>
    public double? RatingBarGauge { get; init; }

    /// <summary>True where the rating is the typical one of the kind: it is tried, and not written into the draft.</summary>
    public bool RatingIsTypical { get; init; }

    public SolventSwap? Solvent { get; init; }
}
