namespace PreApproval.Hazards.Exposure;

/// <summary>
/// Volume fractions at the breathing zone beside a steady source. SI units. On the bench: a near field of moving air in a well-mixed room, C = G/Q + G/β with β = ½ s 2πr² (M. Nicas, Am. Ind. Hyg. Assoc. J. 1996,
/// 57, 542). In a hood: the leakage that a tracer test lets pass, 0.1 ppm for 4 L/min (ANSI/ASSP Z9.5 with ASHRAE 110, as used). Both from memory; docs/methods/airborne.md has examples.
/// </summary>
public static class BreathingZone
{
    /// <summary>Air changes of a laboratory per hour where the plan states no flow. Common practice, no source.</summary>
    public const double AirChangesPerHour = 4;

    /// <summary>Radius in m of the near field, about an arm's length. Common practice, no source.</summary>
    public const double NearFieldRadiusM = 0.8;

    /// <summary>Speed in m/s of the random motion of indoor air (3.6 m/min; usual value of the near-field model, from memory).</summary>
    public const double IndoorAirMPerS = 0.06;

    /// <summary>Volume fraction that a hood may let through for each m³/s released in it: 0.1 ppm for 4 L/min.</summary>
    public const double HoodFractionPerM3PerS = 0.1e-6 / (4e-3 / 60);

    private const double SecondsPerHour = 3600;

    /// <summary>Flow in m³/s between the near field and the room: half of the air that passes the surface of a hemisphere on the bench.</summary>
    public static double NearFieldFlowM3PerS => 0.5 * IndoorAirMPerS * 2 * Math.PI * NearFieldRadiusM * NearFieldRadiusM;

    /// <summary>Air flow in m³/s of a room with the usual air changes.</summary>
    /// <param name="roomM3">Volume in m³.</param>
    public static double RoomFlowM3PerS(double roomM3) => roomM3 * AirChangesPerHour / SecondsPerHour;

    /// <summary>Volume fraction on the bench; at most 1.</summary>
    /// <param name="sourceM3PerS">Vapour released in m³/s.</param>
    /// <param name="roomFlowM3PerS">Fresh air of the room in m³/s, above 0.</param>
    public static double OnBench(double sourceM3PerS, double roomFlowM3PerS) => Math.Min(1, (sourceM3PerS / roomFlowM3PerS) + (sourceM3PerS / NearFieldFlowM3PerS));

    /// <summary>Volume fraction before a hood that holds its test; at most 1.</summary>
    /// <param name="sourceM3PerS">Vapour released in m³/s.</param>
    public static double BeforeHood(double sourceM3PerS) => Math.Min(1, sourceM3PerS * HoodFractionPerM3PerS);
}
