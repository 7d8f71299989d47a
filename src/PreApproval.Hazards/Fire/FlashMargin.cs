using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>The distance a liquid wants to keep below its flash point (BG RCI on TRGS 721; without spray or froth), as the policy sets it.</summary>
public static class FlashMargin
{
    /// <summary>Distance wanted in K, for a pure liquid or for a mixture; null for a halogenated one, for which no distance is valid.</summary>
    public static double? WantedK(Policy policy, bool mixture, bool halogenated)
    {
        ArgumentNullException.ThrowIfNull(policy);
        return halogenated ? null : mixture ? policy.FlashMarginMixtureK : policy.FlashMarginK;
    }

    /// <summary>True where a liquid at a temperature keeps the distance, so that no explosive atmosphere is expected over it.</summary>
    /// <param name="policy">Policy that sets the distance.</param>
    /// <param name="flashPointK">Closed-cup flash point in K.</param>
    /// <param name="temperatureK">Temperature of the liquid in K.</param>
    /// <param name="mixture">True for a mixture.</param>
    /// <param name="halogenated">True where a halogenated liquid is in it.</param>
    public static bool IsKept(Policy policy, double flashPointK, double temperatureK, bool mixture, bool halogenated) =>
        WantedK(policy, mixture, halogenated) is { } wanted && temperatureK <= flashPointK - wanted;
}
