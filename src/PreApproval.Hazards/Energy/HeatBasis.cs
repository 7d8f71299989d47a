using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>Where the heat of the reactions of a step comes from.</summary>
/// <param name="Model">For the evidence.</param>
/// <param name="Words">For the sentence; empty for a stated heat.</param>
/// <param name="Quality">How good it is.</param>
/// <param name="Sources">Keys of the references.</param>
internal sealed record HeatBasis(string Model, string Words, Quality Quality, IReadOnlyList<string> Sources)
{
    public static HeatBasis Of(bool declared, IReadOnlyList<FoundHeat> found) => found.Count == 0
        ? new HeatBasis(DeclaredHeat, "", Quality.Estimated, [])
        : new HeatBasis(
            Wording.List((declared ? [DeclaredHeat] : Array.Empty<string>()).Concat(found.Select(static one => one.Model)).Distinct(StringComparer.Ordinal)),
            declared ? " (heat of one reaction stated, of another estimated)" : " (heat not stated; estimated)",
            found.Max(static one => one.Quality),
            [.. found.SelectMany(static one => one.Sources).Distinct(StringComparer.Ordinal)]);

    private const string DeclaredHeat = "declared heat";
}
