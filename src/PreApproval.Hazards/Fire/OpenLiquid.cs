using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Fire;

/// <summary>A step at which a liquid that can flash stands open.</summary>
internal sealed class OpenLiquid(StepState state, Content[] flammables, FlashPointEstimate? together, Content[] hidden)
{
    public StepState State { get; } = state;

    /// <summary>Liquids at or near their own flash point.</summary>
    public Content[] Flammables { get; } = flammables;

    /// <summary>Flash point of the liquids together, when the step is near it.</summary>
    public FlashPointEstimate? Together { get; } = together;

    /// <summary>Halogenated liquids whose vapour burns although no flash point is found.</summary>
    public Content[] Hidden { get; } = hidden;

    /// <summary>What may burn here: the near ones, else every liquid with a flash point.</summary>
    public Content[] Burning => field ??= Flammables.Length > 0 ? Flammables : Together is not null ? [.. State.Contents.Where(ContentsFlashPoint.Flashes)] : Hidden;

    /// <summary>Keys of what may burn, in order.</summary>
    public string BurningKeys => field ??= Burning.Length == 1 ? Burning[0].Substance.Key : string.Join('+', Burning.Select(static content => content.Substance.Key).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));

    /// <summary>Volume in m³ of what may burn.</summary>
    public double VolumeM3
    {
        get
        {
            Span<double> volumes = stackalloc double[Math.Min(Burning.Length, 64)];
            volumes = Burning.Length > volumes.Length ? new double[Burning.Length] : volumes;
            for (var index = 0; index < volumes.Length; index++)
            {
                volumes[index] = OpenFlammables.VolumeM3(Burning[index]);
            }

            return OrderedSum.Of(volumes);
        }
    }

    public OpenLiquid With(FlashPointEstimate? flash) => new(State, Flammables, flash, Hidden);

    /// <summary>The same at another step with the same contents at the same temperature.</summary>
    public OpenLiquid At(StepState state) => new(state, Flammables, Together, Hidden);
}
