using System.Text.Json;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Drafting;

/// <summary>Body of <c>POST procedures</c>.</summary>
/// <param name="Group">Group it belongs to; null: your first group.</param>
/// <param name="Document">The procedure document, complete or not.</param>
public sealed record NewProcedureBody(Guid? Group, ProcedureDocumentBody Document);

/// <summary>A new procedure.</summary>
/// <param name="Faults">What still keeps it from being submitted.</param>
public sealed record NewProcedureAnswer(Guid Id, ProcedureState State, IReadOnlyList<FieldError> Faults);

/// <summary>A draft after it was saved; its version is the ETag.</summary>
public sealed record SavedDraftAnswer(Guid Id, ProcedureState State, string Title, DateTimeOffset SavedAt, IReadOnlyList<FieldError> Faults)
{
    public static SavedDraftAnswer From(DraftView draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return new SavedDraftAnswer(draft.ProcedureId, draft.State, draft.Title, draft.SavedAt, [.. draft.Faults.Select(f => new FieldError(f.Path, f.Message))]);
    }
}

/// <summary>A draft with its document.</summary>
/// <param name="Document">The document as it was saved.</param>
public sealed record DraftAnswer(Guid Id, ProcedureState State, string Title, DateTimeOffset SavedAt, IReadOnlyList<FieldError> Faults, JsonElement Document);

/// <summary>One line of the list.</summary>
public sealed record ProcedureLine(
    Guid Id, string Title, ProcedureState State, int? Revision, Guid AuthorId, string AuthorName, DateTimeOffset UpdatedAt,
    Hazards.Screening.Severity? Worst, int FindingCount, IReadOnlyList<WaitingAnswer> Waiting)
{
    public static ProcedureLine From(ProcedureSummary s)
    {
        ArgumentNullException.ThrowIfNull(s);
        return new ProcedureLine(s.Id, s.Title, s.State, s.Revision, s.AuthorId, s.AuthorName, s.UpdatedAt, s.Worst, s.FindingCount,
            [.. s.Waiting.Select(w => new WaitingAnswer(w.Slot, w.AssigneeId, w.AssigneeName, w.Since, w.Due))]);
    }
}

/// <summary>Who has it now, and since when.</summary>
public sealed record WaitingAnswer(string Slot, Guid AssigneeId, string AssigneeName, DateTimeOffset Since, DateTimeOffset Due);

/// <summary>A procedure and its revisions, newest first.</summary>
/// <param name="DraftVersion">Version of the draft, for those who may edit it.</param>
public sealed record ProcedureAnswer(
    Guid Id, Guid Group, string Title, ProcedureState State, Guid AuthorId, string AuthorName, DateTimeOffset CreatedAt, int? DraftVersion, IReadOnlyList<RevisionLine> Revisions)
{
    public static ProcedureAnswer From(ProcedureView p)
    {
        ArgumentNullException.ThrowIfNull(p);
        return new ProcedureAnswer(p.Id, p.GroupId, p.Title, p.State, p.AuthorId, p.AuthorName, p.CreatedAt, p.Draft?.Version,
            [.. p.Revisions.Select(r => new RevisionLine(r.Number, r.State, r.SubmittedAt))]);
    }
}

/// <summary>A revision in the list of a procedure.</summary>
public sealed record RevisionLine(int Number, ProcedureState State, DateTimeOffset SubmittedAt);
