namespace PreApproval.Hazards.Mixtures;

/// <summary>A published vapour-pressure correlation: form, coefficients, range and source.</summary>
/// <param name="Form">Equation: wagner25, wagner36, dippr101, antoine-ln, antoine-log10, antoine-extended.</param>
/// <param name="Coefficients">In the order the form defines; pressures in Pa, temperatures in K.</param>
/// <param name="MinimumK">Lowest temperature of validity in K.</param>
/// <param name="MaximumK">Highest temperature of validity in K.</param>
/// <param name="Source">Key in <c>sources.bib</c>.</param>
public sealed record VapourPressureCorrelation(string Form, IReadOnlyList<double> Coefficients, double MinimumK, double MaximumK, string Source);

/// <summary>A published liquid-density correlation: form, coefficients, range and source.</summary>
/// <param name="Form">Equation: dippr105, vdi, iapws-saturated (water).</param>
/// <param name="Coefficients">In the order the form defines; result in mol/m³ (dippr105) or kg/m³ (the others).</param>
/// <param name="MinimumK">Lowest temperature of validity in K.</param>
/// <param name="MaximumK">Highest temperature of validity in K.</param>
/// <param name="Source">Key in <c>sources.bib</c>.</param>
public sealed record LiquidDensityCorrelation(string Form, IReadOnlyList<double> Coefficients, double MinimumK, double MaximumK, string Source);
