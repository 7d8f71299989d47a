using System.Text.Json;
using Microsoft.AspNetCore.Components;
using Microsoft.Net.Http.Headers;
using PreApproval.Documents;
using PreApproval.Procedures.Idempotency;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Accounts;
using PreApproval.Web.Identity;

namespace PreApproval.Web.Shared.Components;

/// <summary>A page for a signed-in person: knows who asks, and shows a refusal with its status instead of the content.</summary>
public abstract class PageBase : ComponentBase
{
    /// <summary>Name of the hidden field with the form's key.</summary>
    protected const string FormKeyField = "key";

    private readonly List<FormError> _errors = [];

    [CascadingParameter]
    protected HttpContext Http { get; set; } = null!;

    [Inject]
    private KeyedRequests Keyed { get; set; } = null!;

    [Inject]
    private ActorProvider Actors { get; set; } = null!;

    [Inject]
    protected NavigationManager Navigation { get; set; } = null!;

    /// <summary>False until everything has been read: a page renders once before that.</summary>
    protected bool Ready { get; private set; }

    /// <summary>Who asks; only to be used when there is no <see cref="Refusal"/>.</summary>
    protected Actor Actor { get; private set; } = null!;

    /// <summary>Why the page is not shown, or null.</summary>
    protected Refusal? Refusal { get; private set; }

    /// <summary>Faults of the form that was sent, for the summary and beside the fields.</summary>
    protected IReadOnlyList<FormError> Errors => _errors;

    /// <summary>The procedure that the page is about: decides in which group the person acts.</summary>
    protected virtual Guid? ProcedureInQuestion => null;

    protected CancellationToken Cancellation => Http.RequestAborted;

    protected sealed override async Task OnInitializedAsync()
    {
        Actor? actor = ProcedureInQuestion is { } procedure
            ? await Actors.ForProcedureAsync(Http.User, procedure, Cancellation)
            : await Actors.ForAsync(Http.User, null, Cancellation);
        if (actor is null)
        {
            Refuse(Refusal.Because(RefusalKind.Forbidden, "You do not belong to a group yet. Ask the group lead or an administrator to add you."));
            Ready = true;
            return;
        }

        Actor = actor;
        await LoadAsync();
        Ready = true;
    }

    /// <summary>Reads what the page shows. Runs before a posted form is handled.</summary>
    protected virtual Task LoadAsync() => Task.CompletedTask;

    /// <summary>The value, or null after having set <see cref="Refusal"/> and the status.</summary>
    protected T? Take<T>(Result<T, Refusal> result)
        where T : class
    {
        if (result.IsOk)
        {
            return result.Value;
        }

        Refuse(result.Error);
        return null;
    }

    protected void Refuse(Refusal refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        Refusal = refusal;
        Http.Response.StatusCode = Problems.StatusOf(refusal.Kind);
    }

    /// <summary>A refusal of a posted form: the page is shown again with everything that was typed.</summary>
    protected void RefuseForm(Refusal refusal, string field)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        Http.Response.StatusCode = Problems.StatusOf(refusal.Kind);
        _errors.Add(new FormError(field, refusal.Message));
        _errors.AddRange(refusal.Faults.Select(f => new FormError(f.Path, f.Message)));
    }

    /// <summary>A key for a form that is about to be shown: the form sent twice has one effect.</summary>
    protected static string NewFormKey() => Guid.CreateVersion7().ToString();

    /// <summary>
    /// Carries a posted form out once, however often it was sent. <paramref name="act"/> gives the address to go on to. A refusal
    /// belongs to the key as well; the page is shown again with a new one.
    /// </summary>
    protected async Task OnceAsync(Func<Task<Result<string, Refusal>>> act, Action<Refusal> refused)
    {
        ArgumentNullException.ThrowIfNull(act);
        ArgumentNullException.ThrowIfNull(refused);
        if (WasCarried())
        {
            return;
        }

        if (!IdempotencyFilter.IsKey(Posted(FormKeyField)))
        {
            Fault("", "The form was incomplete. Load this page again and send it once more.");
            return;
        }

        StoredAnswer? answer = await Keyed.RunAsync(Actor.UserId, Posted(FormKeyField), HashOfForm(), async () => AnswerOf(await act()), Cancellation);
        if (answer is null)
        {
            RefuseForm(Refusal.Because(RefusalKind.Invalid, "This form was sent before, with other content, and that was carried out. Look at the list of procedures before you send it again."), "");
        }
        else if (answer.Headers.TryGetValue(HeaderNames.Location, out string? address))
        {
            // Leaves the page by an exception, so not before the transaction has ended.
            Navigation.NavigateTo(address);
        }
        else
        {
            refused(JsonSerializer.Deserialize<Refusal>(answer.Body.Span, ApiJson.Options)!);
        }
    }

    /// <summary>The second of two clicks may find the page refused, because the first has changed what it is about: it goes where the first went.</summary>
    protected async Task RepeatAsync()
    {
        if (Actor is not null && IdempotencyFilter.IsKey(Posted(FormKeyField))
            && await Keyed.FindAsync(Actor.UserId, Posted(FormKeyField), HashOfForm(), Cancellation) is { } answer
            && answer.Headers.TryGetValue(HeaderNames.Location, out string? address))
        {
            Navigation.NavigateTo(address);
        }
    }

    /// <summary>True, after having said so, for a form that comes back after a sign-in: it is shown with what was typed, and waits to be sent by whoever is signed in now.</summary>
    protected bool WasCarried()
    {
        if (Posted(CarriedForm.Mark).Length == 0)
        {
            return false;
        }

        if (_errors.Count == 0)
        {
            Fault("", "You had been signed out, so nothing was carried out. What you typed is below: look at it, and send it again.");
        }

        return true;
    }

    protected void Fault(string field, string message)
    {
        Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        _errors.Add(new FormError(field, message));
    }

    /// <summary>What was sent in a field of the form, trimmed; empty when nothing was.</summary>
    protected string Posted(string name) =>
        Http.Request.HasFormContentType ? Http.Request.Form[name].ToString().Trim() : "";

    private static StoredAnswer AnswerOf(Result<string, Refusal> result) => result.IsOk
        ? new StoredAnswer(StatusCodes.Status303SeeOther, new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase) { [HeaderNames.Location] = result.Value }, ReadOnlyMemory<byte>.Empty)
        : new StoredAnswer(Problems.StatusOf(result.Error.Kind), new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase), JsonSerializer.SerializeToUtf8Bytes(result.Error, ApiJson.Options));

    private byte[] HashOfForm() => Keyed.HashOf(Http.Request, JsonSerializer.SerializeToUtf8Bytes(Http.Request.Form
        .Where(f => f.Key is not (FormKeyField or "password" or "__RequestVerificationToken"))
        .OrderBy(f => f.Key, StringComparer.Ordinal)
        .Select(f => new[] { f.Key, f.Value.ToString() })));

    protected string? ErrorAt(string field) => Errors.FirstOrDefault(e => string.Equals(e.Field, field, StringComparison.Ordinal))?.Message;
}

/// <summary>One fault of a form.</summary>
/// <param name="Field">Identifier of the field's element; empty: the form as a whole.</param>
/// <param name="Message">What is wrong and what would be right, in the same words in both places.</param>
public sealed record FormError(string Field, string Message);
