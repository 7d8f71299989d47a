using PreApproval.Documents.Units;

namespace PreApproval.Documents.Reading;

/// <summary>Which units a member takes.</summary>
/// <param name="What">For messages: what the member is.</param>
/// <param name="Symbols">Allowed symbols, as the contract writes them.</param>
internal sealed record MemberUnits(string What, IReadOnlyList<string> Symbols)
{
    private const string CubicMetre = "m³";
    private const string CubicMetrePerHour = "m³/h";

    public static MemberUnits Amount { get; } = Of("an amount", unit => unit.Dimension is Dimension.Mass or Dimension.AmountOfSubstance or Dimension.Volume && !IsOfRooms(unit));

    public static MemberUnits VesselVolume { get; } = Of("a volume", unit => unit.Dimension == Dimension.Volume && !IsOfRooms(unit));

    public static MemberUnits RoomVolume { get; } = Of("a room volume", unit => unit.Dimension == Dimension.Volume);

    public static MemberUnits AirFlow { get; } = Of("an air flow", unit => unit.Dimension == Dimension.VolumeFlow);

    public static MemberUnits Temperature { get; } = Of("a temperature", unit => unit.Dimension == Dimension.Temperature);

    public static MemberUnits Pressure { get; } = Of("a pressure", unit => unit.Dimension == Dimension.Pressure);

    public static MemberUnits Time { get; } = Of("a time", unit => unit.Dimension == Dimension.Time);

    public static MemberUnits Concentration { get; } = Of("a concentration", unit => unit.Dimension is Dimension.AmountConcentration or Dimension.Fraction);

    public static MemberUnits Fraction { get; } = Of("a fraction", unit => unit.Dimension == Dimension.Fraction);

    public static MemberUnits VolumeFraction { get; } = Of("a volume fraction", unit => string.Equals(unit.Symbol, "vol%", StringComparison.Ordinal));

    public static MemberUnits MolarHeat { get; } = Of("a heat per mol of the limiting material", unit => unit.Dimension == Dimension.MolarEnergy);

    public static MemberUnits MolarMass { get; } = Of("a molar mass", unit => unit.Dimension == Dimension.MolarMass);

    public static MemberUnits Density { get; } = Of("a density", unit => unit.Dimension == Dimension.Density);

    /// <summary>Symbols and aliases.</summary>
    public IEnumerable<string> Spellings => UnitTable.All.Where(Allows).SelectMany(unit => unit.Aliases.Prepend(unit.Symbol));

    public bool Allows(Unit unit) => Symbols.Contains(unit.Symbol, StringComparer.Ordinal);

    private static bool IsOfRooms(Unit unit) => unit.Symbol is CubicMetre or CubicMetrePerHour;

    private static MemberUnits Of(string what, Func<Unit, bool> allows) => new(what, [.. UnitTable.All.Where(allows).Select(unit => unit.Symbol)]);
}
