using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// Glass that is brought from hot to cold or from cold to hot at once: 140 K between its two sides (TRGS 526, 5.2.2); for
/// thick-walled glass 80 K as a caution and 100 K as a warning (common practice, no source). Air cooling and a block that
/// ramps are slow and are no shock. Thin round borosilicate glass is frozen from the bench in liquid nitrogen and thawed in lukewarm
/// water every day: the boiling nitrogen and the ice that forms keep the difference across the glass far below that of the two.
/// </summary>
public sealed class ThermalShockScreen : IScreen
{
    private const double ThinK = 140;
    private const double ThickCautionK = 80;
    private const double ThickWarningK = 100;

    /// <summary>Up to here glass goes into any cold bath, and frozen glass into water, in K (40 °C, lukewarm). Common practice, no source.</summary>
    private const double LukewarmK = 313.15;

    /// <summary>Volume in m³ up to which that is done; larger flasks have thicker walls. Common practice, no source.</summary>
    private const double FrozenUpToM3 = 1e-3;

    /// <summary>Temperature of a cooling bath whose temperature no step states, in K: ice 0 °C, dry ice in a solvent −78 °C.</summary>
    private const double IceK = 273.15;
    private const double DryIceK = 194.65;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var last = new Dictionary<string, StepState>(StringComparer.Ordinal);
        foreach (var state in context.Walk.States)
        {
            var before = last.GetValueOrDefault(state.Vessel.Id);
            last[state.Vessel.Id] = state;
            if (Shock(state, before, context) is { } finding)
            {
                yield return finding;
            }
        }
    }

    private Finding? Shock(StepState state, StepState? before, ScreeningContext context)
    {
        if (before is null || Meeting(state, before) is not { } meeting || Math.Abs(meeting.GlassK - meeting.OtherK) is var difference && difference <= ThickCautionK)
        {
            return null;
        }

        var shape = GlassShape.Of(state.Vessel);
        if (!shape.IsGlass)
        {
            return null;
        }

        var limit = shape.ThickWalled || !shape.IsBorosilicate ? ThickCautionK : ThinK;
        if (difference <= limit || (limit >= ThinK && shape.TakesVacuum is not false && IsFreezingOrThawing(meeting, state.Vessel)))
        {
            return null;
        }

        var severity = (limit < ThinK && difference <= ThickWarningK, state.Sealed) switch
        {
            (true, false) => Severity.Caution,
            (true, true) or (false, false) or (false, true) => Severity.Warning,
        };
        var finding = new Finding
        {
            Code = "vessel.thermal-shock",
            Hazard = Hazard.Temperature,
            Severity = severity,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = $"Step {state.Step.Id} brings “{state.Vessel.Id}” at {Wording.Celsius(meeting.GlassK)} to {meeting.What} at {Wording.Celsius(meeting.OtherK)}: {Wording.Figures(difference)} K across {(limit < ThinK ? "thick or soft glass" : "glass")}, which stands {Wording.Figures(limit)} K{(state.Sealed ? ", and it is closed" : "")}; let it come to temperature in air first.",
            Evidence = [Findings.Number("temperature difference across the glass", difference, "K", limit, "temperature before the step less that of what it meets", Quality.Assumed, limit < ThinK ? "common-practice" : "trgs-526")],
        };
        if (context.IsTrial || !meeting.IsBath)
        {
            return finding;
        }

        var celsius = meeting.OtherK < meeting.GlassK ? Math.Ceiling(Wording.InCelsius(meeting.GlassK - limit)) : Math.Floor(Wording.InCelsius(meeting.GlassK + limit));
        return finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("set temperature", Findings.Step(state.Index, "temperature"), celsius, "°C", null)) };
    }

    /// <summary>Glass no warmer than lukewarm into a cold bath, or frozen glass into a bath that is no warmer.</summary>
    private static bool IsFreezingOrThawing((double GlassK, double OtherK, string What, bool IsBath) meeting, Vessel vessel) =>
        meeting.IsBath && Math.Max(meeting.GlassK, meeting.OtherK) <= LukewarmK && vessel.VolumeM3 is not > FrozenUpToM3;

    /// <summary>What meets the glass suddenly: a cold bath, a hot bath after the cold, or material at room temperature.</summary>
    private static (double GlassK, double OtherK, string What, bool IsBath)? Meeting(StepState state, StepState before)
    {
        var set = state.TemperatureStep == state.Index;
        var cold = state.Step.HeatSource switch
        {
            HeatSource.IceBath => state.Step.TemperatureK ?? IceK,
            HeatSource.CryogenicBath => state.Step.TemperatureK ?? DryIceK,
            HeatSource.MetalBlock or HeatSource.OilBath or HeatSource.WaterBath or HeatSource.SandBath or HeatSource.Hotplate or HeatSource.Mantle
                or HeatSource.Oven or HeatSource.Microwave or HeatSource.HeatGun or HeatSource.Steam or null => (double?)null,
        };
        if (cold is { } bath && bath < before.TemperatureK)
        {
            return (before.TemperatureK, bath, state.Step.HeatSource == HeatSource.IceBath ? "an ice bath" : "a cold bath", true);
        }

        // a liquid bath or a heat gun acts at once; a block, a mantle or an oven ramps
        if (set && state.Step.HeatSource is HeatSource.OilBath or HeatSource.WaterBath or HeatSource.SandBath or HeatSource.HeatGun or HeatSource.Steam && before.TemperatureK < Walk.RoomTemperatureK - 10)
        {
            return (before.TemperatureK, state.TemperatureK, "a hot bath", true);
        }

        return state.Step is { Action: StepAction.Add or StepAction.Quench, Materials.Count: > 0, OverS: null or < 60 } && before.TemperatureStep is not null && before.TemperatureK > Walk.RoomTemperatureK && !set
            ? (before.TemperatureK, Walk.RoomTemperatureK, "material from the bench", false)
            : null;
    }
}
