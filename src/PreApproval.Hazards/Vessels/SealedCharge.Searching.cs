using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>The governing answer as a number, without what only a report shows.</summary>
/// <param name="PascalAbs">Pressure in Pa absolute; null where no model gives one.</param>
/// <param name="LiquidFull">True when the liquid fills the vessel: above every pressure.</param>
/// <param name="Model">The model that governs.</param>
internal readonly record struct GoverningPressure(double? PascalAbs, bool LiquidFull, VesselModel Model)
{
    /// <summary>What one answer is compared with another by: a vessel full of liquid is above every pressure, an unknown one below.</summary>
    public double Height => LiquidFull ? double.PositiveInfinity : PascalAbs ?? double.NegativeInfinity;

    public static GoverningPressure Of(ModelState state) => new(state.PressurePaAbs, state.Phase == VesselPhase.LiquidFull, state.Model);
}

/// <content>Pressures for searches over temperature.</content>
internal sealed partial class SealedCharge
{
    // moved from temperature to temperature; no answer holds it
    private VesselPoint? _search;
    private bool? _isPlain;

    /// <summary>
    /// True for volatile liquids with nothing dissolved and no equation of state beside them. Then modified Raoult or the bound governs, below every critical temperature.
    /// </summary>
    private bool IsPlain => _isPlain ??= Held.Count == 0 && Dissolved.Length == 0 && CyclicEthers is null && !HasGasApart && !HasGas(Mixing) && !EquationMayEverGovern;

    /// <summary>True when the liquid fills the vessel at a temperature in K; of plain liquids without asking what it then presses with.</summary>
    public bool IsFullAt(double temperatureK) => IsPlain && Moved(temperatureK) is { Unknown.Count: 0, PastCritical.Count: 0 } point
        ? point.CondensedM3 >= VolumeM3
        : GoverningAt(temperatureK).Phase == VesselPhase.LiquidFull;

    /// <summary>Pressure of <see cref="GoverningAt"/> at a temperature in K; of plain liquids without an object for each temperature.</summary>
    public GoverningPressure PressureAt(double temperatureK)
    {
        if (!IsPlain)
        {
            return GoverningPressure.Of(GoverningAt(temperatureK));
        }

        var point = Moved(temperatureK);
        if (point.Unknown.Count > 0 || point.PastCritical.Count > 0 || point.CondensedM3 >= VolumeM3)
        {
            return GoverningPressure.Of(GoverningAt(temperatureK));
        }

        var (pascal, oneLiquid, _) = ModifiedRaoult.PressureAt(point, GasMol);
        return oneLiquid && pascal is not null
            ? new GoverningPressure(pascal, false, VesselModel.ModifiedRaoult)
            : new GoverningPressure(ImmiscibleBound.PascalAt(point, GasMol), false, VesselModel.ImmiscibleBound);
    }

    private VesselPoint Moved(double temperatureK)
    {
        _search ??= new VesselPoint(this, temperatureK);
        if (_search.TemperatureK != temperatureK)
        {
            _search.MoveTo(temperatureK);
        }

        return _search;
    }
}
