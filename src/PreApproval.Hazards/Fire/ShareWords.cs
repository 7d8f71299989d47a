using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>Shares of a limit as sentences show them: never a zero for something that is there.</summary>
internal static class ShareWords
{
    /// <summary>A share as percent; below 0.1 % in words.</summary>
    public static string Percent(double share) => share is > 0 and < 0.001 ? "less than 0.1 %" : $"{Wording.Figures(share * 100)} %";

    /// <summary>A volume in m³ as m³, or as litres below 0.1 m³.</summary>
    public static string Volume(double m3) => m3 < 0.1 ? $"{Wording.Figures(m3 * 1000)} L" : $"{Wording.Figures(m3)} m³";
}
