namespace PreApproval.Hazards.Vessels;

/// <summary>The highest governing pressure on the way from one temperature to another.</summary>
internal sealed class PeakPressure
{
    private const double GridK = 10;
    private const double ToleranceK = 0.005;

    private readonly SealedCharge charge;
    private readonly double endK;
    private ModelState? state;
    private ModelState? atEnd;

    private PeakPressure(SealedCharge charge, (double K, GoverningPressure Pressure) peak, (double K, GoverningPressure Pressure) end)
    {
        this.charge = charge;
        (TemperatureK, Pressure) = peak;
        (endK, EndPressure) = end;
    }

    /// <summary>Temperature of it, in K.</summary>
    public double TemperatureK { get; }

    /// <summary>The pressure there; none when no temperature on the way gives one.</summary>
    public GoverningPressure Pressure { get; }

    /// <summary>The pressure at the end of the way.</summary>
    public GoverningPressure EndPressure { get; }

    /// <summary>The governing answer at the highest pressure, with all that a report shows; worked out when asked for.</summary>
    public ModelState State => state ??= TemperatureK == endK ? AtEnd : charge.GoverningAt(TemperatureK);

    /// <summary>The governing answer at the end of the way.</summary>
    public ModelState AtEnd => atEnd ??= charge.GoverningAt(endK);

    /// <summary>
    /// Scans the way. Within one model the pressure rises with temperature; where one hands over to another it may fall, as when
    /// liquids that stood apart mix on heating. So each hand-over between two points of a fixed grid is bisected and the pressure
    /// just before it counts. A hotter end looks at all that a cooler one looks at: the highest pressure never falls with it.
    /// </summary>
    public static PeakPressure Between(SealedCharge charge, double fromK, double toK)
    {
        var end = (K: toK, Pressure: charge.PressureAt(toK));
        var peak = end;
        if (!charge.MayHandOver(toK) || fromK >= toK)
        {
            return new PeakPressure(charge, peak, end);
        }

        // from the hot end down: no model but the equation of state gives more than the bound, and the bound rises with temperature
        var high = end;
        while (high.K > fromK)
        {
            if (!charge.EquationMayGovern(toK) && !peak.Pressure.LiquidFull && charge.BoundPaAt(high.K) <= peak.Pressure.PascalAbs)
            {
                break;
            }

            var lowK = BelowK(high.K, fromK);
            var low = (K: lowK, Pressure: charge.PressureAt(lowK));
            peak = Higher(Higher(peak, low), BeforeHandOver(charge, low, high));
            high = low;
        }

        return new PeakPressure(charge, peak, end);
    }

    /// <summary>The higher of this and a way that goes on from its end.</summary>
    public PeakPressure Then(PeakPressure next) => Pressure.Height > next.Pressure.Height ? new PeakPressure(charge, (TemperatureK, Pressure), (next.endK, next.EndPressure)) : next;

    private static double BelowK(double temperatureK, double fromK) => Math.Max((Math.Ceiling(temperatureK / GridK) - 1) * GridK, fromK);

    private static (double K, GoverningPressure Pressure) Higher((double K, GoverningPressure Pressure) one, (double K, GoverningPressure Pressure) other) =>
        other.Pressure.Height > one.Pressure.Height ? other : one;

    /// <summary>The last point before another model takes over; the cooler end where none does.</summary>
    private static (double K, GoverningPressure Pressure) BeforeHandOver(SealedCharge charge, (double K, GoverningPressure Pressure) low, (double K, GoverningPressure Pressure) high)
    {
        if (low.Pressure.Model == high.Pressure.Model)
        {
            return low;
        }

        // halving the whole cell of the grid, whatever part of it is on the way, finds the same point for every end beyond it
        var lowK = Math.Floor(low.K / GridK) * GridK;
        var highK = lowK + GridK;
        while (highK - lowK > ToleranceK)
        {
            var middleK = 0.5 * (lowK + highK);
            var before = middleK <= low.K;
            if (!before && middleK < high.K && charge.PressureAt(middleK) is var middle && middle.Model == low.Pressure.Model)
            {
                (before, low) = (true, (middleK, middle));
            }

            (lowK, highK) = before ? (middleK, highK) : (lowK, middleK);
        }

        return low;
    }
}
