using System.Globalization;
using System.Reflection;
using PreApproval.Hazards.Fire;
using PreApproval.Testing;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>docs/thresholds.md and the constants of the fire and release checks are held against each other: numbers as a reader wrote them, in the reader's units.</summary>
public sealed class ThresholdTableTests
{
    /// <summary>Constant, row of the table, words that stand in it, and the number they mean in the constant's unit. Sources stand in the table.</summary>
    private static readonly (string Constant, string Row, string Words, double Value)[] Rows =
    [
        (nameof(FireThresholds.FlammableUpToK), "flammable liquid", "60 °C", 333.15),
        (nameof(FireThresholds.LargeOpenVolumeM3), "large open volume of a flammable liquid", "500 mL", 500e-6),
        (nameof(FireThresholds.DefaultRoomM3), "room; air standing in a hood; exhaust of a hood, where none is stated", "30 m³", 30),
        (nameof(FireThresholds.StillHoodM3), "room; air standing in a hood; exhaust of a hood, where none is stated", "1.35 m³", 1.35),
        (nameof(FireThresholds.DefaultHoodFlowM3PerS), "room; air standing in a hood; exhaust of a hood, where none is stated", "0.3 m³/s", 0.3),
        (nameof(FireThresholds.HoodAirSpeedMPerS), "pool of a spill; air over it in a hood", "0.5 m/s", 0.5),
        (nameof(FireThresholds.SpillDepthM), "pool of a spill; air over it in a hood", "1 cm", 0.01),
        (nameof(FireThresholds.CautionShareOfLimit), "release, spill and gas made in the open: caution, warning", "10 %", 0.1),
        (nameof(FireThresholds.WarningShareOfLimit), "release, spill and gas made in the open: caution, warning", "25 %", 0.25),
        (nameof(FireThresholds.CloudYield), "heat of combustion of a cloud that counts as blast", "10 %", 0.1),
        (nameof(FireThresholds.SlowPressurisingS), "gas pressed in slowly enough to stay cool", "60 s", 60),
        (nameof(FireThresholds.LowConductivitySPerM), "static, poorly conducting liquid", "50 pS/m", 50e-12),
        (nameof(FireThresholds.StaticNoticeM3), "static, liquid moved: notice, caution, warning", "0.5 L", 0.5e-3),
        (nameof(FireThresholds.StaticCautionM3), "static, liquid moved: notice, caution, warning", "5 L", 5e-3),
        (nameof(FireThresholds.StaticWarningM3), "static, liquid moved: notice, caution, warning", "20 L", 20e-3),
        (nameof(FireThresholds.PoorlyConductingShare), "static, a mixture counts as poorly conducting", "90 %", 0.9),
        (nameof(FireThresholds.OxygenDistanceMonitored), "oxygen below the limiting fraction: with a monitor, without", "2 vol%", 0.02),
        (nameof(FireThresholds.OxygenShareUnmonitored), "oxygen below the limiting fraction: with a monitor, without", "60 %", 0.6),
    ];

    [Fact]
    public void Table_EveryConstantOfTheFireChecks_StandsInItAsItIs()
    {
        var table = Table();
        var constants = typeof(FireThresholds).GetFields(BindingFlags.Public | BindingFlags.Static).ToDictionary(static field => field.Name, static field => (double)field.GetRawConstantValue()!, StringComparer.Ordinal);
        Assert.Equal(constants.Keys.Order(StringComparer.Ordinal), Rows.Select(static row => row.Constant).Order(StringComparer.Ordinal));
        Assert.All(Rows, row =>
        {
            Assert.Equal(row.Value, constants[row.Constant], row.Value * 1e-12);
            Assert.Contains(row.Words, table[row.Row], StringComparison.Ordinal);
        });
    }

    [Fact]
    public void Table_EveryRow_NamesItsSourceOrSaysThatThereIsNone() =>
        Assert.All(File.ReadAllLines(Page()).Where(static line => line.StartsWith("| ", StringComparison.Ordinal)), static line =>
            Assert.True(line.TrimEnd(' ', '|').Split('|')[^1].Trim().Length > 2, line));

    private static Dictionary<string, string> Table() => File.ReadAllLines(Page())
        .SkipWhile(static line => !string.Equals(line, "## Constants of the engine", StringComparison.Ordinal))
        .Where(static line => line.StartsWith("| ", StringComparison.Ordinal))
        .Select(static line => line.Split('|', StringSplitOptions.TrimEntries))
        .ToDictionary(static cells => cells[1], static cells => string.Create(CultureInfo.InvariantCulture, $"{cells[2]}"), StringComparer.Ordinal);

    private static string Page() => Path.Combine(RepositoryFolder.Path, "docs", "thresholds.md");
}
