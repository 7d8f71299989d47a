using System.Globalization;
using PreApproval.Documents.Reading;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Inventory;

/// <summary>A document with what the inventory knows of its vessels and its place.</summary>
/// <param name="Document">The same instance where nothing was copied.</param>
/// <param name="Faults">Vessels that must not be used as the document says; empty: none.</param>
public sealed record InventoryCompletion(ProcedureDocument Document, IReadOnlyList<Fault> Faults);

/// <summary>
/// Copies vessels, the place and the agents on hand there from a group's inventory into a document that names them, so that it stands by
/// itself. What the document leaves open is filled in; what it states of a vessel must agree with the inventory; what it states of a place
/// and of agents at hand is left as it is, with the agents that stand at the place beside it.
/// </summary>
public static class InventoryUse
{
    /// <summary>How far two numbers may differ and be the same, relative: rounding between units.</summary>
    private const double SameWithin = 1e-9;

    /// <param name="document">As <see cref="DocumentReader.Read"/> gave it.</param>
    /// <param name="inventory">At least the vessels and places that the document names.</param>
    /// <param name="today">By which an inspection is judged where the document does not say when it is planned.</param>
    public static InventoryCompletion Complete(ProcedureDocument document, GroupInventory inventory, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(inventory);
        List<Fault> faults = [];
        bool copied = false;
        VesselEntry[] vessels = [.. document.Vessels.Select(Vessel)];
        ListedPlace? place = inventory.Find(document.Place);
        ProcedureDocument completed = document with
        {
            Vessels = vessels,
            Place = place is null ? document.Place : Place(document.Place!, place),
            FireResponse = place is { Agents.Count: > 0 } && document.FireResponse?.Agents is null
                ? new FireResponseEntry(place.Agents, document.FireResponse?.Plan)
                : document.FireResponse,
        };
        copied |= completed.Place != document.Place || completed.FireResponse != document.FireResponse;
        return new InventoryCompletion(copied ? completed : document, faults);

        VesselEntry Vessel(VesselEntry vessel, int index)
        {
            if (document.PlannedOn is null && InspectionFault(vessel, today) is { } future)
            {
                faults.Add(future with { Path = string.Create(CultureInfo.InvariantCulture, $"/vessels/{index}{future.Path}") });
            }

            if (inventory.Find(vessel) is not { } listed)
            {
                return vessel;
            }

            faults.AddRange(Faults(vessel, listed, document.PlannedOn, today, inventory.InspectionMonths).Select(fault =>
                new Fault(fault.Path.StartsWith("/plannedOn", StringComparison.Ordinal) ? fault.Path : string.Create(CultureInfo.InvariantCulture, $"/vessels/{index}{fault.Path}"), fault.Message)));
            VesselEntry filled = Filled(vessel, listed);
            copied |= filled != vessel;
            return filled;
        }
    }

