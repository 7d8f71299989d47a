using System.Globalization;
using System.Security.Claims;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.JSInterop;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Exploring;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared.Charts;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>One input that the browser kept because no save of it was confirmed.</summary>
/// <param name="Field">Identifier of its element.</param>
/// <param name="Label">Its label as shown.</param>
/// <param name="Value">What was typed or chosen.</param>
/// <param name="Version">Version of the draft it was typed into.</param>
public sealed record KeptTyping(string Field, string Label, string Value, int Version);

/// <summary>The draft as the page was delivered with it, so that the live page begins with the same one.</summary>
public sealed record DeliveredDraft(string Document, int Version, DateTimeOffset SavedAt);

/// <summary>
/// The editor. The browser journals every input until a save that holds it is confirmed; the server saves soon after each
/// change, with the version it read, and never over a version it has not seen.
/// </summary>
public sealed partial class Editor : ComponentBase, IAsyncDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1.5);
    private static readonly TimeSpan LongestUnsaved = TimeSpan.FromSeconds(4);
    private static readonly TimeSpan Retry = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan ScreeningPause = TimeSpan.FromMilliseconds(500);

    private const int LargestDelivered = 64 * 1024;

    private readonly CancellationTokenSource _gone = new();
    private ITimer? _saveTimer;
    private ITimer? _screenTimer;
    private DotNetObjectReference<Editor>? _reference;
    private EditedDocument? _document;
    private DraftView? _conflict;
    private DateTimeOffset _savedAt;
    private DateTimeOffset? _dirtySince;
    private int _version;
    private long _received;
    private long _confirmed;
    private bool _saving;
    private bool _starting;
    private bool _started;
    private string? _problem;
    private IReadOnlyList<KeptTyping> _kept = [];
    private ScreeningView? _screening;
    private bool _screeningFailed;
    private bool _screeningBusy;
    private IReadOnlyList<PressureCurve> _curves = [];
    private IReadOnlyList<ExploredStep> _explorable = [];
    private string? _json;
    private IReadOnlyList<Fault> _jsonFaults = [];

    [Parameter, EditorRequired]
    public Guid ProcedureId { get; set; }

    [Parameter]
    public int NextRevision { get; set; } = 1;

    /// <summary>Number of the revision that is in review, or null.</summary>
    [Parameter]
    public int? InReview { get; set; }

    [PersistentState]
    public DeliveredDraft? Delivered { get; set; }

    [CascadingParameter]
    private Task<AuthenticationState> Authentication { get; set; } = null!;

    [Inject]
    private IServiceScopeFactory Scopes { get; set; } = null!;

    [Inject]
    private LiveWork Work { get; set; } = null!;

    [Inject]
    private IJSRuntime Js { get; set; } = null!;

    [Inject]
    private DocumentScreener Screener { get; set; } = null!;

    [Inject]
    private TimeProvider Clock { get; set; } = null!;

    [Inject]
    private ILogger<Editor> Logger { get; set; } = null!;

    private static IReadOnlyList<(string Id, string Name)> Sections { get; } =
    [
        ("purpose", "Purpose and source"), ("people", "People and place"), ("/materials", "Materials"), ("/vessels", "Vessels"), ("/steps", "Steps"),
        ("/reactions", "Reactions"), ("/safeguards", "Safeguards"), ("/fireResponse", "If it goes wrong"), ("/waste", "Waste"), ("json", "JSON"),
    ];

    private JsonObject Root => _document!.Root;

    private string SavedState => _conflict is not null ? "conflict" : _dirtySince is not null || _saving ? "unsaved" : "saved";

    private string SavedWords => _conflict is not null ? "Not saved: changed elsewhere"
        : _dirtySince is not null || _saving ? "Saving …"
        : $"Saved {_savedAt.UtcDateTime.ToString("HH:mm:ss", CultureInfo.InvariantCulture)} UTC";

    /// <summary>The browser has handed over all inputs up to this number. What changed nothing is confirmed at once.</summary>
    [JSInvokable]
    public async Task ReceivedAsync(long sequence)
    {
        _received = Math.Max(_received, sequence);
        await ConfirmRestAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await _gone.CancelAsync();
        _saveTimer?.Dispose();
        _screenTimer?.Dispose();
        _reference?.Dispose();
        _gone.Dispose();
    }

    protected override async Task OnInitializedAsync()
    {
        if (Delivered is { } delivered)
        {
            Show(Encoding.UTF8.GetBytes(delivered.Document), delivered.Version, delivered.SavedAt);
            await ReadOwnAsync();
            return;
        }

        Result<DraftView, Refusal> draft = await WithDraftsAsync((drafts, actor, cancel) => drafts.ReadAsync(actor, ProcedureId, cancel));
        if (draft.IsOk)
        {
            Show(draft.Value);
            await ReadOwnAsync();

            // What is delivered comes back in one message; a large draft is read again instead.
            Delivered = draft.Value.Document.Length > LargestDelivered ? null : new DeliveredDraft(Encoding.UTF8.GetString(draft.Value.Document.Span), draft.Value.Version, draft.Value.SavedAt);
        }
        else
        {
            _problem = draft.Error.Message;
        }
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_document is null || _starting)
        {
            await FocusAsync();
            return;
        }

        _starting = true;
        string user = (await Authentication).User.FindFirstValue(ClaimTypes.NameIdentifier) ?? "";
        _saveTimer = Clock.CreateTimer(_ => _ = InvokeAsync(SaveAsync), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        _screenTimer = Clock.CreateTimer(_ => _ = InvokeAsync(Rescreen), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        _reference = DotNetObjectReference.Create(this);
        _kept = await Js.InvokeAsync<IReadOnlyList<KeptTyping>>("preapprovalEditor.start", _gone.Token,
            _reference, $"{user}:{ProcedureId.ToString()}", _version);
        _started = true;
        StateHasChanged();
    }

    private async Task FocusAsync()
    {
        if (!_started || _document?.Focus is not { } focus)
        {
            return;
        }

        _document.Focus = null;
        try
        {
            await Js.InvokeVoidAsync("preapprovalFields.focusRow", _gone.Token, focus.List, focus.Index, focus.On switch
            {
                RowFocus.First => "first",
                RowFocus.Near => "near",
                RowFocus.Up => "up",
                RowFocus.Down => "down",
            });
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            // The page was closed.
        }
    }

    private void Show(DraftView draft) => Show(draft.Document, draft.Version, draft.SavedAt);

    private void Show(ReadOnlyMemory<byte> document, int version, DateTimeOffset savedAt)
    {
        if (_document is null)
        {
            _document = EditedDocument.Read(document);
            _document.Changed += OnChanged;
            _document.Restructured += OnRestructured;
        }
        else
        {
            _document.Replace(DocumentText.Parse(document));
        }

        _dirtySince = null;
        _version = version;
        _savedAt = savedAt;
        Screen();
    }

    private void OnChanged(object? sender, EventArgs e)
    {
        _dirtySince ??= Clock.GetUtcNow();
        TimeSpan left = _dirtySince.Value + LongestUnsaved - Clock.GetUtcNow();
        _saveTimer?.Change(left < Pause ? Max(left, TimeSpan.Zero) : Pause, Timeout.InfiniteTimeSpan);
        _screenTimer?.Change(ScreeningPause, Timeout.InfiniteTimeSpan);
    }

    private void OnRestructured(object? sender, EventArgs e)
    {
        // Rows have other numbers now: what was typed under the old ones is confirmed at once.
        _dirtySince ??= Clock.GetUtcNow();
        _saveTimer?.Change(TimeSpan.Zero, Timeout.InfiniteTimeSpan);
        _screenTimer?.Change(TimeSpan.Zero, Timeout.InfiniteTimeSpan);
        StateHasChanged();
    }

    private Task CheckAsync() => LeaveForAsync($"/procedures/{ProcedureId.ToString()}/check");

    /// <summary>To another page, once all that was typed is saved.</summary>
    private async Task LeaveForAsync(string address)
    {
        await SaveAsync();
        if (_dirtySince is null && !_saving && _problem is null && _conflict is null)
        {
            Navigation.NavigateTo(address, forceLoad: true);
        }
    }

    private string FieldHref(string pointer) => Links.Here(Navigation, pointer);

    private void AddMaterial() => _document!.AddRow(Root, "materials", new JsonObject { ["id"] = FreeId("materials", "m"), ["role"] = "reagent" });

    private void AddVessel() => _document!.AddRow(Root, "vessels", new JsonObject { ["id"] = FreeId("vessels", "v") });

    private void AddStep()
    {
        JsonObject step = new() { ["id"] = FreeId("steps", "") };
        if (DocumentText.Rows(Root, "steps") is [.., var last] && DocumentText.Text(last, "vessel") is { Length: > 0 } vessel)
        {
            step["vessel"] = vessel;
        }
        else if (_document!.Ids("vessels") is [var only])
        {
            step["vessel"] = only;
        }

        _document!.AddRow(Root, "steps", step);
    }

    private string FreeId(string list, string before)
    {
        IReadOnlyList<string> taken = _document!.Ids(list);
        int number = taken.Count + 1;
        while (taken.Contains(before + number.ToString(CultureInfo.InvariantCulture), StringComparer.Ordinal))
        {
            number++;
        }

        return before + number.ToString(CultureInfo.InvariantCulture);
    }

    private void ShowJson()
    {
        _json = _document!.ToText();
        _jsonFaults = [];
    }

    private void UseJson()
    {
        byte[] bytes = Encoding.UTF8.GetBytes(_json ?? "");
        Result<DraftReading, DocumentRefusal> read = Screener.ReadDraft(bytes);
        _jsonFaults = read.IsOk ? [] : read.Error.Faults;
        if (read.IsOk)
        {
            _json = null;
            _document!.Replace(DocumentText.Parse(bytes));
        }
    }

    private static TimeSpan Max(TimeSpan a, TimeSpan b) => a > b ? a : b;
}
