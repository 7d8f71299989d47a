using System.Globalization;
using System.Text.RegularExpressions;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Units;

namespace PreApproval.Documents.Inventory;

/// <summary>A column of a table of vessels.</summary>
/// <param name="Header">As it stands in the file, with its unit.</param>
/// <param name="Member">Member of a vessel, or of a part of one.</param>
/// <param name="Part">Which part of the vessel, from 1; null: the vessel itself.</param>
/// <param name="Unit">What its numbers are in; null: text.</param>
internal sealed partial record VesselColumn(string Header, string Member, int? Part, Unit? Unit)
{
    private static readonly (string Name, string Member, MemberUnits? Units)[] OfVessels =
    [
        ("label", "label", null),
        ("kind", "kind", null),
        ("volume", "volume", MemberUnits.VesselVolume),
        ("rating", "rating", MemberUnits.Pressure),
        ("rating evidence", "ratingEvidence", null),
        ("maximum temperature", "maximumTemperature", MemberUnits.Temperature),
        ("closure", "closure", null),
        ("inspected on", "inspectedOn", null),
        ("out of service", "outOfService", null),
        ("note", "note", null),
    ];

    private static readonly (string Name, string Member, MemberUnits? Units)[] OfParts =
    [
        ("", "part", null),
        ("rating", "rating", MemberUnits.Pressure),
        ("maximum temperature", "maximumTemperature", MemberUnits.Temperature),
    ];

    /// <summary>The columns of a table that is written, for vessels with at most so many parts.</summary>
    public static IReadOnlyList<VesselColumn> All(int parts) =>
    [
        .. OfVessels.Select(known => Written(known.Name, known.Member, null)),
        .. Enumerable.Range(1, parts).SelectMany(number => OfParts.Select(known => Written($"part {number.ToString(CultureInfo.InvariantCulture)} {known.Name}".TrimEnd(), known.Member, number))),
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

        (string Name, string Member, MemberUnits? Units)[] columns = part is null ? OfVessels : OfParts;
        int place = Array.FindIndex(columns, known => string.Equals(known.Name, name, StringComparison.Ordinal));
        if (place < 0)
        {
            string[] names = [.. OfVessels.Select(known => known.Name), "part 1", "part 1 rating", "part 1 maximum temperature"];
            string hint = part is null && NearName.Of(name, names) is { } near ? $"did you mean \"{near}\"? " : "";
            return $"is no column known here; {hint}Known: {Shown.Choice(names)}";
        }

        if (columns[place].Units is not { } units)
        {
            return unit.Length == 0 ? new VesselColumn(header.Trim(), columns[place].Member, part, null) : "takes no unit";
        }

        return UnitTable.TryFind(unit, out Unit? found) && units.Allows(found)
            ? new VesselColumn(header.Trim(), columns[place].Member, part, found)
            : $"needs its unit in brackets: one of {Shown.Choice(units.Symbols)}, for instance \"{Written(match.Groups["name"].Value.Trim(), columns[place].Member, part).Header}\"";
    }

    private static VesselColumn Written(string name, string member, int? part)
    {
        string? unit = member switch
        {
            "volume" => "mL",
            "rating" => "bar(g)",
            "maximumTemperature" => "°C",
            _ => null,
        };
        return unit is not null && UnitTable.TryFind(unit, out Unit? found)
            ? new VesselColumn($"{name} ({unit})", member, part, found)
            : new VesselColumn(name, member, part, null);
    }

    [GeneratedRegex(@"^(?<name>[^(]*)(\((?<unit>.*)\))?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Shape { get; }

    [GeneratedRegex("^part (?<number>[0-9]{1,3})( (?<rest>.+))?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex PartName { get; }

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Spaces { get; }
}
