using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Substances;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Catalogue;

/// <summary>Hazard statements with their source.</summary>
/// <param name="Items">Empty: known as not classified.</param>
public sealed record StatementsAnswer(IReadOnlyList<HazardStatement> Items, string Quality, IReadOnlyList<string> Source, string? Note);

/// <summary>An occupational exposure limit.</summary>
/// <param name="Kind">timeWeightedAverage, shortTerm or ceiling.</param>
/// <param name="PpmConverted">True: not published in ppm but converted at 25 °C.</param>
/// <param name="MilligramPerM3Converted">True: not published in mg/m³ but converted at 25 °C.</param>
/// <param name="Governs">True for the strictest of its kind.</param>
public sealed record LimitAnswer(
    string Kind, double? Ppm, bool PpmConverted, double? MilligramPerM3, bool MilligramPerM3Converted, bool Skin, string Jurisdiction, int Year, bool Governs,
    string Quality, IReadOnlyList<string> Source, string? Note);

/// <summary>The concentration that is immediately dangerous to life or health.</summary>
public sealed record IdlhAnswer(double? Ppm, double? MilligramPerM3, int Year, string Quality, IReadOnlyList<string> Source, string? Note);

/// <summary>An evaluation by IARC.</summary>
public sealed record CarcinogenAnswer(string Group, int Year, string Quality, IReadOnlyList<string> Source, string? Note);

/// <summary>What is on file of a substance's effects on health. A null is "not on file", which does not mean "no hazard".</summary>
public sealed record HealthAnswer(StatementsAnswer? HazardStatements, IReadOnlyList<LimitAnswer>? ExposureLimits, IdlhAnswer? Idlh, CarcinogenAnswer? Carcinogen)
{
    public static HealthAnswer Of(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return new HealthAnswer(
            substance.HazardStatements is { } statements
                ? new StatementsAnswer(statements.Value, ReportWords.Of(statements.Quality), SubstanceCard.References(statements.Sources), statements.Note)
                : null,
            substance.ExposureLimits is { } limits ? [.. limits.All.Select(limit => Of(limit, limits))] : null,
            substance.Idlh is { } idlh
                ? new IdlhAnswer(idlh.Ppm, idlh.MilligramPerM3, idlh.Year, ReportWords.Of(idlh.Quality), [Catalog.Default.Reference(idlh.Source)], idlh.Note)
                : null,
            substance.Carcinogen is { } carcinogen
                ? new CarcinogenAnswer(carcinogen.GroupName, carcinogen.Year, ReportWords.Of(carcinogen.Quality), [Catalog.Default.Reference(carcinogen.Source)], carcinogen.Note)
                : null);
    }

    private static LimitAnswer Of(ExposureLimit limit, ExposureLimits all) => new(
        ApiJson.Word(limit.Kind), limit.Ppm, limit.IsPpmConverted, limit.MilligramPerM3, limit.IsMassConverted, limit.Skin, limit.Jurisdiction, limit.Year,
        ReferenceEquals(all.Of(limit.Kind), limit), ReportWords.Of(limit.Quality), [Catalog.Default.Reference(limit.Source)], limit.Note);
}
