namespace PreApproval.Hazards.Vessels;

/// <summary>Where a vessel stands in Directive 2014/68/EU.</summary>
public enum EquipmentStanding
{
    /// <summary>At most 0.5 bar(g): out of scope (article 1).</summary>
    OutOfScope,

    /// <summary>Sound engineering practice (article 4, paragraph 3).</summary>
    SoundEngineeringPractice,

    /// <summary>Above a threshold of article 4, paragraph 1: essential requirements and a category.</summary>
    Categorised,
}

/// <summary>Article 4, paragraph 1 (a) of Directive 2014/68/EU for vessels. For apparatus made up in a laboratory it tells the size of the matter, not the law.</summary>
public static class PressureEquipment
{
    private const double ScopeBar = 0.5;

    /// <summary>Standing of a vessel for gas, or for liquid whose vapour pressure passes 0.5 bar above the atmosphere.</summary>
    /// <param name="maximumPaGauge">Maximum allowable pressure PS, in Pa gauge.</param>
    /// <param name="volumeM3">Volume in m³.</param>
    /// <param name="dangerousFluid">True: group 1 (article 13: explosive, flammable, toxic, oxidising …).</param>
    public static EquipmentStanding ForGas(double maximumPaGauge, double volumeM3, bool dangerousFluid) => dangerousFluid
        ? Standing(maximumPaGauge, volumeM3, barLitre: 25, bar: 200, overLitre: 1)
        : Standing(maximumPaGauge, volumeM3, barLitre: 50, bar: 1000, overLitre: 1);

    private static EquipmentStanding Standing(double maximumPaGauge, double volumeM3, double barLitre, double bar, double overLitre)
    {
        var (pressure, litre) = (maximumPaGauge / 1e5, volumeM3 * 1e3);
        return pressure <= ScopeBar ? EquipmentStanding.OutOfScope
            : pressure > bar || (litre > overLitre && pressure * litre > barLitre) ? EquipmentStanding.Categorised
            : EquipmentStanding.SoundEngineeringPractice;
    }
}
