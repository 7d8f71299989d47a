using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Plans;

/// <summary>One substance over two liquid layers.</summary>
/// <param name="Substance">What.</param>
/// <param name="AqueousMol">Mol in the layer richer in water.</param>
/// <param name="OrganicMol">Mol in the other.</param>
public sealed record LayerShare(PlanSubstance Substance, double AqueousMol, double OrganicMol);

/// <summary>
/// The liquids of a vessel as layers: liquid–liquid equilibrium of original UNIFAC over what has groups on file. Salts and solids
/// are left out, which understates how far they drive the layers apart.
/// </summary>
/// <param name="Shares">By substance; empty when the liquids mix.</param>
/// <param name="Mix">True: one liquid. False: two. Null: cannot be said.</param>
/// <param name="Because">Why it cannot be said; null otherwise.</param>
public sealed record LiquidLayers(IReadOnlyList<LayerShare> Shares, bool? Mix, string? Because)
{
    private const string Water = "7732-18-5";

    private static readonly LiquidLayers One = new([], true, null);

    /// <summary>Layers of the contents at a temperature in K (above 0). Never throws on contents of a walk.</summary>
    public static LiquidLayers Of(IReadOnlyList<Content> contents, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(contents);
        if (IsOneLiquid(contents))
        {
            return One;
        }

        var liquids = Liquids(contents);

        if (Array.Exists(liquids, static liquid => liquid.Mol is null))
        {
            return new LiquidLayers([], null, "an amount is not known");
        }

        if (Array.Find(liquids, static liquid => liquid.Substance.Known!.UnifacGroups is null) is { Substance: { } without })
        {
            return new LiquidLayers([], null, $"no groups are on file for {without.Name}");
        }

        var mixture = new LiquidMixture(Array.ConvertAll(liquids, static liquid => new MixtureComponent(liquid.Substance.Known!, liquid.Mol!.Value)));
        if (mixture.Gaps.Count > 0)
        {
            return new LiquidLayers([], null, "parameters between their groups are missing");
        }

        var state = mixture.At(temperatureK);
        if (state.Liquids is not [var one, var other])
        {
            return state.Model switch
            {
                LiquidModel.MoreLiquids => new LiquidLayers([], null, "the computed layers are more than two"),
                LiquidModel.Bound => new LiquidLayers([], null, "the layers could not be computed"),
                LiquidModel.Pure or LiquidModel.OneLiquid or LiquidModel.TwoLiquids => new LiquidLayers([], true, null),
            };
        }

        var water = Array.FindIndex(liquids, static liquid => liquid.Substance.Known!.Identity.Cas is Water);
        var parts = mixture.MixingParts;
        var place = new int[liquids.Length];
        for (var index = 0; index < parts.Count; index++)
        {
            place[parts[index]] = index;
        }

        var secondIsAqueous = water >= 0 && other.MoleFractions[place[water]] > one.MoleFractions[place[water]];
        return new LiquidLayers(
            [
                .. liquids.Select((liquid, index) =>
                {
                    var first = one.Share * one.MoleFractions[place[index]];
                    var second = other.Share * other.MoleFractions[place[index]];
                    var inSecond = first + second > 0 ? liquid.Mol!.Value * second / (first + second) : 0;
                    var inFirst = liquid.Mol!.Value - inSecond;
                    return secondIsAqueous ? new LayerShare(liquid.Substance, inSecond, inFirst) : new LayerShare(liquid.Substance, inFirst, inSecond);
                }),
            ],
            false,
            null);
    }

    private static bool IsLiquid(Content content) => content is { Mol: null or > 0, Substance.Known: { PhaseAt298K: Phase.Liquid, Involatile: false } };

    /// <summary>No liquid, or no more than one substance that is.</summary>
    private static bool IsOneLiquid(IReadOnlyList<Content> contents)
    {
        string? first = null;
        for (var index = 0; index < contents.Count; index++)
        {
            if (!IsLiquid(contents[index]))
            {
                continue;
            }

            first ??= contents[index].Substance.Key;
            if (!string.Equals(first, contents[index].Substance.Key, StringComparison.Ordinal))
            {
                return false;
            }
        }

        return true;
    }

    private static (PlanSubstance Substance, double? Mol)[] Liquids(IReadOnlyList<Content> contents)
    {
        var liquids = new List<(PlanSubstance Substance, double? Mol)>(contents.Count);
        for (var index = 0; index < contents.Count; index++)
        {
            var content = contents[index];
            if (!IsLiquid(content))
            {
                continue;
            }

            var at = 0;
            while (at < liquids.Count && !string.Equals(liquids[at].Substance.Key, content.Substance.Key, StringComparison.Ordinal))
            {
                at++;
            }

            if (at < liquids.Count)
            {
                liquids[at] = (liquids[at].Substance, liquids[at].Mol + content.Mol);
            }
            else
            {
                liquids.Add((content.Substance, content.Mol));
            }
        }

        return [.. liquids];
    }
}
