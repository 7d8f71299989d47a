using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>Where the heat of the reactions of a step comes from.</summary>
/// <param name="Declared">True: the plan states it.</param>
/// <param name="Model">For the evidence.</param>
/// <param name="Words">For the sentence; empty for a stated heat.</param>
/// <param name="Quality">How good it is.</param>
/// <param name="Sources">Keys of the references.</param>
internal sealed record HeatBasis(bool Declared, string Model, string Words, Quality Quality, IReadOnlyList<string> Sources)
{
    public static HeatBasis Of(IReadOnlyList<FoundHeat> found) => found.Count == 0
        ? new HeatBasis(true, "declared heat", "", Quality.Estimated, [])
        : new HeatBasis(
            false,
            Wording.List(found.Select(static one => one.Model).Distinct(StringComparer.Ordinal)),
            " (heat not stated; estimated)",
            found.Max(static one => one.Quality),
            [.. found.SelectMany(static one => one.Sources).Distinct(StringComparer.Ordinal)]);
}
