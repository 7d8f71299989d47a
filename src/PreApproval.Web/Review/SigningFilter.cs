using System.Globalization;
using PreApproval.Documents;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Review;

/// <summary>A decision that was read and whose password was checked.</summary>
public sealed record SignedCall(Actor Actor, DecisionRequest Request);

/// <summary>
/// Reads a decision and checks its password before any transaction begins: a request needs one connection at a time, and a
/// repeat with a key needs the password too, though the password is no part of what the key stands for.
/// </summary>
public sealed class SigningFilter(ActorProvider actors, ProcedureQueries procedures, PasswordConfirmation passwords) : IEndpointFilter
{
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(next);
        HttpContext http = context.HttpContext;
        Result<ObjectReader, Refusal> body = await RequestBody.ReadObjectAsync(http.Request, http.RequestAborted);
        if (!body.IsOk)
        {
            return Problems.From(http, body.Error);
        }

        ObjectReader members = body.Value;
        int number = members.Number("revision");
        DecisionKind kind = members.Word<DecisionKind>("decision");
        string? slot = members.OptionalText("slot", most: 100);
        string reason = members.OptionalText("reason", TypedText.Longest) ?? "";
        FindingAnswer[] answers = [.. members.Objects("answers", most: 1000)
            .Select(a => new FindingAnswer(a.Text("finding", most: 500), a.Word<AnswerKind>("answer"), a.OptionalText("text", TypedText.Longest) ?? ""))];
        string password = members.Text("password", PasswordRules.Longest);
        if (members.Finish() is { } refusal)
        {
            return Problems.From(http, refusal);
        }

        Guid id = Guid.Parse((string)http.GetRouteValue("id")!, CultureInfo.InvariantCulture);
        if (await actors.ForProcedureAsync(http.User, id, http.RequestAborted) is not { } actor)
        {
            return ApiEndpoints.NoGroup(http, named: null);
        }

        // Whoever cannot see it shall not learn from the password check that it is there.
        Result<RevisionView, Refusal> revision = await procedures.ReadRevisionAsync(actor, id, number, http.RequestAborted);
        if (!revision.IsOk)
        {
            return Problems.From(http, revision.Error);
        }

        Confirmation confirmation = await passwords.ConfirmAsync(actor.UserId, password, http.RequestAborted);
        if (confirmation == Confirmation.TooMany)
        {
            http.Response.Headers.RetryAfter = ((int)PasswordConfirmation.Window.TotalSeconds).ToString(CultureInfo.InvariantCulture);
            return Problems.FromStatus(http, StatusCodes.Status429TooManyRequests);
        }

        bool confirmed = confirmation == Confirmation.Confirmed;
        http.Features.Set(new SignedCall(actor, new DecisionRequest(number, kind, reason, answers, confirmed, slot)));

        // A wrong password still reaches the handler, which writes it down; the key stays free for the right one.
        http.Features.Set(new KeyedContent(members.Without("password"), Keeps: confirmed));
        return await next(context);
    }
}
