using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <content>The distances to the flash points, as evidence and in words.</content>
internal static partial class OpenFlammables
{
    /// <summary>How far the step is below each flash point, and how far it should be, in K.</summary>
    private static List<(double BelowK, double WantedK)> Distances(OpenLiquid open, Policy policy)
    {
        var distances = new List<(double BelowK, double WantedK)>(open.Flammables.Length + 1);
        foreach (var content in open.Flammables)
        {
            distances.Add((content.Substance.Known!.FlashPointK!.Governing.Value - open.State.TemperatureK, policy.FlashMarginK));
        }

        if (open.Together is { FlashPointK: { } together })
        {
            distances.Add((together - open.State.TemperatureK, policy.FlashMarginMixtureK));
        }

        return distances;
    }

    /// <summary>How far the step is below the lowest flash point, in K; null where there is none.</summary>
    private static double? LeastBelowK(OpenLiquid open)
    {
        var least = open.Together?.FlashPointK;
        foreach (var content in open.Flammables)
        {
            least = Math.Min(least ?? double.PositiveInfinity, content.Substance.Known!.FlashPointK!.Governing.Value);
        }

        return least - open.State.TemperatureK;
    }

    /// <summary>The distances as evidence.</summary>
    private static List<Evidence> Margins(OpenLiquid open, Policy policy)
    {
        var evidence = new List<Evidence>(open.Flammables.Length + 2);
        foreach (var content in Distinct(open.Flammables))
        {
            var flash = content.Substance.Known!.FlashPointK!.Governing;
            evidence.Add(Margin(content.Substance.Name, flash.Value, open.State.TemperatureK, policy.FlashMarginK, [References.OfLimit("trgs-721", policy.FlashMarginK, Policy.Default.FlashMarginK), .. References.Full(flash.Sources)], flash.Quality));
        }

        if (open.Together is { FlashPointK: { } together } estimate)
        {
            evidence.Add(Margin("the liquids together", together, open.State.TemperatureK, policy.FlashMarginMixtureK, [References.OfLimit("trgs-721", policy.FlashMarginMixtureK, Policy.Default.FlashMarginMixtureK), .. estimate.Sources], estimate.Quality));
        }

        if (open.Together is { } flashed)
        {
            evidence.Add(Evidence(flashed));
        }

        return evidence;
    }

    /// <summary>The first of each substance, in the order of the keys.</summary>
    private static List<Content> Distinct(Content[] contents)
    {
        var firsts = new List<Content>(contents.Length);
        foreach (var content in contents)
        {
            var at = 0;
            while (at < firsts.Count && string.CompareOrdinal(firsts[at].Substance.Key, content.Substance.Key) < 0)
            {
                at++;
            }

            if (at == firsts.Count || !string.Equals(firsts[at].Substance.Key, content.Substance.Key, StringComparison.Ordinal))
            {
                firsts.Insert(at, content);
            }
        }

        return firsts;
    }

    private static Evidence Margin(string name, double flashK, double temperatureK, double limitK, IReadOnlyList<string> sources, Quality quality) => new()
    {
        Name = $"{BelowFlashPoint} of {name}",
        Quantity = BelowFlashPoint,
        Worse = WorseWhen.Lower,
        Value = flashK - temperatureK,
        Unit = "K",
        Limit = limitK,
        Model = "flash point less temperature of the step",
        Sources = sources,
        Quality = quality,
    };

    // The pure liquids count beside the mixture: it separates, boils down and is stirred up as it stands open.
    private static string Nearness(OpenLiquid open, Policy policy)
    {
        if (open.Together is not { FlashPointK: { } flash } || open.Flammables.Length == 0)
        {
            return open.Together?.FlashPointK is { } only
                ? $"is above or within {Wording.Text(policy.FlashMarginMixtureK)} K of the flash point of the liquids together, about {Wording.Celsius(only)}"
                : Array.TrueForAll(open.Flammables, content => IsWithin(content, open.State.TemperatureK, policy))
                    ? $"is above or within {Wording.Text(policy.FlashMarginK)} K of its flash point"
                    : "is halogenated and has a flash point";
        }

        return $"is above or within {Wording.Text(policy.FlashMarginK)} K of its flash point, and the liquids together flash at about {Wording.Celsius(flash)}";
    }

    private static Evidence Evidence(FlashPointEstimate flash) => new()
    {
        Name = "flash point of the liquids together",
        Worse = WorseWhen.Lower,
        Value = Wording.InCelsius(flash.FlashPointK!.Value),
        Unit = "°C",
        Model = flash.Liquid == LiquidModel.Bound ? "Liaw's rule with every liquid at its full vapour pressure: a lower bound" : flash.FromMeasuredPair ? "Liaw's rule with the measured equilibrium of the pair" : "Liaw's rule with original UNIFAC",
        Sources = flash.Sources,
        Quality = flash.Quality,
    };
}
