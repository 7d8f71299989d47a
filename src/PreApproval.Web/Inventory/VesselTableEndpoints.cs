using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Inventory;

/// <summary>The vessels of a group as a file of comma-separated values.</summary>
public static class VesselTableEndpoints
{
    /// <summary>RFC 4180, section 3.</summary>
    private const string ContentType = "text/csv; charset=utf-8; header=present";

    private const char ByteOrderMark = '\uFEFF';

    public static void MapVesselTable(this RouteGroupBuilder api)
    {
        api.MapGet("/vessels/export", ExportAsync)
            .WithName("export-vessels")
            .WithSummary("The vessels in use as CSV (RFC 4180), units in the header")
            .WithDescription("mark=true begins it with a byte order mark, by which spreadsheets know UTF-8. Text that a spreadsheet would compute stands behind an apostrophe, which an import takes away.")
            .Produces<string>(StatusCodes.Status200OK, "text/csv")
            .Refuses(400, 403, 404);
        api.MapPost("/vessels/import", ImportAsync)
            .WithName("import-vessels")
            .WithSummary("Add and change vessels from CSV, all lines or none")
            .WithDescription("Vessels are found by label. preview=true says what would change and changes nothing; its 'plan', given with the import, makes it 412 where something else would happen. Faults name line and column: /3/volume (mL).")
            .TakesCsv().WithIdempotencyKey()
            .Produces<VesselImport>()
            .Refuses(400, 403, 404, 409, 412, 413, 415, 422);
    }

    private static async Task<Results<Utf8ContentHttpResult, ProblemResult>> ExportAsync(
        HttpContext context, ActorProvider actors, InventoryTable table, Guid? group, bool? mark, CancellationToken cancellationToken)
    {
        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<string, Refusal> exported = await table.ExportAsync(actor, cancellationToken);
        if (!exported.IsOk)
        {
            return Problems.From(context, exported.Error);
        }

        context.Response.Headers.ContentDisposition = "attachment; filename=\"vessels.csv\"";
        return TypedResults.Text(Encoding.UTF8.GetBytes(mark == true ? ByteOrderMark + exported.Value : exported.Value), ContentType);
    }

    private static async Task<Results<Ok<VesselImport>, ProblemResult>> ImportAsync(
        HttpContext context, ActorProvider actors, InventoryTable table, Guid? group, bool? preview, string? plan, CancellationToken cancellationToken)
    {
        Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<VesselImport, Refusal> imported = await table.ImportAsync(actor, body.Value, preview ?? false, plan, cancellationToken);
        return imported.IsOk ? TypedResults.Ok(imported.Value) : Problems.From(context, imported.Error);
    }
}
