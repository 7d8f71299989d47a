using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>Temperature classes of electrical equipment for explosive atmospheres (IEC 60079-0 and IEC 60079-20-1), by the hottest surface it may have.</summary>
public enum TemperatureClass
{
    T1,
    T2,
    T3,
    T4,
    T5,
    T6,
}

/// <summary>Which temperature class a vapour calls for.</summary>
public static class TemperatureClasses
{
    /// <summary>Largest surface temperature of equipment of a class, in K: 450, 300, 200, 135, 100 and 85 °C (IEC 60079-0).</summary>
    public static double MaximumSurfaceK(TemperatureClass temperatureClass) => 273.15 + temperatureClass switch
    {
        TemperatureClass.T1 => 450,
        TemperatureClass.T2 => 300,
        TemperatureClass.T3 => 200,
        TemperatureClass.T4 => 135,
        TemperatureClass.T5 => 100,
        TemperatureClass.T6 => 85,
    };

    /// <summary>The class with the largest surface temperature below an autoignition temperature in K; null at 85 °C and below, where no class serves.</summary>
    public static TemperatureClass? Of(double autoignitionK)
    {
        foreach (var one in Enum.GetValues<TemperatureClass>())
        {
            if (MaximumSurfaceK(one) < autoignitionK)
            {
                return one;
            }
        }

        return null;
    }

    /// <summary>
    /// The class with the largest surface temperature that also keeps a share of the autoignition temperature in °C; null where none does (carbon
    /// disulfide: 80 % is 72 °C, and T6 allows 85).
    /// </summary>
    public static TemperatureClass? KeepingShare(double autoignitionK, double share)
    {
        foreach (var one in Enum.GetValues<TemperatureClass>())
        {
            if (MaximumSurfaceK(one) <= HotSurface.LimitK(autoignitionK, share))
            {
                return one;
            }
        }

        return null;
    }
}

/// <summary>Groups of gases and vapours by the gap a flame passes (IEC 60079-20-1).</summary>
public enum GasGroup
{
    /// <summary>Maximum experimental safe gap above 0.9 mm: propane, most solvents.</summary>
    IIA,

    /// <summary>0.5 to 0.9 mm: ethylene, diethyl ether, tetrahydrofuran.</summary>
    IIB,

    /// <summary>Below 0.5 mm: hydrogen, acetylene, carbon disulfide.</summary>
    IIC,
}

/// <summary>Gas groups by substance (Data/gas-groups.tsv). A substance that is not in the table has none on file: unknown, not harmless.</summary>
public static class GasGroups
{
    private static readonly Dictionary<string, Sourced<GasGroup>> ByCas = EmbeddedTable.Rows("gas-groups.tsv").ToDictionary(
        static row => row["cas"],
        static row => new Sourced<GasGroup>(Enum.Parse<GasGroup>(row["group"]), Enum.Parse<Quality>(row["quality"], ignoreCase: true), EmbeddedTable.Entries(row["sources"])),
        StringComparer.Ordinal);

    /// <summary>Group on file; null when none is.</summary>
    public static Sourced<GasGroup>? Of(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return substance.Identity.Cas is { } cas ? ByCas.GetValueOrDefault(cas) : null;
    }

    /// <summary>Group of a maximum experimental safe gap in m: IIA above 0.9 mm, IIC below 0.5 mm, IIB between (IEC 60079-20-1).</summary>
    public static GasGroup FromSafeGap(double gapM) => gapM > 0.9e-3 ? GasGroup.IIA : gapM < 0.5e-3 ? GasGroup.IIC : GasGroup.IIB;
}
