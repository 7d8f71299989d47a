using System.Globalization;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Inventory;

/// <summary>What the pages say of entries of the inventory.</summary>
public static class InventoryWords
{
    /// <summary>As typed; empty where it is not given.</summary>
    public static string Of(Quantity? quantity) => quantity is null ? "" : $"{quantity.Value.ToString("R", CultureInfo.InvariantCulture).Replace('-', '−')} {quantity.Unit}";

    public static string Of(DateOnly? date) => date?.ToString("d MMM yyyy", CultureInfo.InvariantCulture) ?? "";

    /// <summary>The last day of an inspection that counts so many months, where it is over, or that it lies after today; else null.</summary>
    public static string? RanOut(VesselEntry vessel, DateOnly today, double inspectionMonths)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        if (PreApproval.Documents.Inventory.InventoryUse.InspectionFault(vessel, today) is not null)
        {
            return "is after today: check the day";
        }

        return vessel.InspectedOn is { } on && on.AddMonths((int)inspectionMonths) is var due && due < today ? $"ran out on {Of(due)}" : null;
    }

    /// <summary>A part with its limits.</summary>
    public static string Of(VesselPartEntry part)
    {
        ArgumentNullException.ThrowIfNull(part);
        string[] limits = [.. ((string[])[Of(part.Rating), Of(part.MaximumTemperature)]).Where(static words => words.Length > 0)];
        return limits.Length == 0 ? $"{part.Part}: no limits given" : $"{part.Part}: {string.Join(", ", limits)}";
    }

    /// <summary>A relief device and where it opens.</summary>
    public static string Of(ReliefEntry? relief) => relief is null ? "" : $"{relief.DeviceWord}, opens at {Of(relief.Set)}";

    /// <summary>The measures of a glass wall.</summary>
    public static string Of(GlassTubeEntry? tube) => tube is null
        ? ""
        : string.Create(CultureInfo.InvariantCulture, $"{tube.OutsideDiameterMm} mm outside, wall {tube.WallMm} mm, {tube.Annealed switch { true => "annealed", false => "not annealed", null => "not known to be annealed" }}");

    /// <summary>The rating as stated, else by the wall.</summary>
    public static string RatingOf(VesselEntry vessel, string unknown)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        return vessel.Rating is { } stated ? Of(stated) : WallRating.Of(vessel)?.Bar ?? unknown;
    }

    /// <summary>What the wall has to do with the rating.</summary>
    public static string WallOf(VesselEntry vessel, WallRating wall)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        ArgumentNullException.ThrowIfNull(wall);
        return vessel.Rating is null ? wall.Basis : $"{wall.Bar} {wall.Basis} governs";
    }

    public static string Of(VersionChange change) => change switch
    {
        VersionChange.Added => "added",
        VersionChange.Changed => "changed",
        VersionChange.Retired => "taken out",
    };

    public static string Of(ImportEffect effect) => effect switch
    {
        ImportEffect.Added => "new",
        ImportEffect.Changed => "changes",
        ImportEffect.Unchanged => "stays",
    };

    /// <summary>Kind and limits in one line, for choosing.</summary>
    public static string Line(InventoryVessel vessel)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        string[] words = [vessel.Label, vessel.Vessel.Kind, Of(vessel.Vessel.Volume), Of(vessel.Vessel.Rating), vessel.OutOfService is null ? "" : "out of service"];
        return string.Join(", ", words.Where(static word => word.Length > 0));
    }
}
