using System.Globalization;
using System.Text.RegularExpressions;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Units;

namespace PreApproval.Documents.Inventory;

/// <summary>How a cell of a table is written.</summary>
internal enum CellForm
{
    /// <summary>As typed, spaces and all.</summary>
    Text,

    /// <summary>A day, or a word of the contract.</summary>
    Word,

    /// <summary>A number in the unit of the header.</summary>
    Quantity,

    /// <summary>A number in mm, which the document has without a unit.</summary>
    Millimetres,

    /// <summary>yes, no, or empty where it is not known.</summary>
    YesOrNo,
}

/// <summary>A column of a table of vessels.</summary>
/// <param name="Header">As it stands in the file, with its unit.</param>
/// <param name="Member">Member of a vessel, or of a part of one; <c>relief/set</c> is one within another.</param>
/// <param name="Part">Which part of the vessel, from 1; null: the vessel itself.</param>
/// <param name="Form">How its cells are written.</param>
/// <param name="Unit">What its quantities are in; null: no quantities.</param>
internal sealed partial record VesselColumn(string Header, string Member, int? Part, CellForm Form, Unit? Unit)
{
    /// <summary>Lengths are plain numbers in the document: no other unit is read.</summary>
    private const string Millimetre = "mm";

    private static readonly (string Name, string Member, CellForm Form, MemberUnits? Units)[] OfVessels =
    [
        ("label", "label", CellForm.Text, null),
        ("kind", "kind", CellForm.Text, null),
        ("volume", "volume", CellForm.Quantity, MemberUnits.VesselVolume),
        ("rating", "rating", CellForm.Quantity, MemberUnits.Pressure),
        ("rating evidence", "ratingEvidence", CellForm.Text, null),
        ("maximum temperature", "maximumTemperature", CellForm.Quantity, MemberUnits.Temperature),
        ("closure", "closure", CellForm.Text, null),
        ("inspected on", "inspectedOn", CellForm.Word, null),
        ("relief device", "relief/device", CellForm.Word, null),
        ("relief set", "relief/set", CellForm.Quantity, MemberUnits.Pressure),
        ("outside diameter", "glassTube/outsideDiameterMm", CellForm.Millimetres, null),
        ("wall", "glassTube/wallMm", CellForm.Millimetres, null),
        ("annealed", "glassTube/annealed", CellForm.YesOrNo, null),
        ("out of service", "outOfService", CellForm.Text, null),
        ("note", "note", CellForm.Text, null),
    ];

    private static readonly (string Name, string Member, CellForm Form, MemberUnits? Units)[] OfParts =
    [
        ("", "part", CellForm.Text, null),
        ("rating", "rating", CellForm.Quantity, MemberUnits.Pressure),
        ("maximum temperature", "maximumTemperature", CellForm.Quantity, MemberUnits.Temperature),
    ];

    /// <summary>The columns of a table that is written, for vessels with at most so many parts.</summary>
    public static IReadOnlyList<VesselColumn> All(int parts) =>
    [
        .. OfVessels.Select(known => Written(known.Name, known.Member, known.Form, null)),
        .. Enumerable.Range(1, parts).SelectMany(number => OfParts.Select(known => Written($"part {number.ToString(CultureInfo.InvariantCulture)} {known.Name}".TrimEnd(), known.Member, known.Form, number))),
    ];

    /// <summary>Reads a header; or says what is wrong with it.</summary>
    public static Result<VesselColumn, string> Read(string header)
    {
        Match match = Shape.Match(header.Trim());
        string name = Spaces.Replace(match.Groups["name"].Value.Trim().ToLowerInvariant(), " ");
        string unit = match.Groups["unit"].Value.Trim();
        int? part = null;
        if (PartName.Match(name) is { Success: true } numbered)
        {
            part = int.Parse(numbered.Groups["number"].Value, CultureInfo.InvariantCulture);
            name = numbered.Groups["rest"].Value;
            if (part is < 1 or > InventoryVessel.MostParts)
            {
                return string.Create(CultureInfo.InvariantCulture, $"counts a part that is not 1 to {InventoryVessel.MostParts}");
            }
        }

        (string Name, string Member, CellForm Form, MemberUnits? Units)[] columns = part is null ? OfVessels : OfParts;
        int place = Array.FindIndex(columns, known => string.Equals(known.Name, name, StringComparison.Ordinal));
        if (place < 0)
        {
            string[] names = [.. OfVessels.Select(known => known.Name), "part 1", "part 1 rating", "part 1 maximum temperature"];
            string hint = part is null && NearName.Of(name, names) is { } near ? $"did you mean \"{near}\"? " : "";
            return $"is no column known here; {hint}Known: {Shown.Choice(names)}";
        }

        (_, string member, CellForm form, MemberUnits? units) = columns[place];
        string example = Written(match.Groups["name"].Value.Trim(), member, form, part).Header;
        if (form is CellForm.Millimetres)
        {
            return unit is Millimetre ? new VesselColumn(header.Trim(), member, part, form, null) : $"needs its unit in brackets: \"{example}\"";
        }

        if (units is null)
        {
            return unit.Length == 0 ? new VesselColumn(header.Trim(), member, part, form, null) : "takes no unit";
        }

        return UnitTable.TryFind(unit, out Unit? found) && units.Allows(found)
            ? new VesselColumn(header.Trim(), member, part, form, found)
            : $"needs its unit in brackets: one of {Shown.Choice(units.Symbols)}, for instance \"{example}\"";
    }

    private static VesselColumn Written(string name, string member, CellForm form, int? part)
    {
        string? unit = member switch
        {
            "volume" => "mL",
            "rating" or "relief/set" => "bar(g)",
            "maximumTemperature" => "°C",
            _ => null,
        };
        return unit is not null && UnitTable.TryFind(unit, out Unit? found)
            ? new VesselColumn($"{name} ({unit})", member, part, form, found)
            : new VesselColumn(form is CellForm.Millimetres ? $"{name} ({Millimetre})" : name, member, part, form, null);
    }

    [GeneratedRegex(@"^(?<name>[^(]*)(\((?<unit>.*)\))?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Shape { get; }

    [GeneratedRegex("^part (?<number>[0-9]{1,3})( (?<rest>.+))?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex PartName { get; }

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Spaces { get; }
}
