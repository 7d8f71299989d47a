using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Plans;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>Another vessel in place of the planned one, with what was said of that one alone taken out.</summary>
public sealed partial class ExploredDraft
{
    /// <summary>The short name of the vessel that stands in for one of the inventory; null: none does.</summary>
    public string? Unlisted { get; private set; }

    /// <summary>A vessel of its own instead of the inventory's: another short name in every step, and without what was said of that one alone.</summary>
    private void Unlist(ProcedureDocument document, StepState state, GroupInventory inventory)
    {
        string id = state.Vessel.Id;
        string row = Pointer("vessels", state.VesselIndex);
        Unlisted = ListedVessels.NameFor(id, document, inventory);
        Set(row, "id", $"short name of {id}, which is the inventory's", JsonValue.Create(Unlisted));
        foreach ((JsonObject step, int s) in Numbered(DocumentText.Rows(Root, "steps")))
        {
            foreach (string member in (string[])["vessel", "to"])
            {
                if (string.Equals(DocumentText.Text(step, member), id, StringComparison.Ordinal))
                {
                    Set(Pointer("steps", s), member, $"vessel of step {DocumentText.Text(step, "id")}", JsonValue.Create(Unlisted));
                }
            }
        }

        foreach ((string member, JsonNode value) in ListedVessels.Open(At(Root, row)!, document, state.VesselIndex))
        {
            Set(row, member, $"{OfTheOldVessel.FirstOrDefault(of => string.Equals(of.Member, member, StringComparison.Ordinal)).Label ?? "inner volume"} of {id}", value);
        }

        foreach ((string member, string label) in OfTheOldVessel.Where(static of => of.Member is "ratingEvidence" or "inspectedOn"))
        {
            Set(row, member, $"{label} of {id}, which was that of the inventory's vessel", null);
        }
    }

    private void SetVessel(StepState state, ExploredValues values, bool toKeep)
    {
        string row = Pointer("vessels", state.VesselIndex);
        string id = state.Vessel.Id;
        if (values.Kind is { } kind)
        {
            Set(row, "kind", $"kind of {id}", JsonValue.Create(kind));
            foreach ((string member, string label) in OfTheOldVessel)
            {
                Set(row, member, $"{label} of {id}, which was that of the other vessel", null);
            }
        }

        if (values.VolumeML is { } volume)
        {
            Set(row, "volume", $"inner volume of {id}", Quantity(volume, "mL"));
        }

        if (values.RatingBarGauge is { } rating && !(toKeep && values.RatingIsTypical))
        {
            Set(row, "rating", $"rated pressure of {id}", Quantity(rating, "bar(g)"));
            Set(row, "ratingEvidence", $"where the rating of {id} is written, which was that of the other rating", null);
        }
    }

    /// <summary>Members of a vessel that say nothing about another one.</summary>
    private static IReadOnlyList<(string Member, string Label)> OfTheOldVessel { get; } =
    [
        ("rating", "rated pressure"), ("ratingEvidence", "where the rating is written"), ("maximumTemperature", "highest temperature"), ("closure", "closure"),
        ("inspectedOn", "inspection"), ("relief", "relief device"), ("glassTube", "glass wall"), ("parts", "parts"),
    ];
}
