namespace PreApproval.Hazards.Vessels;

/// <summary>
/// How ratings fall with temperature. A stamp holds up to the temperature beside it. A metal vessel rated without a temperature is taken as rated cold and followed down the table for
/// austenitic steel; seals and liners have service limits of their own. Grounds: docs/methods/ratings.md.
/// </summary>
public static class RatingByTemperature
{
    /// <summary>Up to here a cold rating holds in full, in K (38 °C).</summary>
    public const double ColdK = 311.15;

    /// <summary>Pressure–temperature ratings in bar of ASME B16.5, class 300, group 2.2 (type 316): from memory. The ratio to the cold value is what counts.</summary>
    private static readonly (double Celsius, double Bar)[] Austenitic = [(38, 49.6), (50, 48.1), (100, 42.2), (150, 38.5), (200, 35.7), (250, 33.4), (300, 31.6), (350, 30.3), (400, 29.4)];

    /// <summary>Highest service temperatures in °C of seals and liners by words; PTFE creeps before it melts. Makers' general figures, common practice.</summary>
    private static readonly (string[] Words, string Name, double Celsius)[] Seals =
    [
        (["ptfe", "teflon", "polytetrafluoro"], "PTFE", 200),
        (["fkm", "fluoroelastomer", "fluorocarbon rubber"], "fluoroelastomer (FKM)", 200),
        (["ffkm", "perfluoroelastomer"], "perfluoroelastomer (FFKM)", 300),
        (["nitrile", "nbr"], "nitrile rubber", 100),
        (["epdm"], "EPDM", 140),
        (["silicone"], "silicone rubber", 200),
        (["natural rubber", "rubber septum"], "rubber", 70),
    ];

    /// <summary>Share of its cold strength that austenitic steel keeps at a temperature in K; null above 400 °C, where the table ends.</summary>
    public static double? SteelShare(double temperatureK)
    {
        var celsius = temperatureK - 273.15;
        if (celsius <= Austenitic[0].Celsius)
        {
            return 1;
        }

        for (var row = 1; row < Austenitic.Length; row++)
        {
            var (below, above) = (Austenitic[row - 1], Austenitic[row]);
            if (celsius <= above.Celsius)
            {
                return (below.Bar + ((above.Bar - below.Bar) * (celsius - below.Celsius) / (above.Celsius - below.Celsius))) / Austenitic[0].Bar;
            }
        }

        return null;
    }

    /// <summary>Material and highest service temperature in K of a seal, liner or closure, by its words; null when they name none.</summary>
    public static (string Name, double TemperatureK)? SealLimit(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        (string Name, double TemperatureK)? lowest = null;
        foreach (var (own, name, celsius) in Seals)
        {
            if (!(lowest?.TemperatureK <= celsius + 273.15) && NamesAny(words, own))
            {
                lowest = (name, celsius + 273.15);
            }
        }

        return lowest;
    }

    private static bool NamesAny(string text, string[] words)
    {
        foreach (var word in words)
        {
            if (Names(text, word))
            {
                return true;
            }
        }

        return false;
    }

    // "ffkm" holds "fkm": a word counts from its beginning
    private static bool Names(string words, string word)
    {
        for (var at = words.IndexOf(word, StringComparison.OrdinalIgnoreCase); at >= 0; at = words.IndexOf(word, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            if (at == 0 || !(char.IsLetterOrDigit(words[at - 1]) || words[at - 1] is '_'))
            {
                return true;
            }
        }

        return false;
    }
}
