using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Exposure;

/// <summary>How a peroxide former becomes dangerous (R. J. Kelly, Chem. Health Saf. 1996).</summary>
public enum PeroxideClass
{
    /// <summary>Explosive without being concentrated.</summary>
    Severe,

    /// <summary>Explosive when it is evaporated or distilled.</summary>
    Concentrating,

    /// <summary>Its peroxides can start its own polymerisation.</summary>
    Polymerising,
}

/// <summary>One row of Data/peroxide-formers.tsv.</summary>
/// <param name="Class">How it becomes dangerous.</param>
/// <param name="MonthsOpened">Months it may be kept after opening.</param>
/// <param name="LeastConcentratedM3">Volume in m³ from which concentrating it is a finding.</param>
internal sealed record PeroxideFormer(PeroxideClass Class, int MonthsOpened, double LeastConcentratedM3)
{
    /// <summary>Every row by CAS number.</summary>
    public static FrozenDictionary<string, PeroxideFormer> All { get; } = EmbeddedTable.Rows("peroxide-formers.tsv").ToFrozenDictionary(
        static row => row["cas"],
        static row => new PeroxideFormer(
            Enum.Parse<PeroxideClass>(row["class"], ignoreCase: true),
            int.Parse(row["monthsOpened"], CultureInfo.InvariantCulture),
            double.Parse(row["leastConcentratedMl"], CultureInfo.InvariantCulture) * 1e-6),
        StringComparer.Ordinal);
}
