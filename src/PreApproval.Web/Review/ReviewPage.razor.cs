using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Components;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
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

    private async Task DecideAsync()
    {
        if (_revision is null)
        {
            return;
        }

        string decisionWord = Posted("decision");
        DecisionKind? decision = decisionWord switch
        {
            "approve" => DecisionKind.Approve,
            "request-changes" => DecisionKind.RequestChanges,
            "decline" => DecisionKind.Decline,
            _ => null,
        };
        if (decision is not { } kind)
        {
            Fault("", "Choose what you decide: approve, request changes or decline.");
            return;
        }

        ReadAnswers(kind);
        string reason = Posted("reason");
        if (kind != DecisionKind.Approve && reason.Length == 0)
        {
            Fault("reason", kind == DecisionKind.RequestChanges ? "Tell the author what has to change." : "Tell the author why you decline.");
        }

        if (Http.Request.Form["password"].ToString().Length == 0)
        {
            Fault("password", "Enter your password: it is your signature.");
        }

        if (Errors.Count == 0)
        {
            // A wrong password goes to the handler too: a refused signature is an event.
            Confirmation confirmation = await Passwords.ConfirmAsync(Actor.UserId, Http.Request.Form["password"].ToString(), Cancellation);
            if (confirmation == Confirmation.TooMany)
            {
                Fault("password", "You have signed many times within a minute. Wait a minute, then sign again: nothing was signed now.");
                Http.Response.StatusCode = StatusCodes.Status429TooManyRequests;
                return;
            }

            await SignAsync(new DecisionRequest(_revision.Number, kind, reason, _answers, confirmation == Confirmation.Confirmed, Posted("slot")));
        }
    }

    private void ReadAnswers(DecisionKind kind)
    {
        for (int i = 0; i < _toAnswer.Count && !Countersigns; i++)
        {
            string index = i.ToString(CultureInfo.InvariantCulture);
            string text = Posted($"text-{index}");
            if (AnswerOf(Posted($"answer-{index}")) is not { } given)
            {
                if (kind == DecisionKind.Approve)
                {
                    Fault($"answer-{index}", $"Answer this finding before you approve: {_toAnswer[i].Statement}");
                }

                continue;
            }

            if (kind == DecisionKind.Approve && given == AnswerKind.SendBack)
            {
                Fault($"answer-{index}", $"A finding that you send back cannot be approved: request changes, or answer it otherwise. {_toAnswer[i].Statement}");
            }

            if (text.Length == 0)
            {
                Fault($"text-{index}", given switch { AnswerKind.Condition => "Write the condition.", AnswerKind.Accept => "Write why you accept it.", AnswerKind.SendBack => "Write what must change." });
            }

            _answers.Add(new FindingAnswer(_toAnswer[i].Id, given, text));
        }
    }

    private async Task SignAsync(DecisionRequest request)
    {
        if (request.PasswordConfirmed)
        {
            await OnceAsync(() => DecideOnceAsync(request), RefuseSignature);
            if (Http.Response.StatusCode == StatusCodes.Status409Conflict)
            {
                await ShowWhatHappenedAsync();
            }
        }
        else
        {
            // The form's key stays free for the right password.
            Result<RevisionView, Refusal> decided = await Decisions.DecideAsync(Actor, Id, request, Cancellation);
            RefuseSignature(decided.IsOk ? throw new InvalidOperationException("Signed without a password.") : decided.Error);
        }
    }

    /// <summary>Between reading the page again and signing somebody acted.</summary>
    private async Task ShowWhatHappenedAsync()
    {
        if (await Queries.ReadAsync(Actor, Id, Cancellation) is { IsOk: true } procedure
            && await Queries.ReadRevisionAsync(Actor, Id, _revision!.Number, Cancellation) is { IsOk: true } revision)
        {
            await LoseAsync(revision.Value, procedure.Value.Revisions.Max(r => r.Number));
        }
    }

    private async Task<Result<string, Refusal>> DecideOnceAsync(DecisionRequest request)
    {
        Result<RevisionView, Refusal> decided = await Decisions.DecideAsync(Actor, Id, request, Cancellation);
        return decided.IsOk ? Links.Revision(Id, request.Revision) : decided.Error;
    }

    private void RefuseSignature(Refusal refusal)
    {
        if (refusal.Kind == RefusalKind.SignInAgain)
        {
            Fault("password", "This is not your password, so nothing was signed. After several wrong attempts your account rests for a few minutes.");
        }
        else
        {
            RefuseForm(refusal with { Faults = [] }, "");
            foreach (Fault fault in refusal.Faults)
            {
                Fault(FieldOf(fault.Path), fault.Message);
            }
        }
    }

    /// <summary>The field of the page for a path into the request.</summary>
    private string FieldOf(string path) => path.Split('/', StringSplitOptions.RemoveEmptyEntries) switch
    {
        ["reason", ..] => "reason",
        ["answers", var index, "text"] when int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out int i) && i < _answers.Count => $"text-{FieldIndexOf(_answers[i])}",
        ["answers", var index, ..] when int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out int i) && i < _answers.Count => $"answer-{FieldIndexOf(_answers[i])}",
        _ => "",
    };

    private int FieldIndexOf(FindingAnswer answer) =>
        Math.Max(0, _toAnswer.ToList().FindIndex(f => string.Equals(f.Id, answer.FindingId, StringComparison.Ordinal)));
}
