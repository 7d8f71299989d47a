using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// A gas that the liquids hold and no model on file represents: it alone must not leave the whole vessel without a pressure. It is left out
/// and named, and the rest is judged as a lower bound. Its room as a liquid is left out too, which lowers the pressure again.
/// </summary>
internal static class HeldGas
{
    /// <summary>Mol share up to which other liquids leave the vapour pressure of the rest about as it is. Common practice, no source.</summary>
    private const double FewShare = 0.1;

    /// <summary>The highest pressure on the way, of everything or else of what is left without such contents, whichever is higher.</summary>
    /// <param name="whole">Everything shut in.</param>
    /// <param name="fromK">Where the way begins, in K.</param>
    /// <param name="toK">Where it ends, in K.</param>
    public static (SealedCharge Charge, PeakPressure Peak) PeakOf(SealedCharge whole, double fromK, double toK)
    {
        var peak = PeakPressure.Between(whole, fromK, toK);
        if (Without(whole, peak.EndPressure, toK) is not { } rest)
        {
            return (whole, peak);
        }

        var lower = PeakPressure.Between(rest, fromK, toK);
        // on the way all may have been covered, and then gives more than the rest does at the end
        return lower.Pressure.Height > peak.Pressure.Height ? (rest, lower) : (whole, peak);
    }

    /// <summary>The governing pressure at a temperature in K, of everything or else of what is left.</summary>
    public static (SealedCharge Charge, GoverningPressure Pressure) PressureAt(SealedCharge whole, double temperatureK)
    {
        var pressure = whole.PressureAt(temperatureK);
        return Without(whole, pressure, temperatureK) is { } rest ? (rest, rest.PressureAt(temperatureK)) : (whole, pressure);
    }

    /// <summary>What one charge has and the other has not, in words for a sentence.</summary>
    public static IEnumerable<string> Between(SealedCharge whole, SealedCharge rest) => ReferenceEquals(whole, rest)
        ? []
        : whole.Input.Contents.Except(rest.Input.Contents).Select(static content => $"{content.Substance.Identity.Name}, whose pressure over these liquids no model on file gives");

    private static SealedCharge? Without(SealedCharge whole, GoverningPressure pressure, double temperatureK)
    {
        if (pressure.PascalAbs is not null || pressure.LiquidFull || whole.UnrepresentedAt(temperatureK) is not { Count: > 0 } keys)
        {
            return null;
        }

        return WithoutFewLiquids(whole, keys, temperatureK)
            ?? new SealedCharge(whole.Input with { Contents = [.. whole.Input.Contents.Where(content => !keys.Contains(content.Substance.Key, StringComparer.Ordinal))] });
    }

    /// <summary>
    /// Without the liquids that have no parameters with the gas, where they are few: what little is dissolved leaves the pressure of the rest about as it is, and the gas
    /// counts over its solvent, or pure with its own vapour pressure. Null where they are many, or where that gives no pressure either.
    /// </summary>
    private static SealedCharge? WithoutFewLiquids(SealedCharge whole, IReadOnlyList<string> held, double temperatureK)
    {
        ChargedPart[] parts = [.. whole.Mixing, .. whole.Apart];
        var gases = Array.FindAll(parts, part => held.Contains(part.Substance.Key, StringComparer.Ordinal));
        string[] few = [.. parts.Where(part => !gases.Contains(part) && Array.Exists(gases, gas => !HaveParameters(gas, part))).Select(static part => part.Substance.Key)];
        var share = parts.Where(part => few.Contains(part.Substance.Key, StringComparer.Ordinal)).Sum(static part => part.Mol) / parts.Sum(static part => part.Mol);
        if (few.Length == 0 || share > FewShare)
        {
            return null;
        }

        var rest = new SealedCharge(whole.Input with { Contents = [.. whole.Input.Contents.Where(content => !few.Contains(content.Substance.Key, StringComparer.Ordinal))] });
        return rest.GoverningAt(temperatureK).PressurePaAbs is null ? null : rest;
    }

    private static bool HaveParameters(ChargedPart one, ChargedPart other) =>
        one.Substance.UnifacGroups is { Value: var groups } && other.Substance.UnifacGroups is { Value: var others } && Unifac.TryCreate([groups, others], out _) is not null;
}
