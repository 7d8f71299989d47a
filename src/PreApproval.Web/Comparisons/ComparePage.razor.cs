using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Components;
using PreApproval.Documents;
using PreApproval.Documents.Comparing;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Comparisons;

/// <summary>A document that can be chosen.</summary>
/// <param name="Value">Identifier of the procedure and number of the revision, or <c>draft</c>.</param>
/// <param name="Group">Title of the procedure.</param>
/// <param name="Words">Which document of it.</param>
public sealed record CompareOption(string Value, string Group, string Words);

/// <summary>Two of one's own procedures, or documents from files, compared.</summary>
public sealed partial class ComparePage : PageBase
{
    private const int MostProcedures = 200;
    private const int MostFaultsShown = 5;

    private IReadOnlyList<CompareOption> _options = [];
    private HazardComparison? _comparison;
    private IReadOnlyList<PlanChange> _plan = [];
    private (string Before, string After) _preset = ("", "");
    private string _before = "";
    private string _after = "";

    [Parameter]
    public Guid? Id { get; set; }

    [Inject]
    private ProcedureQueries Queries { get; set; } = null!;

    [Inject]
    private OwnValues OwnValues { get; set; } = null!;

    [Inject]
    private PolicyInUse Thresholds { get; set; } = null!;

    [Inject]
    private DocumentScreener Screener { get; set; } = null!;

    protected override Guid? ProcedureInQuestion => Id;

    protected override async Task LoadAsync()
    {
        List<CompareOption> options = [];
        if (Id is { } id)
        {
            if (Take(await Queries.ReadAsync(Actor, id, Cancellation)) is not { } procedure)
            {
                return;
            }

            options.AddRange(OptionsOf(id, procedure.Title, procedure.Draft is not null, procedure.Revisions.Count == 0 ? null : procedure.Revisions.Max(r => r.Number)));
            _preset = PresetOf(options);
        }

        if (Take(await Queries.ListAsync(Actor, state: null, cursor: null, MostProcedures, Cancellation)) is { } page)
        {
            options.AddRange(page.Items.Where(p => p.AuthorId == Actor.UserId && p.Id != Id).SelectMany(p => OptionsOf(p.Id, p.Title, hasDraft: true, p.Revision)));
        }

        _options = options;
    }

    private static IEnumerable<CompareOption> OptionsOf(Guid id, string title, bool hasDraft, int? latest)
    {
        string group = title.Length > 0 ? title : "Untitled";
        if (hasDraft)
        {
            yield return new CompareOption($"{id.ToString()}/draft", group, $"Draft of {group}");
        }

        for (int number = latest ?? 0; number > 0; number--)
        {
            yield return new CompareOption(string.Create(CultureInfo.InvariantCulture, $"{id}/{number}"), group, string.Create(CultureInfo.InvariantCulture, $"Revision {number} of {group}"));
        }
    }

    /// <summary>The two latest revisions; where there is one only, that one and the draft.</summary>
    private static (string Before, string After) PresetOf(List<CompareOption> own)
    {
        CompareOption[] revisions = [.. own.Where(static option => !option.Value.EndsWith("/draft", StringComparison.Ordinal))];
        return revisions switch
        {
            [var latest, var before, ..] => (before.Value, latest.Value),
            [var only] when own.Count > 1 => (only.Value, own[0].Value),
            _ => ("", own.Count > 0 ? own[0].Value : ""),
        };
    }

    private string Preset(string side) => side is "after" ? _preset.After : _preset.Before;

    private string Chosen(string side) => Http.Request.HasFormContentType ? Posted(side) : Preset(side);

    /// <summary>What a side was, with its revision or file: two revisions mostly have one title.</summary>
    private string Named(string side, string title)
    {
        string which = Http.Request.Form.Files[$"{side}-file"] is { FileName.Length: > 0 } file ? $"file {file.FileName}"
            : Posted($"{side}-text").Length > 0 ? "pasted"
            : Posted(side).Split('/') is [_, var number] && number is not "draft" ? $"revision {number}"
            : "draft";
        return $"“{title}” ({which})";
    }

    private async Task CompareAsync()
    {
        ProcedureDocument? before = await ReadAsync("before", "Before");
        ProcedureDocument? after = await ReadAsync("after", "After");
        if (before is null || after is null)
        {
            return;
        }

        try
        {
            _comparison = new HazardComparison(Screener.Compare(before, after, await Thresholds.OfAsync(Actor, Cancellation)), null) { Materials = MaterialNames.Of(before, after) };
            _plan = PlanComparison.Between(before, after);
            (_before, _after) = (Named("before", before.Title), Named("after", after.Title));
        }
        catch (ScreeningBusyException)
        {
            Fault("", "Many screenings are running at the moment. Wait a few seconds, then compare again; a file has to be chosen again.");
            Http.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
            Http.Response.Headers.RetryAfter = ((int)ScreeningLimiter.RetryAfter.TotalSeconds).ToString(CultureInfo.InvariantCulture);
        }
    }

