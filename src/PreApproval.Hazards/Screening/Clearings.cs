using System.Globalization;
using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>Applies a change that a finding offers.</summary>
public static class Clearings
{
    /// <summary>
    /// The plan with the change made. Lowering a set temperature lowers the surface temperature of the same step by the
    /// same difference.
    /// </summary>
    /// <exception cref="ArgumentException">The path is none that the engine offers.</exception>
    public static Plan Apply(Plan plan, Clearing clearing)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(clearing);
        if (clearing is { Text: { } text })
        {
            return clearing.Path switch
            {
                _ when clearing.IsYes && clearing.Path.Split('/') is ["", "vessels", var at, "glassTube", "annealed"] =>
                    plan with { Vessels = Replace(plan.Vessels, int.Parse(at, NumberStyles.None, CultureInfo.InvariantCulture), static vessel => vessel with { GlassTube = vessel.GlassTube! with { Annealed = true } }) },
                "/fireResponse/agents" => plan with { FireResponse = new FireResponse([.. clearing.Entries!.Select(Fire.ExtinguishingAgents.Parse)], plan.FireResponse?.Plan) },
                "/attendance" => plan with { Attendance = Enum.Parse<Attendance>(text, ignoreCase: true) },
                _ => throw new ArgumentException($"Not a change the engine can apply: {clearing.Path}", nameof(clearing)),
            };
        }

        var parts = clearing.Path.Split('/');
        if (clearing.Value is not { } value || parts.Length < 4 || !int.TryParse(parts[2], NumberStyles.None, CultureInfo.InvariantCulture, out var index))
        {
            throw new ArgumentException($"Not a change the engine can apply: {clearing.Path}", nameof(clearing));
        }

        return (parts[1], parts[3], parts.Length) switch
        {
            ("steps", "temperature", 4) => plan with { Steps = Replace(plan.Steps, index, step => SetTemperature(step, value + 273.15)) },
            ("steps", "surfaceTemperature", 4) => plan with { Steps = Replace(plan.Steps, index, step => step with { SurfaceTemperatureK = value + 273.15 }) },
            ("steps", "over", 4) => plan with { Steps = Replace(plan.Steps, index, step => step with { OverS = value * 60 }) },
            ("vessels", "rating", 4) => plan with { Vessels = Replace(plan.Vessels, index, vessel => vessel with { RatingPaGauge = value * 1e5 }) },
            ("vessels", "volume", 4) => plan with { Vessels = Replace(plan.Vessels, index, vessel => vessel with { VolumeM3 = value * 1e-6 }) },
            ("vessels", "maximumTemperature", 4) => plan with { Vessels = Replace(plan.Vessels, index, vessel => vessel with { MaximumTemperatureK = value + 273.15 }) },
            ("vessels", "relief", 5) => plan with { Vessels = Replace(plan.Vessels, index, vessel => vessel with { Relief = vessel.Relief! with { SetPaGauge = value * 1e5 } }) },
            ("vessels", "glassTube", 5) => plan with { Vessels = Replace(plan.Vessels, index, vessel => vessel with { GlassTube = vessel.GlassTube! with { WallM = value * 1e-3 } }) },
            ("vessels", "parts", 6) => plan with { Vessels = Replace(plan.Vessels, index, vessel => SetPart(vessel, parts, value)) },
            _ => throw new ArgumentException($"Not a change the engine can apply: {clearing.Path}", nameof(clearing)),
        };
    }

    /// <summary>The finding with the surface beside each lower set temperature, where the plan states one: set back alone, the temperature would leave the hot surface.</summary>
    internal static Finding WithSurfaces(Finding finding, Plan plan)
    {
        for (var offer = 0; offer < finding.ClearedBy.Count; offer++)
        {
            if (SurfaceOf(finding.ClearedBy[offer], plan) is not null)
            {
                return WithSurfaces(finding, finding.ClearedBy, plan);
            }
        }

        return finding;
    }

    private static Finding WithSurfaces(Finding finding, IReadOnlyList<Clearing> offers, Plan plan) =>
        finding with { ClearedBy = [.. offers.Select(clearing => clearing with { With = SurfaceOf(clearing, plan) })] };

    private static SurfaceWith? SurfaceOf(Clearing clearing, Plan plan)
    {
        if (clearing.Value is not { } celsius || clearing.Path.Split('/') is not ["", "steps", var step, "temperature"] || !int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out var index)
            || plan.Steps[index] is not { TemperatureK: { } before, SurfaceTemperatureK: { } surface } || before <= celsius + 273.15)
        {
            return null;
        }

        // a whole number of degrees, which the rounding of the difference must not lower by one
        return new SurfaceWith($"/steps/{step}/surfaceTemperature", Math.Floor(surface - before + celsius + 1e-6));
    }

    private static Step SetTemperature(Step step, double temperatureK)
    {
        var lowered = step.TemperatureK - temperatureK;
        return step with { TemperatureK = temperatureK, SurfaceTemperatureK = lowered > 0 ? step.SurfaceTemperatureK - lowered : step.SurfaceTemperatureK };
    }

    private static Vessel SetPart(Vessel vessel, string[] path, double value)
    {
        var index = int.Parse(path[4], NumberStyles.None, CultureInfo.InvariantCulture);
        return vessel with
        {
            Parts = Replace(vessel.Parts, index, part => path[5] switch
            {
                "rating" => part with { RatingPaGauge = value * 1e5 },
                "maximumTemperature" => part with { MaximumTemperatureK = value + 273.15 },
                _ => throw new ArgumentException($"Not a change the engine can apply: {string.Join('/', path)}", nameof(path)),
            }),
        };
    }

    private static T[] Replace<T>(IReadOnlyList<T> list, int index, Func<T, T> change) =>
        [.. list.Select((entry, position) => position == index ? change(entry) : entry)];
}