    /// <summary>The values of an inventory vessel as a vessel of a document has them.</summary>
    public static VesselEntry Filled(VesselEntry vessel, ListedVessel listed)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        ArgumentNullException.ThrowIfNull(listed);
        VesselEntry known = listed.Entry.Vessel;
        return vessel with
        {
            Volume = vessel.Volume ?? known.Volume,
            Rating = vessel.Rating ?? known.Rating,
            RatingEvidence = vessel.RatingEvidence is null || string.Equals(vessel.RatingEvidence, known.RatingEvidence, StringComparison.Ordinal) ? Evidence(listed) : vessel.RatingEvidence,
            MaximumTemperature = vessel.MaximumTemperature ?? known.MaximumTemperature,
            Closure = vessel.Closure ?? known.Closure,
            InspectedOn = vessel.InspectedOn ?? known.InspectedOn,
            Relief = vessel.Relief ?? known.Relief,
            GlassTube = InventoryFittings.Filled(vessel.GlassTube, known.GlassTube),
            Parts = vessel.Parts ?? known.Parts,
        };
    }

    /// <summary>An inspection that has not been yet; null: it has, or none is stated. A day is allowed for places where it is tomorrow already.</summary>
    public static Fault? InspectionFault(VesselEntry vessel, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        return vessel.InspectedOn is { } inspected && inspected > today.AddDays(1)
            ? new Fault("/inspectedOn", $"is after today ({Words(inspected)}): enter the day of the last inspection, which has been")
            : null;
    }

    /// <summary>What stands there is what the inventory says now: a list taken along from an earlier copy may be out of date.</summary>
    private static PlaceEntry Place(PlaceEntry place, ListedPlace listed) => place with
    {
        Kind = place.Kind ?? listed.Entry.Place.Kind,
        RoomVolume = place.RoomVolume ?? listed.Entry.Place.RoomVolume,
        AirFlow = place.AirFlow ?? listed.Entry.Place.AirFlow,
        Agents = listed.Agents.Count > 0 ? listed.Agents : place.Agents,
    };

    /// <summary>Says in the copy where the statement comes from and who made it: the reviewer sees it in the procedure.</summary>
    private static string? Evidence(ListedVessel listed) => listed.Entry.Vessel.RatingEvidence is { } evidence
        ? string.Create(CultureInfo.InvariantCulture, $"the group's inventory, {listed.Entry.Label}, version {listed.Version} by {listed.ChangedBy}: {evidence}")
        : null;

    private static IEnumerable<Fault> Faults(VesselEntry vessel, ListedVessel listed, DateOnly? plannedOn, DateOnly today, double inspectionMonths)
    {
        VesselEntry known = listed.Entry.Vessel;
        if (listed.Retired is { } why)
        {
            yield return new Fault("", $"was taken out of the group's inventory ({Shown.Text(why)}); use another vessel, or give this one another short id if it is not {listed.Entry.Label}");
            yield break;
        }

        if (listed.Entry.OutOfService is { } reason)
        {
            yield return new Fault("", $"is out of service in the group's inventory ({Shown.Text(reason)}); use another vessel");
        }

        if (!Agree(vessel.Volume, known.Volume))
        {
            yield return Differs("/volume", Words(vessel.Volume), Words(known.Volume), listed);
        }

        if (!Agree(vessel.Rating, known.Rating))
        {
            yield return Differs("/rating", Words(vessel.Rating), Words(known.Rating), listed);
        }

        if (!Agree(vessel.MaximumTemperature, known.MaximumTemperature))
        {
            yield return Differs("/maximumTemperature", Words(vessel.MaximumTemperature), Words(known.MaximumTemperature), listed);
        }

        if (vessel.InspectedOn is { } stated && stated != known.InspectedOn)
        {
            yield return Differs("/inspectedOn", Words(stated), known.InspectedOn is { } listedOn ? Words(listedOn) : "not given", listed);
        }

        foreach ((string path, string here, string there) in InventoryFittings.Differences(vessel, known))
        {
            yield return Differs(path, here, there, listed);
        }

        foreach (VesselPartEntry missing in (vessel.Parts is null ? [] : known.Parts ?? []).Where(part => !vessel.Parts!.Any(other => Same(part, other))))
        {
            yield return new Fault("/parts", $"does not have {Words(missing)} as the group's inventory has it ({listed.Entry.Label}, version {listed.Version.ToString(CultureInfo.InvariantCulture)}); take it from there again");
        }

        if (plannedOn is null && known.InspectedOn is { } inspected && inspected.AddMonths((int)inspectionMonths) is var due && due < today)
        {
            yield return new Fault("/plannedOn", $"is missing: the inspection of {listed.Entry.Label} ({Words(inspected)}) ran out on {Words(due)}; say for which day the work is planned");
        }
    }

    private static Fault Differs(string path, string stated, string known, ListedVessel listed) => new(
        path,
        string.Create(CultureInfo.InvariantCulture, $"is {stated} here and {known} in the group's inventory ({listed.Entry.Label}, version {listed.Version}); take it from there again, or give this vessel another short id"));

    /// <summary>What the document leaves open agrees with anything; a value that the inventory does not have contradicts it.</summary>
    internal static bool Agree(Quantity? stated, Quantity? known) => stated is null || Same(stated, known);

    internal static bool Same(Quantity? one, Quantity? other) => (one, other) switch
    {
        (null, null) => true,
        ({ } a, { } b) => Same(a.Si, b.Si),
        _ => false,
    };

    internal static bool Same(double one, double other) => Math.Abs(one - other) <= SameWithin * Math.Max(Math.Abs(one), Math.Abs(other));

    private static bool Same(VesselPartEntry one, VesselPartEntry other) =>
        Hazards.Substances.NameSpelling.Same(one.Part, other.Part) && Same(one.Rating, other.Rating) && Same(one.MaximumTemperature, other.MaximumTemperature);

    private static string Words(VesselPartEntry part) =>
        string.Join(", ", ((string[])[$"the part \"{Shown.Text(part.Part)}\"", part.Rating is null ? "" : Words(part.Rating), part.MaximumTemperature is null ? "" : Words(part.MaximumTemperature)]).Where(static words => words.Length > 0));

    internal static string Words(Quantity? quantity) => quantity is null ? "not given" : string.Create(CultureInfo.InvariantCulture, $"{quantity.Value} {quantity.Unit}");

    private static string Words(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
