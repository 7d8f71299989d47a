using PreApproval.Web.Accounts;
using PreApproval.Web.Catalogue;
using PreApproval.Web.Comparisons;
using PreApproval.Web.Drafting;
using PreApproval.Web.History;
using PreApproval.Web.Inventory;
using PreApproval.Web.Review;
using PreApproval.Web.Screenings;
using PreApproval.Web.Submission;
using PreApproval.Web.Thresholds;

namespace PreApproval.Web.Shared;

/// <summary>The REST API, version 1.</summary>
public static class Api
{
    public static WebApplication MapApi(this WebApplication app)
    {
        // Signed in unless an endpoint says otherwise; who may do what is decided by the handlers.
        RouteGroupBuilder api = app.MapGroup(ApiPaths.Root).RequireAuthorization().AddEndpointFilterFactory(QueryFaults.Name);
        api.MapAccounts();
        api.MapCatalogue();
        api.MapInventory();
        api.MapScreenings();
        api.MapComparisons();
        api.MapDrafting();
        api.MapSubmission();
        api.MapReview();
        api.MapHistory();
        api.MapPolicy();
        app.MapOpenApi("/openapi/{documentName}.json");
        return app;
    }
}
