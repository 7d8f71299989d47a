using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>One substance of an amount.</summary>
/// <param name="Substance">What.</param>
/// <param name="Mol">Amount in mol; null when it cannot be had.</param>
/// <param name="MassFraction">Mass fraction in the material as delivered, 0 to 1; null when unknown.</param>
public sealed record Portion(PlanSubstance Substance, double? Mol, double? MassFraction);

/// <summary>An amount of a material by substance.</summary>
/// <param name="Portions">In the order of the composition.</param>
/// <param name="Missing">What was missing, in words such as <c>density of acetone</c>; empty when all is known.</param>
/// <param name="Assumptions">What was assumed, in words.</param>
/// <param name="TakenAs">Which reading was chosen for substances that boil below room temperature.</param>
public readonly record struct ConvertedAmount(
    IReadOnlyList<Portion> Portions, IReadOnlyList<string> Missing, IReadOnlyList<string> Assumptions, IReadOnlyList<TakenAs> TakenAs);

/// <summary>How the volume of a substance that may be measured as liquid or as gas was read.</summary>
/// <param name="Phase">Liquid or gas.</param>
/// <param name="Words">For a sentence.</param>
public sealed record TakenAs(Phase Phase, string Words);

/// <summary>What is known of how a volume was measured; only a substance that boils below room temperature depends on it.</summary>
/// <param name="TemperatureK">Temperature of the step in K; null when nothing states one.</param>
/// <param name="AsGas">True when the plan calls the material a gas.</param>
/// <param name="RoomM3">Volume of the vessel it goes into in m³; null when that is not known.</param>
public readonly record struct Measured(double? TemperatureK, bool AsGas, double? RoomM3 = null);
