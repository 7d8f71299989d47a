using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>What the screening offers, put into the draft.</summary>
public sealed partial class EditedDocument
{
    /// <summary>Puts an offered change where it belongs, with the surface that goes down with it. False where the draft has no such place any more.</summary>
    public bool Take(ClearingView offer)
    {
        ArgumentNullException.ThrowIfNull(offer);
        if (!TryPlace(offer.Path, out JsonObject on, out string path) || JsonNode.Parse(offer.To.GetRawText()) is not { } value)
        {
            return false;
        }

        Set(on, path, value);
        return offer.With is not { To.ValueKind: not JsonValueKind.Undefined } with || Take(with);
    }

    /// <summary>The row that a pointer leads through, or the document itself, and the path below it.</summary>
    private bool TryPlace(string pointer, out JsonObject on, out string path)
    {
        string[] parts = pointer.Split('/', StringSplitOptions.RemoveEmptyEntries);
        (on, path) = (Root, string.Join('/', parts));
        if (parts.Length < 3 || Root[parts[0]] is not JsonArray)
        {
            return parts.Length > 0;
        }

        if (DocumentText.At(Root, $"{parts[0]}/{parts[1]}") is not JsonObject row)
        {
            return false;
        }

        (on, path) = (row, string.Join('/', parts[2..]));
        return true;
    }
}
