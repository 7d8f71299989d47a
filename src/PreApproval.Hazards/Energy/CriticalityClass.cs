namespace PreApproval.Hazards.Energy;

/// <summary>
/// The criticality classes of F. Stoessel (Chem. Eng. Prog. 1993; Thermal Safety of Chemical Processes, 2020, ch. 3; definition from memory): the order in which the process temperature, the
/// temperature a failure of cooling leads to (MTSR), the temperature a boiling liquid or a relief holds (MTT), and the temperature at which the decomposition takes a day (T_D24) follow each other.
/// </summary>
public static class CriticalityClass
{
    /// <summary>
    /// 1: nothing is reached; 2: only a long stay at MTSR could reach the decomposition; 3: the contents boil first and the decomposition is not reached; 4: they boil before the decomposition, which the
    /// reaction would reach; 5: the reaction reaches the decomposition and nothing boils before.
    /// </summary>
    /// <param name="mtsrK">Maximum temperature of the synthesis reaction in K.</param>
    /// <param name="technicalK">MTT in K: boiling point of an open vessel; null where nothing holds the temperature.</param>
    /// <param name="dayK">T_D24 in K.</param>
    public static int Of(double mtsrK, double? technicalK, double dayK)
    {
        var technical = technicalK ?? double.PositiveInfinity;
        return mtsrK < technical
            ? mtsrK >= dayK ? 5 : technical < dayK ? 1 : 2
            : mtsrK < dayK ? 3 : technical < dayK ? 4 : 5;
    }
}
