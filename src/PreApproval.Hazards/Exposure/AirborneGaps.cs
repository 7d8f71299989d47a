using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Exposure;

/// <summary>What stands open with an exposure limit on file and cannot be held against it: said in a notice, outside a hood. docs/methods/airborne.md.</summary>
internal static class AirborneGaps
{
    /// <summary>The notice; null where there is no gap, or in a hood.</summary>
    public static Finding? Find(ScreeningContext context)
    {
        if (context.Plan.Place?.Kind is PlaceKind.Hood or PlaceKind.HoodWithScrubber)
        {
            return null;
        }

        SortedDictionary<string, (Content Content, string Why)>? found = null;
        var steps = new List<string>();
        foreach (var state in context.Walk.States)
        {
            for (var index = 0; index < state.Contents.Count; index++)
            {
                if (state.Contents[index] is { Spent: false, Mol: null or > 0, Substance.Known: { Involatile: false, ExposureLimits: { } limits } known } content
                    && !(DissolvedGas.Pa(state, content) is not null && limits.All.Any(static limit => limit.Ppm is > 0))
                    && Why(known, limits, state.TemperatureK, AirborneScreen.IsLiquid(content, state)) is { } why && OpenSurface.M2(state) is not null)
                {
                    (found ??= new(StringComparer.Ordinal)).TryAdd(content.Substance.Key, (content, why));
                    steps.Add(state.Step.Id);
                }
            }
        }

        return found is null
            ? null
            : new Finding
            {
                Code = "data.airborne-not-checked",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Steps = [.. steps.Distinct(StringComparer.Ordinal)],
                Materials = Findings.Ids(found.Values.Select(static one => one.Content)),
                Statement = $"What people would breathe of {Wording.List(found.Values.Select(static one => $"{one.Content.Substance.Name} ({one.Why})"))} beside an open vessel is not held against the exposure limits on file.",
            };
    }

    /// <summary>Why the ratio cannot be had; null when it can, or when hardly anything evaporates.</summary>
    private static string? Why(Substance known, ExposureLimits limits, double temperatureK, bool isLiquid)
    {
        if (known.PhaseAt298K == Phase.Gas && !isLiquid)
        {
            return "a gas in the vessel, whose loss is not modelled";
        }

        if (!isLiquid
            || (known.BoilingPointK is { } boils && HealthBand.At(boils.Value - 273.15, temperatureK - 273.15) == Evaporability.Low))
        {
            return null;
        }

        return VapourPressure.At(known, temperatureK) is not { Volatility: Volatility.Condensable } ? "no vapour pressure on file"
            : limits.All.Any(static limit => limit.Ppm is > 0) ? null
            : "limits only in mg/m³";
    }
}
