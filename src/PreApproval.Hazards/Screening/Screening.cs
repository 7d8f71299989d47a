using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>Runs every screen over a plan. Pure and thread-safe: no clock, no network, no random numbers.</summary>
public static partial class Screener
{
    /// <summary>Version of the engine, a constant.</summary>
    public const string EngineVersion = "1.0.0";

    /// <summary>Screens a plan.</summary>
    public static partial Report Screen(Plan plan, Policy policy);
}
