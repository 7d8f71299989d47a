namespace PreApproval.Hazards.Energy;

/// <summary>
/// The waivers of the UN Manual of Tests and Criteria, Appendix 6: when a substance need not be tested as an explosive; and the heat below which it is not
/// self-reactive (Regulation (EC) No 1272/2008, Annex I, 2.8.4). A waiver is no proof of safety on the bench.
/// </summary>
public static class TransportScreens
{
    /// <summary>Heat of decomposition in J/g below which a substance is not self-reactive, nor a desensitised explosive.</summary>
    public const double SelfReactiveFromJPerG = 300;

    /// <summary>Heat of decomposition in J/g from which an organic substance is a candidate for the explosive class.</summary>
    public const double ExplosiveFromJPerG = 500;

    /// <summary>Heat of decomposition in J/g from which testing for detonation is usual (dossiers under Regulation (EC) No 1907/2006).</summary>
    public const double DetonationFromJPerG = 800;

    /// <summary>Onset in °C below which the heat counts for the explosive class.</summary>
    public const double ExplosiveOnsetBelowC = 500;

    /// <summary>Oxygen balance in % below which a substance with oxygen in its energetic group is no candidate.</summary>
    public const double LeastOxygenBalancePercent = -200;

    /// <summary>Whether an organic substance is a candidate for the explosive class: it has an energetic group, its oxygen balance does not waive it, and heat and onset do not either.</summary>
    /// <param name="hasEnergeticGroup">False: no candidate.</param>
    /// <param name="groupHoldsOxygen">True when the energetic group itself holds oxygen: only then the oxygen balance can waive (an azo compound is not waived by it).</param>
    /// <param name="oxygenBalancePercent">Oxygen balance in %; null: does not waive.</param>
    /// <param name="joulePerGram">Heat of decomposition in J/g; null: does not waive.</param>
    /// <param name="onsetC">Onset in °C; null: does not waive.</param>
    public static bool IsExplosiveCandidate(bool hasEnergeticGroup, bool groupHoldsOxygen, double? oxygenBalancePercent, double? joulePerGram, double? onsetC) =>
        hasEnergeticGroup
        && !(groupHoldsOxygen && oxygenBalancePercent < LeastOxygenBalancePercent)
        && !(joulePerGram < ExplosiveFromJPerG && (onsetC is null || onsetC < ExplosiveOnsetBelowC));
}
