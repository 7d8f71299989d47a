namespace PreApproval.Web.Shared;

/// <summary>
/// Stands in the OpenAPI document for the procedure document, which is read from its exact bytes and described by its own
/// schema, <c>docs/procedure.schema.json</c>.
/// </summary>
public sealed record ProcedureDocumentBody;

/// <summary>Stands in the OpenAPI document for the screening report, whose exact bytes are passed on.</summary>
public sealed record ScreeningReport;
