namespace PreApproval.Hazards.Fire;

/// <summary>Thresholds of the fire and release checks that no group sets, SI units; those it sets are in <see cref="Screening.Policy"/>. Each names its source; table in docs/methods/flash-margin.md, release.md and inerting.md.</summary>
public static class FireThresholds
{
    /// <summary>Flash point up to which a liquid is a flammable liquid, in K (60 °C; CLP Annex I, 2.6).</summary>
    public const double FlammableUpToK = 333.15;

    /// <summary>Volume of flammable liquid in the open that is worth more than a notice, in m³ (500 mL). Common practice, no source.</summary>
    public const double LargeOpenVolumeM3 = 0.5e-3;

    /// <summary>Room taken when the plan states none, in m³: a small laboratory. Common practice, no source.</summary>
    public const double DefaultRoomM3 = 30;

    /// <summary>Air standing in a fume hood of 1.8 m, in m³. Common practice, no source.</summary>
    public const double StillHoodM3 = 1.35;

    /// <summary>Exhaust of a fume hood when the plan states none, in m³/s (0.4 m/s through 1.5 m by 0.5 m). Common practice, no source.</summary>
    public const double DefaultHoodFlowM3PerS = 0.3;

    /// <summary>Air speed over a spill in a hood, in m/s. Common practice, no source.</summary>
    public const double HoodAirSpeedMPerS = 0.5;

    /// <summary>Depth a spilled liquid spreads to, in m (1 cm; EPA 550-B-99-009).</summary>
    public const double SpillDepthM = 0.01;

    /// <summary>Share of the lower limit in the air of the place from which a release is a caution (10 %: usage of NFPA 45 and NFPA 86, from memory).</summary>
    public const double CautionShareOfLimit = 0.1;

    /// <summary>The same for a warning: the work stops here (25 %: usage of NFPA 45 and NFPA 86, from memory).</summary>
    public const double WarningShareOfLimit = 0.25;

    /// <summary>Share of the heat of combustion of a cloud that goes into its blast (10 %, the upper end of 1 to 10 %; Crowl and Louvar, from memory).</summary>
    public const double CloudYield = 0.1;

    /// <summary>Time in s over which gas is pressed in slowly enough for the walls to take its heat up (60 s, some ten time constants of the gas of a laboratory vessel). Common practice, no source.</summary>
    public const double SlowPressurisingS = 60;

    /// <summary>Conductivity below which a liquid keeps its charge, in S/m (50 pS/m; NFPA 77, from memory).</summary>
    public const double LowConductivitySPerM = 50e-12;

    /// <summary>Volume of a poorly conducting flammable liquid moved from which static is a notice, in m³ (500 mL). Common practice, no source.</summary>
    public const double StaticNoticeM3 = 0.5e-3;

    /// <summary>The same for a caution, in m³ (5 L, the usual largest glass bottle). Common practice, no source.</summary>
    public const double StaticCautionM3 = 5e-3;

    /// <summary>The same for a warning, in m³ (20 L: from here metal containers are bonded and earthed; NFPA 30 and NFPA 77, from memory).</summary>
    public const double StaticWarningM3 = 20e-3;

    /// <summary>Share by volume of poorly conducting liquids from which a mixture counts as one. Common practice, no source.</summary>
    public const double PoorlyConductingShare = 0.9;

    /// <summary>Distance below the limiting oxygen fraction to keep with a monitor, as a volume fraction (2 vol%; NFPA 69, from memory).</summary>
    public const double OxygenDistanceMonitored = 0.02;

    /// <summary>Share of the limiting oxygen fraction to stay below without a monitor (60 %; NFPA 69, from memory).</summary>
    public const double OxygenShareUnmonitored = 0.6;
}
