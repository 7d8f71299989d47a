namespace PreApproval.Hazards.Vessels;

/// <summary>The highest governing pressure on the way from one temperature to another.</summary>
/// <param name="TemperatureK">Temperature of it, in K.</param>
/// <param name="State">The governing answer there; the pressure is null when no temperature on the way gives one.</param>
/// <param name="AtEnd">The governing answer at the end of the way.</param>
internal sealed record PeakPressure(double TemperatureK, ModelState State, ModelState AtEnd)
{
    private const double GridK = 10;
    private const double ToleranceK = 0.005;

    /// <summary>
    /// Scans the way. Within one model the pressure rises with temperature; where one hands over to another it may fall, as when
    /// liquids that stood apart mix on heating. So each hand-over between two points of a fixed grid is bisected and the pressure
    /// just before it counts. A hotter end looks at all that a cooler one looks at: the highest pressure never falls with it.
    /// </summary>
    public static PeakPressure Between(SealedCharge charge, double fromK, double toK)
    {
        var atEnd = charge.GoverningAt(toK);
        var peak = new PeakPressure(toK, atEnd, atEnd);
        if (!charge.MayHandOver(toK) || fromK >= toK)
        {
            return peak;
        }

        // from the hot end down: no model but the equation of state gives more than the bound, and the bound rises with temperature
        var high = (TemperatureK: toK, State: atEnd);
        while (high.TemperatureK > fromK)
        {
            if (!charge.EquationMayGovern(toK) && peak.State.Phase != VesselPhase.LiquidFull && charge.BoundPaAt(high.TemperatureK) <= peak.State.PressurePaAbs)
            {
                break;
            }

            var lowK = BelowK(high.TemperatureK, fromK);
            var low = (TemperatureK: lowK, State: charge.GoverningAt(lowK));
            peak = peak.With(lowK, low.State).WithHandOver(charge, low, high);
            high = low;
        }

        return peak;
    }

    private static double BelowK(double temperatureK, double fromK) => Math.Max((Math.Ceiling(temperatureK / GridK) - 1) * GridK, fromK);

    /// <summary>What one answer is compared with another by: a vessel full of liquid is above every pressure, an unknown one below.</summary>
    internal static double Height(ModelState state) => state.Phase == VesselPhase.LiquidFull ? double.PositiveInfinity : state.PressurePaAbs ?? double.NegativeInfinity;

    private PeakPressure With(double temperatureK, ModelState state) => Height(state) > Height(State) ? this with { TemperatureK = temperatureK, State = state } : this;

    private PeakPressure WithHandOver(SealedCharge charge, (double TemperatureK, ModelState State) low, (double TemperatureK, ModelState State) high)
    {
        if (low.State.Model == high.State.Model)
        {
            return this;
        }

        // halving the whole cell of the grid, whatever part of it is on the way, finds the same point for every end beyond it
        var lowK = Math.Floor(low.TemperatureK / GridK) * GridK;
        var highK = lowK + GridK;
        while (highK - lowK > ToleranceK)
        {
            var middleK = 0.5 * (lowK + highK);
            var before = middleK <= low.TemperatureK;
            if (!before && middleK < high.TemperatureK && charge.GoverningAt(middleK) is var middle && middle.Model == low.State.Model)
            {
                (before, low) = (true, (middleK, middle));
            }

            (lowK, highK) = before ? (middleK, highK) : (lowK, middleK);
        }

        return With(low.TemperatureK, low.State);
    }
}
