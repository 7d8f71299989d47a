using PreApproval.Hazards.Mixtures;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

public sealed class VapourPressureReferenceTests
{
    public static TheoryData<string, double, double, string> Correlations => new(
        Read("vapour-pressures.tsv").Select(r => (r[0], Number(r[1]), Number(r[2]), r[3])));

    public static TheoryData<string, double, double> FirstChoice => new(
        Read("vapour-pressures.tsv").Where(r => r[4] is "first").Select(r => (r[0], Number(r[1]), Number(r[2]))));

    // The catalogue leaves a correlation out where its boiling point is off, or prefers another; then the publications still agree within 3 %.
    [Theory]
    [MemberData(nameof(Correlations))]
    public void Correlation_InItsRange_MatchesReferenceLibrary(string cas, double temperatureK, double pascal, string publication)
    {
        var substance = ByCas(cas);
        if (substance.VapourPressure.FirstOrDefault(c => string.Equals(c.Source, publication, StringComparison.Ordinal)) is { } correlation)
        {
            Near(pascal, VapourPressure.Evaluate(correlation, temperatureK), 1e-6);
        }
        else
        {
            Near(pascal, VapourPressure.At(substance, temperatureK).Pascal, 0.03);
        }
    }

    [Theory]
    [MemberData(nameof(FirstChoice))]
    public void At_InRange_WithinOnePercentOfReferenceLibrary(string cas, double temperatureK, double pascal) =>
        Near(pascal, VapourPressure.At(ByCas(cas), temperatureK).Pascal, 0.01);
}
