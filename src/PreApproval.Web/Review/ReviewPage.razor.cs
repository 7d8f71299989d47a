using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Components;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Comparisons;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared.Charts;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Review;

/// <summary>The findings to answer and the decision to sign. A fault keeps every answer; only the password must be typed again.</summary>
public sealed partial class ReviewPage : PageBase
{
    private readonly List<FindingAnswer> _answers = [];
    private RevisionView? _revision;
    private ScreeningView? _screening;
    private SlotView? _slot;
    private JsonObject _document = [];
    private IReadOnlyList<FindingView> _toAnswer = [];
    private IReadOnlyList<PressureCurve> _curves = [];
    private IReadOnlyList<FindingAnswer> _earlier = [];
    private IReadOnlyList<WrittenWords> _kept = [];
    private RevisionView? _previous;
    private string? _lost;
    private int? _next;
    private int? _comparedWith;
    private SeenRevision? _seen;
    private HazardComparison _changes = HazardComparison.Unreadable;

    [Parameter]
    public Guid Id { get; set; }

    [Inject]
    private ProcedureQueries Queries { get; set; } = null!;

    [Inject]
    private DocumentScreener Screener { get; set; } = null!;

    [Inject]
    private DecisionHandler Decisions { get; set; } = null!;

    [Inject]
    private PolicyInUse Thresholds { get; set; } = null!;

    [Inject]
    private PasswordConfirmation Passwords { get; set; } = null!;

    protected override Guid? ProcedureInQuestion => Id;

    private IEnumerable<FindingView> Others => _screening?.Findings.Except(_toAnswer) ?? [];

    private bool Countersigns => _slot?.Slot.StartsWith("countersign", StringComparison.Ordinal) == true;

    protected override async Task LoadAsync()
    {
        if (Take(await Queries.ReadAsync(Actor, Id, Cancellation)) is not { } procedure)
        {
            return;
        }

        if (procedure.Revisions.Count == 0)
        {
            Refuse(Refusal.NotFound);
            return;
        }

        int latest = procedure.Revisions.Max(r => r.Number);
        int number = PostedRevision is { } posted && procedure.Revisions.Any(r => r.Number == posted) ? posted : latest;
        if (Take(await Queries.ReadRevisionAsync(Actor, Id, number, Cancellation)) is not { } revision)
        {
            return;
        }

        _slot = SlotOf(revision);
        if (_slot is null || revision.State != ProcedureState.InReview || number != latest)
        {
            if (PostedRevision is null || !await LoseAsync(revision, latest))
            {
                Refuse(WhyNot(revision));
            }

            return;
        }

        Show(revision, _slot);
        _previous = await EarlierDecision.FindAsync(Queries, Actor, procedure, number, Cancellation);
        _comparedWith = ChangeWords.EarlierThan(procedure, number);
        _seen = await SeenRevision.FindAsync(Queries, Screener, Actor, procedure, revision, _comparedWith, Cancellation);
        if (_comparedWith is { } before && await Queries.ReadRevisionAsync(Actor, Id, before, Cancellation) is { IsOk: true } earlier)
        {
            _changes = HazardComparison.Between(Screener, earlier.Value.Document, revision.Document, await Thresholds.OfAsync(Actor, Cancellation));
        }
    }

    private int? PostedRevision => int.TryParse(Posted("revision"), NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : null;

    private SlotView? SlotOf(RevisionView revision) => revision.Slots.FirstOrDefault(s => s.Open && s.Decision is null && s.AssigneeId == Actor.UserId);

    private void Show(RevisionView revision, SlotView slot)
    {
        _revision = revision;
        _screening = ScreeningView.Read(revision.Screening);
        _document = DocumentText.Parse(revision.Document);
        _toAnswer = [.. _screening.ToAnswer.Where(f => Countersigns || slot.Hazards.Contains(f.Hazard))];
        _curves = PressureCurve.From(_document, _screening);
        _earlier = [.. revision.Slots.Where(s => s.Decision is not null).SelectMany(s => s.Decision!.Answers)];
    }

    /// <summary>Somebody acted while the form was open: shows what happened, with every word that was typed. False for a person whose form it never was.</summary>
    private async Task<bool> LoseAsync(RevisionView revision, int latest)
    {
        SlotView[] mine = [.. revision.Slots.Where(s => s.AssigneeId == Actor.UserId)];
        if (mine.Length == 0)
        {
            return false;
        }

        string seen = Posted("slot");
        _slot = mine.FirstOrDefault(s => string.Equals(s.Slot, seen, StringComparison.Ordinal)) ?? mine[0];
        Show(revision, _slot);
        _kept = [.. Written()];
        _lost = Meanwhile.Of(revision, latest, Actor.UserId);
        if (latest > revision.Number && await Queries.ReadRevisionAsync(Actor, Id, latest, Cancellation) is { IsOk: true } later
            && later.Value.State == ProcedureState.InReview && SlotOf(later.Value) is not null)
        {
            _next = latest;
        }

        Http.Response.StatusCode = StatusCodes.Status409Conflict;
        return true;
    }

    private IEnumerable<WrittenWords> Written()
    {
        if (Posted("reason") is { Length: > 0 } reason)
        {
            yield return new WrittenWords("To the author", "", reason);
        }

        for (int i = 0; i < _toAnswer.Count; i++)
        {
            string index = i.ToString(CultureInfo.InvariantCulture);
            string text = Posted($"text-{index}");
            AnswerKind? answer = AnswerOf(Posted($"answer-{index}"));
            if (text.Length > 0 || answer is not null)
            {
                yield return new WrittenWords(answer is { } kind ? Words.Of(kind) : "Without a choice", _toAnswer[i].Statement, text);
            }
        }
    }

    private static AnswerKind? AnswerOf(string posted) => posted switch
    {
        "accept" => AnswerKind.Accept,
        "condition" => AnswerKind.Condition,
        "send-back" => AnswerKind.SendBack,
        _ => null,
    };

    private Refusal WhyNot(RevisionView revision)
    {
        if (revision.AuthorId == Actor.UserId)
        {
            return Refusal.Because(RefusalKind.Forbidden, "You wrote this procedure: somebody else has to decide on it.");
        }

        if (revision.State != ProcedureState.InReview)
        {
            return Refusal.Because(RefusalKind.Conflict, $"Revision {revision.Number.ToString(CultureInfo.InvariantCulture)} is not in review any more: {Words.Of(revision.State).ToLowerInvariant()}.");
        }

        string holders = string.Join(", ", revision.Slots.Where(s => s.Open && s.Decision is null).Select(s => s.AssigneeName));
        return Refusal.Because(RefusalKind.Forbidden, $"This revision waits for {(holders.Length > 0 ? holders : "somebody else")}, not for you.");
    }
}
