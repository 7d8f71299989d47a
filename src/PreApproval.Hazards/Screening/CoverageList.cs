using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Screening;

/// <summary>What is known of each material for each check; of several components the worst counts.</summary>
internal static class CoverageList
{
    private static readonly (string Check, Func<Substance, CoverageStatus> Status)[] Checks =
    [
        ("molar mass", static known => known.Identity.MolarMassKgPerMol is null ? CoverageStatus.Missing : CoverageStatus.Measured),
        ("density", static known => Status(known.DensityKgPerM3)),
        ("vapour pressure", VapourPressure),
        ("flash point", static known => Burning(known, known.FlashPointK)),
        ("autoignition", static known => Burning(known, known.AutoignitionK)),
    ];

    public static IReadOnlyList<CoverageEntry> Of(Plan plan)
    {
        var entries = new CoverageEntry[plan.Materials.Count * (Checks.Length + 1)];
        var at = 0;
        foreach (var material in plan.Materials)
        {
            var parts = AmountConversion.Parts(material.Composition);
            foreach (var (check, status) in Checks)
            {
                entries[at++] = new CoverageEntry(material.Id, check, Worst(parts, status));
            }

            entries[at++] = new CoverageEntry(material.Id, "encounters", HaveFamilies(parts) ? CoverageStatus.Assumed : CoverageStatus.Missing);
        }

        return entries;
    }

    private static CoverageStatus Worst(IReadOnlyList<Portion> parts, Func<Substance, CoverageStatus> status)
    {
        var worst = CoverageStatus.Measured;
        for (var index = 0; index < parts.Count; index++)
        {
            var own = parts[index].Substance.Known is { } known ? status(known) : CoverageStatus.Missing;
            worst = own > worst ? own : worst;
        }

        return worst;
    }

    private static bool HaveFamilies(IReadOnlyList<Portion> parts)
    {
        for (var index = 0; index < parts.Count; index++)
        {
            if (FamilyTable.Default.Of(parts[index].Substance).Count == 0)
            {
                return false;
            }
        }

        return true;
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
