namespace PreApproval.Hazards.Vessels;

public static partial class ClosedVessel
{
    public static partial VesselState At(ClosedVesselInput input, double temperatureK) => throw new NotSupportedException();

    public static partial double? HighestTemperatureK(ClosedVesselInput input, double limitPaGauge) => throw new NotSupportedException();
}
