using System.Globalization;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>Flash point of what a vessel holds, where several liquids share it. One instance serves one screening and remembers its answers.</summary>
internal sealed class ContentsFlashPoint
{
    private readonly Dictionary<string, FlashPointEstimate> _known = new(StringComparer.Ordinal);

    /// <summary>
    /// No mixture of the few liquids of a flask flashes further than this below its lowest pure flash point, in K: with activities at
    /// most 1, eight components flashing alike would come to ln 8 over a slope of about 0.05 per K. Spares cold steps the work.
    /// </summary>
    private const double ReachK = 45;

    /// <summary>
    /// The flash point of the liquids together, when the step's temperature is above it or less than a margin below, and the flash point
    /// is not above a ceiling; null otherwise, for a single liquid, and where amounts or data leave none.
    /// </summary>
    public FlashPointEstimate? NearTo(StepState state, double marginK, double ceilingK)
    {
        var liquids = state.Contents.Where(static content => content is { Spent: false, Substance.Known.PhaseAt298K: Phase.Liquid }).ToArray();
        var lowest = liquids.Where(Flashes).Min(static content => content.Substance.Known!.FlashPointK?.Governing.Value);
        if (lowest is null || state.TemperatureK < lowest - marginK - ReachK || Array.Exists(liquids, static content => content.Mol is null))
        {
            return null;
        }

        MixtureComponent[] parts =
        [
            .. liquids.Where(static content => content.Mol > 0)
                .GroupBy(static content => content.Substance.Known!.Key, StringComparer.Ordinal)
                .Select(static group => new MixtureComponent(group.First().Substance.Known!, group.Sum(static content => content.Mol!.Value))),
        ];
        if (parts.Length < 2)
        {
            return null;
        }

        var key = string.Join(' ', parts.Select(static part => string.Create(CultureInfo.InvariantCulture, $"{part.Substance.Key}={part.MoleFraction:R}")));
        if (!_known.TryGetValue(key, out var flash))
        {
            _known[key] = flash = MixtureFlashPoint.Of(new LiquidMixture(parts));
        }

        return flash.FlashPointK is { } kelvin && kelvin <= ceilingK && state.TemperatureK >= kelvin - marginK ? flash : null;
    }

    /// <summary>True for a liquid with a flash point of its own.</summary>
    public static bool Flashes(Content content) =>
        content is { Spent: false, Substance.Known: { PhaseAt298K: Phase.Liquid, FlashPointK: not null, NonFlammable: not { Value: true } } };
}
