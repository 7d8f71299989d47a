using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// The lowest temperature limit of a vessel: what is marked on it and its parts, else what its kind is commonly good to. Above it nothing that is stated of its rating counts. Every screen asks here.
/// Grounds: docs/methods/ratings.md.
/// </summary>
/// <param name="TemperatureK">The limit in K.</param>
/// <param name="Vessel">The vessel.</param>
/// <param name="VesselIndex">Its place in the plan.</param>
/// <param name="Part">Whose limit it is: the place of the part; null: the vessel's own.</param>
/// <param name="Kind">The kind whose usual limit it is; null: it is stated.</param>
internal readonly record struct TemperatureLimit(double TemperatureK, Vessel Vessel, int VesselIndex, int? Part, TypicalVessel? Kind)
{
    // the parts that a kind's limit is about
    private static readonly string[] SealWords = ["seal", "plug", "cap", "sept", "liner", "lining", "ring", "gasket", "closure", "lid", "stopper"];

    /// <summary>Whose limit it is, to begin a sentence.</summary>
    public string Name => Part is { } part ? $"The {Vessel.Parts[part].Name} of “{Vessel.Id}”" : $"“{Vessel.Id}”";

    /// <summary>That and up to where, as a sentence begins.</summary>
    public string Words => Kind switch
    {
        null => $"{Name} is good to {Wording.Celsius(TemperatureK)}",
        { LimitStands: true } => $"A {Kind.Gives} is never heated above {Wording.Celsius(TemperatureK)}, whatever is marked on it",
        _ => $"{Name} is a {Kind.Kind}, whose {Kind.Gives} commonly gives way above {Wording.Celsius(TemperatureK)}, and no temperature is stated for it",
    };

    /// <summary>JSON Pointer to it, or to where it would be stated.</summary>
    public string Path => Part is { } part
        ? string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/parts/{part}/maximumTemperature")
        : string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/maximumTemperature");

    /// <summary>The lowest limit; null where none is stated and the kind has none.</summary>
    public static TemperatureLimit? Of(Vessel vessel, int vesselIndex)
    {
        var lowest = vessel.MaximumTemperatureK;
        int? of = null;
        var answered = lowest is not null;
        for (var part = 0; part < vessel.Parts.Count; part++)
        {
            if (vessel.Parts[part].MaximumTemperatureK is not { } limit)
            {
                continue;
            }

            answered = answered || VesselKinds.Names(vessel.Parts[part].Name, SealWords);
            if (!(lowest <= limit))
            {
                (lowest, of) = (limit, part);
            }
        }

        var kind = VesselKinds.TypicalOf(vessel.Kind);
        return kind?.LimitK is { } usual && (!answered || kind.LimitStands) && !(lowest <= usual)
            ? new TemperatureLimit(usual, vessel, vesselIndex, null, kind)
            : lowest is { } stated ? new TemperatureLimit(stated, vessel, vesselIndex, of, null) : null;
    }
}
