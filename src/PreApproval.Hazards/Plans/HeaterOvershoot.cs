using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Plans;

/// <summary>
/// How far above the set temperature a heat source can take the contents. The margins are the group's (<see cref="Policy.OvershootK"/>,
/// <see cref="Policy.OvershootWithCutOutK"/>; common practice, no source); water and steam at atmospheric pressure cannot go beyond 100 °C, and a cold
/// bath only warms to the room. Table and grounds: docs/methods/walk.md.
/// </summary>
public static class HeaterOvershoot
{
    /// <summary>Boiling point of water at 101 325 Pa in K: an open water bath or steam goes no higher.</summary>
    public const double WaterBoilsK = 373.15;

    /// <summary>Up to here a water bath needs no heater, in K (25 °C).</summary>
    private const double RoomK = 298.15;

    /// <summary>True where a surface can heat the contents: heat flows to them only from what is at least as hot. The slack is for the conversion of units.</summary>
    /// <param name="surfaceK">Hottest surface as stated, in K.</param>
    /// <param name="contentsK">Set temperature of the contents in K.</param>
    public static bool CanHeat(double surfaceK, double contentsK) => surfaceK >= contentsK - 1e-6;

    /// <summary>Overshoot in K, 0 or more.</summary>
    /// <param name="source">Heat source; null: not stated, which counts as a block.</param>
    /// <param name="setTemperatureK">Set temperature of the contents in K.</param>
    /// <param name="independentCutOut">True where an independent cut-out is fitted.</param>
    /// <param name="policy">The group's margins.</param>
    public static double K(HeatSource? source, double setTemperatureK, bool independentCutOut, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        var margin = independentCutOut ? policy.OvershootWithCutOutK : policy.OvershootK;
        return source is not { } known ? margin : known switch
        {
            HeatSource.MetalBlock or HeatSource.OilBath or HeatSource.SandBath or HeatSource.Hotplate or HeatSource.Mantle or HeatSource.Oven
                or HeatSource.Microwave or HeatSource.HeatGun => margin,
            // set above 100 °C it is no open water bath, whatever the plan calls it
            // a water bath no warmer than the room has no heater on
            HeatSource.WaterBath when setTemperatureK <= RoomK => 0,
            HeatSource.WaterBath or HeatSource.Steam => setTemperatureK > WaterBoilsK ? margin : Math.Min(margin, WaterBoilsK - setTemperatureK),
            HeatSource.IceBath or HeatSource.CryogenicBath => 0,
        };
    }

    /// <summary>Why the margin is what it is, for a sentence.</summary>
    public static string Basis(HeatSource? source) => source is not { } known ? "the heat source is not stated, so it counts as a block" : known switch
    {
        HeatSource.MetalBlock or HeatSource.SandBath => "a block stores heat and runs past the set temperature",
        HeatSource.OilBath => "a bath runs past the set temperature, more so when stirring fails",
        HeatSource.Hotplate or HeatSource.Mantle => "the element is far hotter than the contents",
        HeatSource.Oven => "the air of an oven varies from place to place",
        HeatSource.Microwave => "a microwave field heats unevenly",
        HeatSource.HeatGun => "the air of a heat gun is above 300 °C and nothing holds it at a set temperature",
        HeatSource.WaterBath or HeatSource.Steam => "an open water bath or steam goes no higher than 100 °C",
        HeatSource.IceBath or HeatSource.CryogenicBath => "a cold bath only warms to the room",
    };
}
