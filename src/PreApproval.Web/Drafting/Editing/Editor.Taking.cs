using Microsoft.JSInterop;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>What the screening offers, put into the draft.</summary>
public sealed partial class Editor
{
    /// <summary>Puts an offered change in and goes to its field: the button that did it goes with the finding.</summary>
    private async Task TakeOfferAsync(ClearingView offer)
    {
        if (!_document!.Take(offer))
        {
            return;
        }

        StateHasChanged();
        try
        {
            await Js.InvokeVoidAsync("preapprovalFields.goTo", _gone.Token, offer.Path);
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            // The page was closed.
        }
    }
}
