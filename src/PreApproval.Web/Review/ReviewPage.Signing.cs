using System.Globalization;
using PreApproval.Documents;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Review;

/// <summary>Reads the decision from the form, checks it and signs it.</summary>
public sealed partial class ReviewPage
{
    private async Task DecideAsync()
    {
        if (_revision is null || WasCarried())
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
