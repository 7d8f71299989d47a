using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Screening;

/// <summary>What is known of each material for each check; of several components the worst counts.</summary>
internal static class CoverageList
{
    public static IReadOnlyList<CoverageEntry> Of(Plan plan) => [.. plan.Materials.SelectMany(Entries)];

    private static IEnumerable<CoverageEntry> Entries(Material material)
    {
        var substances = AmountConversion.Parts(material.Composition).Select(static part => part.Substance).ToArray();
        yield return Entry("molar mass", static known => known.Identity.MolarMassKgPerMol is null ? CoverageStatus.Missing : CoverageStatus.Measured);
        yield return Entry("density", static known => Status(known.DensityKgPerM3));
        yield return Entry("vapour pressure", VapourPressure);
        yield return Entry("flash point", static known => Burning(known, known.FlashPointK));
        yield return Entry("autoignition", static known => Burning(known, known.AutoignitionK));
        yield return new CoverageEntry(
            material.Id,
            "encounters",
            Array.TrueForAll(substances, static substance => FamilyTable.Default.Of(substance).Count > 0) ? CoverageStatus.Assumed : CoverageStatus.Missing);

        CoverageEntry Entry(string check, Func<Substance, CoverageStatus> status) =>
            new(material.Id, check, substances.Max(substance => substance.Known is { } known ? status(known) : CoverageStatus.Missing));
    }

    private static CoverageStatus VapourPressure(Substance known) =>
        known.Involatile ? CoverageStatus.Assumed
        : known.VapourPressure.Count > 0 ? CoverageStatus.Correlated
        : known is { CriticalTemperatureK: not null, CriticalPressurePa: not null, AcentricFactor: not null } ? CoverageStatus.Estimated
        : CoverageStatus.Missing;

    private static CoverageStatus Burning(Substance known, Published? value) =>
        value is not null ? Status(value.Governing)
        : known.NonFlammable is { Value: true } ? Status(known.NonFlammable)
        : known.Involatile ? CoverageStatus.Assumed
        : CoverageStatus.Missing;

    private static CoverageStatus Status<T>(Sourced<T>? value) => value is null ? CoverageStatus.Missing : value.Quality switch
    {
        Quality.Measured => CoverageStatus.Measured,
        Quality.Correlated => CoverageStatus.Correlated,
        Quality.Estimated => CoverageStatus.Estimated,
        Quality.Assumed => CoverageStatus.Assumed,
    };
}
