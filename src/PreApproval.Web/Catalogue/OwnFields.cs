using System.Globalization;
using PreApproval.Documents;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Catalogue;

/// <summary>A value with a unit that a group can state of a substance.</summary>
/// <param name="Member">Member of <c>properties</c>; also the name of the form's field.</param>
/// <param name="Label">As people read it.</param>
/// <param name="Units">Symbols it may be given in.</param>
/// <param name="Get">The value of a substance.</param>
public sealed record OwnField(string Member, string Label, IReadOnlyList<string> Units, Func<SubstanceProperties, Quantity?> Get)
{
    /// <summary>Value and unit; empty where it is not given.</summary>
    public string Shown(GroupSubstance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return OwnFields.Shown(Get(substance.Properties));
    }
}

/// <summary>The values of a group's own substance in the order of the form.</summary>
public static class OwnFields
{
    private static readonly IReadOnlyList<string> Temperatures = ["°C", "K"];

    public static IReadOnlyList<OwnField> All { get; } =
    [
        new("molarMass", "Molar mass", ["g/mol"], static p => p.MolarMass),
        new("density", "Density", ["g/mL", "kg/m³"], static p => p.Density),
        new("meltingPoint", "Melting point", Temperatures, static p => p.MeltingPoint),
        new("boilingPoint", "Boiling point", Temperatures, static p => p.BoilingPoint),
        new("flashPoint", "Flash point", Temperatures, static p => p.FlashPoint),
        new("autoignition", "Autoignition temperature", Temperatures, static p => p.Autoignition),
        new("lowerFlammableLimit", "Lower flammable limit", ["vol%"], static p => p.LowerFlammableLimit),
        new("upperFlammableLimit", "Upper flammable limit", ["vol%"], static p => p.UpperFlammableLimit),
    ];

    /// <summary>Which values are given, in words.</summary>
    public static string Given(SubstanceProperties properties)
    {
        ArgumentNullException.ThrowIfNull(properties);
        string[] given = [.. All.Where(f => f.Get(properties) is not null).Select(f => $"{f.Label.ToLowerInvariant()} {Shown(f.Get(properties))}"), .. properties.VapourPressure is null ? (string[])[] : ["vapour pressure"]];
        return given.Length == 0 ? "none" : string.Join(", ", given);
    }

    public static string Shown(Quantity? quantity) => quantity is null ? "" : $"{Number(quantity.Value)} {quantity.Unit}";

    /// <summary>As typed, with a minus sign of its own.</summary>
    public static string Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture).Replace('-', '−') ?? "";

    public static string Word(AntoinePressureUnit? unit) => unit is not { } given ? "" : given switch
    {
        AntoinePressureUnit.Bar => "bar",
        AntoinePressureUnit.KiloPascal => "kPa",
        AntoinePressureUnit.Pascal => "Pa",
        AntoinePressureUnit.MillimetreOfMercury => "mmHg",
    };

    public static string Word(AntoineTemperatureUnit? unit) => unit is not { } given ? "" : given switch
    {
        AntoineTemperatureUnit.Celsius => "°C",
        AntoineTemperatureUnit.Kelvin => "K",
    };

    public static string Word(Phase? state) => state is { } phase ? phase.ToString().ToLowerInvariant() : "";
}
