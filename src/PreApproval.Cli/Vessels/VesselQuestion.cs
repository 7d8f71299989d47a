using PreApproval.Hazards.Vessels;

namespace PreApproval.Cli.Vessels;

/// <summary>A closed vessel as asked: the engine's input and what to compute.</summary>
/// <param name="Input">What is shut in, in SI units.</param>
/// <param name="TemperaturesC">Temperatures to answer for, in °C.</param>
/// <param name="RatingBarGauge">Rated pressure in bar(g), or null.</param>
/// <param name="Identifiers">The identifier as given for each substance key.</param>
/// <param name="Readings">What names of solutions were read as, in sentences.</param>
internal sealed record VesselQuestion(
    ClosedVesselInput Input,
    IReadOnlyList<double> TemperaturesC,
    double? RatingBarGauge,
    IReadOnlyDictionary<string, string> Identifiers,
    IReadOnlyList<string> Readings);
