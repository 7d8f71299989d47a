namespace PreApproval.Hazards.Fire;

/// <summary>The distance a liquid wants to keep below its flash point (BG RCI on TRGS 721; without spray or froth).</summary>
public static class FlashMargin
{
    /// <summary>Distance wanted in K: 5 for a pure liquid, 15 for a mixture; null for a halogenated one, for which no distance is valid.</summary>
    public static double? WantedK(bool mixture, bool halogenated) =>
        halogenated ? null : mixture ? FireThresholds.MixtureMarginK : FireThresholds.PureMarginK;

    /// <summary>True where a liquid at a temperature keeps the distance, so that no explosive atmosphere is expected over it.</summary>
    /// <param name="flashPointK">Closed-cup flash point in K.</param>
    /// <param name="temperatureK">Temperature of the liquid in K.</param>
    /// <param name="mixture">True for a mixture.</param>
    /// <param name="halogenated">True where a halogenated liquid is in it.</param>
    public static bool IsKept(double flashPointK, double temperatureK, bool mixture, bool halogenated) =>
        WantedK(mixture, halogenated) is { } wanted && temperatureK <= flashPointK - wanted;
}