    /// <summary>One side of the form; null after its faults were noted.</summary>
    private async Task<ProcedureDocument?> ReadAsync(string side, string heading)
    {
        IFormFile? file = Http.Request.Form.Files[$"{side}-file"] is { FileName.Length: > 0 } sent ? sent : null;
        string text = Posted($"{side}-text");
        string chosen = Posted(side);

        // What was preset gives way to what was brought.
        if ((file is not null || text.Length > 0) && string.Equals(chosen, Preset(side), StringComparison.Ordinal))
        {
            chosen = "";
        }

        switch ((chosen.Length > 0, file, text.Length > 0))
        {
            case (false, null, false):
                Fault(side, $"{heading}: choose a procedure or a file, or paste a document.");
                return null;
            case (true, null, false):
                return await ReadChosenAsync(side, heading, chosen);
            case (false, { } only, false):
                return await ReadFileAsync($"{side}-file", heading, only);
            case (false, null, true):
                return await ReadBytesAsync($"{side}-text", heading, Encoding.UTF8.GetBytes(text));
            default:
                Fault(side, $"{heading}: only one of a procedure, a file and a pasted document can be compared. Clear the others.");
                return null;
        }
    }

    private async Task<ProcedureDocument?> ReadChosenAsync(string field, string heading, string chosen)
    {
        // Only what is offered: the handlers refuse what the person may not read.
        if (_options.FirstOrDefault(o => string.Equals(o.Value, chosen, StringComparison.Ordinal)) is not { } option || !Guid.TryParse(chosen.Split('/')[0], out Guid id))
        {
            Fault(field, $"{heading}: choose a procedure of the list.");
            return null;
        }

        ReadOnlyMemory<byte> document;
        if (int.TryParse(chosen.Split('/')[1], NumberStyles.None, CultureInfo.InvariantCulture, out int number))
        {
            Result<RevisionView, Refusal> revision = await Queries.ReadRevisionAsync(Actor, id, number, Cancellation);
            document = revision.IsOk ? revision.Value.Document : default;
        }
        else
        {
            Result<ProcedureView, Refusal> procedure = await Queries.ReadAsync(Actor, id, Cancellation);
            document = procedure is { IsOk: true, Value.Draft: { } draft } ? draft.Document : default;
        }

        if (document.IsEmpty)
        {
            Fault(field, $"{heading}: {option.Group} is not there any more. Choose another.");
            return null;
        }

        return await ReadBytesAsync(field, $"{heading}, {option.Words}", document);
    }

    private async Task<ProcedureDocument?> ReadFileAsync(string field, string heading, IFormFile file)
    {
        if (file.Length > DocumentReader.LargestBytes)
        {
            Fault(field, string.Create(CultureInfo.InvariantCulture, $"{heading}: the file has {file.Length} bytes; at most {DocumentReader.LargestBytes} (1 MB) are allowed. Choose another file."));
            return null;
        }

        if (file.Length == 0)
        {
            Fault(field, $"{heading}: the file is empty. Choose another file.");
            return null;
        }

        using var bytes = new MemoryStream((int)file.Length);
        await file.CopyToAsync(bytes, Cancellation);
        return await ReadBytesAsync(field, $"{heading}, file {file.FileName}", bytes.ToArray());
    }

    private async Task<ProcedureDocument?> ReadBytesAsync(string field, string heading, ReadOnlyMemory<byte> bytes)
    {
        Result<CompletedDocument, DocumentRefusal> read = await OwnValues.ReadAsync(Actor, bytes, Cancellation);
        if (read.IsOk)
        {
            return read.Value.Document;
        }

        Refusal why = DocumentScreener.Refuse(read.Error);
        int more = why.Faults.Count - MostFaultsShown;
        Fault(field, string.Join(' ', [
            $"{heading}: {why.Message}",
            .. why.Faults.Take(MostFaultsShown).Select(f => $"{(f.Path.Length > 0 ? f.Path + ": " : "")}{f.Message}."),
            .. more > 0 ? [$"And {Words.Count(more, "fault", "faults")} more."] : Array.Empty<string>(),
        ]));
        return null;
    }
}
