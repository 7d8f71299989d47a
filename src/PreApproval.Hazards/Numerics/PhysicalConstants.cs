namespace PreApproval.Hazards.Numerics;

/// <summary>Constants of nature and of convention, exact by definition.</summary>
internal static class PhysicalConstants
{
    /// <summary>Molar gas constant in J/(mol K), exact (SI 2019).</summary>
    public const double GasConstant = 8.31446261815324;

    /// <summary>Standard atmosphere in Pa, exact (CGPM 1954): normal boiling points belong to it.</summary>
    public const double AtmospherePa = 101_325;
}
