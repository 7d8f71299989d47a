using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>Flash point of what a vessel holds, where several liquids share it. One instance serves one screening and remembers its answers.</summary>
internal sealed class ContentsFlashPoint
{
    private readonly List<(MixtureComponent[] Parts, FlashPointEstimate Flash)> _ofParts = [];
    private Dictionary<string, FlashPointEstimate>? _inAnyAmounts;

    /// <summary>
    /// No mixture of the few liquids of a flask flashes further than this below its lowest pure flash point, in K: with activities at
    /// most 1, eight components flashing alike would come to ln 8 over a slope of about 0.05 per K. Spares cold steps the work.
    /// </summary>
    private const double ReachK = 45;

    /// <summary>
    /// The flash point of the liquids together, when the step's temperature is above it or less than a margin below, and the flash point
    /// is not above a ceiling; null otherwise, for a single liquid, and where data leave none. Without an amount: the lowest that any amounts can have.
    /// </summary>
    public FlashPointEstimate? NearTo(StepState state, double marginK, double ceilingK)
    {
        if (!(state.TemperatureK >= LowestK(state) - marginK - ReachK))
        {
            return null;
        }

        var liquids = Liquids(state.Contents);

        if (!Array.Exists(liquids, static content => !Flashes(content) && !VapourLimits.DoesNotBurn(content.Substance.Known!)) && CannotFlash(liquids, state.TemperatureK + marginK))
        {
            return null;
        }

        if (Array.Exists(liquids, static content => content.Mol is null))
        {
            return InAnyAmounts(liquids) is { FlashPointK: { } bound } lowestOfAll && bound <= ceilingK && state.TemperatureK > bound - marginK ? lowestOfAll : null;
        }

        var parts = Parts(liquids);
        if (parts.Length < 2)
        {
            return null;
        }

        if (Known(parts) is not { } flash)
        {
            var mixture = new LiquidMixture(parts);
            if (!ReachesOne(mixture, state.TemperatureK + marginK))
            {
                return null;
            }

            flash = MixtureFlashPoint.Of(mixture);
            _ofParts.Add((parts, flash));
        }

        return flash.FlashPointK is { } kelvin && kelvin <= ceilingK && state.TemperatureK > kelvin - marginK ? flash : null;
    }

    private static Content[] Liquids(IReadOnlyList<Content> contents)
    {
        var liquids = new Content[contents.Count];
        var count = 0;
        for (var index = 0; index < contents.Count; index++)
        {
            if (contents[index] is { Spent: false, Substance.Known.PhaseAt298K: Phase.Liquid } liquid)
            {
                liquids[count++] = liquid;
            }
        }

        return count == liquids.Length ? liquids : liquids[..count];
    }

    /// <summary>Each substance once, in the order of the keys, with its amount in mol.</summary>
    private static MixtureComponent[] Parts(Content[] liquids)
    {
        var parts = new List<MixtureComponent>(liquids.Length);
        foreach (var liquid in liquids)
        {
            if (!(liquid.Mol > 0))
            {
                continue;
            }

            var known = liquid.Substance.Known!;
            var at = 0;
            while (at < parts.Count && string.CompareOrdinal(parts[at].Substance.Key, known.Key) < 0)
            {
                at++;
            }

            if (at < parts.Count && string.Equals(parts[at].Substance.Key, known.Key, StringComparison.Ordinal))
            {
                parts[at] = parts[at] with { MoleFraction = parts[at].MoleFraction + liquid.Mol.Value };
            }
            else
            {
                parts.Insert(at, new MixtureComponent(known, liquid.Mol.Value));
            }
        }

        return [.. parts];
    }

    private FlashPointEstimate? Known(MixtureComponent[] parts)
    {
        foreach (var (known, flash) in _ofParts)
        {
            if (known.AsSpan().SequenceEqual(parts))
            {
                return flash;
            }
        }

        return null;
    }

    /// <summary>The lowest flash point of the liquids, each by itself, in K; null without one.</summary>
    private static double? LowestK(StepState state)
    {
        double? lowest = null;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (Flashes(state.Contents[index]))
            {
                lowest = Math.Min(lowest ?? double.PositiveInfinity, state.Contents[index].Substance.Known!.FlashPointK!.Governing.Value);
            }
        }

        return lowest;
    }

    private FlashPointEstimate? InAnyAmounts(Content[] liquids)
    {
        Substance[] distinct = [.. liquids.Where(static content => content.Mol is null or > 0).Select(static content => content.Substance.Known!).DistinctBy(static known => known.Key, StringComparer.Ordinal)];
        if (distinct.Length < 2)
        {
            return null;
        }

        var key = string.Join(' ', distinct.Select(static known => known.Key).Order(StringComparer.Ordinal));
        _inAnyAmounts ??= new(StringComparer.Ordinal);
        if (!_inAnyAmounts.TryGetValue(key, out var flash))
        {
            _inAnyAmounts[key] = flash = MixtureFlashPoint.InAnyAmounts(distinct);
        }

        return flash;
    }

    /// <summary>
    /// In a stable liquid no activity is above 1: where Σ Psat_i(T)/Psat_i(T_fp,i) over the liquids with a flash point stays below 1, the sum
    /// of Liaw's rule does too. Spares the activities; false where a vapour pressure is missing.
    /// </summary>
    private static bool CannotFlash(Content[] liquids, double temperatureK)
    {
        double sum = 0;
        for (var index = 0; index < liquids.Length; index++)
        {
            var substance = liquids[index].Substance.Known!;
            if (!Flashes(liquids[index]) || Array.FindIndex(liquids, other => string.Equals(other.Substance.Known!.Key, substance.Key, StringComparison.Ordinal)) < index)
            {
                continue;
            }

            var here = VapourPressure.At(substance, temperatureK);
            var flashing = VapourPressure.At(substance, substance.FlashPointK!.Governing.Value);
            if (here.Volatility != Volatility.Condensable || flashing.Volatility != Volatility.Condensable)
            {
                return false;
            }

            sum += here.Pascal / flashing.Pascal;
        }

        return sum < 1;
    }

    /// <summary>
    /// Liaw's sum at one temperature with the activities of a single liquid, before the flash point itself is searched for. Where a liquid
    /// splits the single liquid's activities are too high, which errs to the safe side. True where the sum cannot be had.
    /// </summary>
    private static bool ReachesOne(LiquidMixture mixture, double temperatureK)
    {
        if (mixture.Held.Count > 0)
        {
            return true;
        }

        var activities = mixture.At(temperatureK, maySplit: false).Activities;
        double sum = 0;
        for (var i = 0; i < mixture.Parts.Count; i++)
        {
            var substance = mixture.Parts[i].Substance;
            if (VapourLimits.DoesNotBurn(substance) || mixture.LeftOut.Contains(i))
            {
                continue;
            }

            if (substance.FlashPointK?.Governing is not { } flash)
            {
                return true;
            }

            var here = VapourPressure.At(substance, temperatureK);
            var flashing = VapourPressure.At(substance, flash.Value);
            if (here.Volatility != Volatility.Condensable || flashing.Volatility != Volatility.Condensable)
            {
                return true;
            }

            sum += activities[i] * here.Pascal / flashing.Pascal;
        }

        return sum >= 1;
    }

    /// <summary>True for a liquid with a flash point of its own.</summary>
    public static bool Flashes(Content content) =>
        content is { Spent: false, Substance.Known: { PhaseAt298K: Phase.Liquid, FlashPointK: not null, NonFlammable: not { Value: true } } };
}
