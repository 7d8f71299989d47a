using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.JSInterop;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>
/// The explorer. A change is drawn at once; inputs that came in meanwhile count first, so that only the newest is drawn. The verdict follows,
/// by a screening of its own. Carrying back saves the draft as the editor does, with the version that was read.
/// </summary>
public sealed partial class Explorer : ComponentBase, IAsyncDisposable
{
    private const int MostFound = 12;

    /// <summary>Characters that the list of steps shows of a long name.</summary>
    private const int LongestInSelect = 34;

    /// <summary>How long nothing changes before the whole procedure is screened.</summary>
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(250);

    private readonly CancellationTokenSource _gone = new();
    private DotNetObjectReference<Explorer>? _reference;
    private ExploredPlan? _plan;
    private IReadOnlyList<ExploredStep> _steps = [];
    private GroupGround _ground = GroupGround.Bare;
    private Exploration? _at;
    private ExploredValues _wanted = ExploredValues.AsPlanned;
    private IReadOnlyList<DraftEdit> _edits = [];
    private TypicalVessel? _typical;
    private int? _material;
    private string _solvent = "";
    private string? _solventFault;
    private IReadOnlyList<Substance> _found = [];
    private DraftView? _conflict;
    private string? _different;
    private string? _carried;
    private string? _problem;
    private bool _carrying;
    private bool _starting;
    private RevisionThresholds? _thresholds;
    private bool _today;
    private bool _started;
    private ElementReference _carriedNote;
    private ElementReference _windowHeading;

    /// <summary>Where the focus goes once what was done is shown: the button that did it cannot be used any more.</summary>
    private FocusAfter _focus;

    private enum FocusAfter
    {
        Stays,
        Carried,
        Reset,
    }

    [Parameter, EditorRequired]
    public ExploredSource Source { get; set; } = null!;

    [Parameter]
    public ExplorerQuery Query { get; set; } = new();

    [CascadingParameter]
    private Task<AuthenticationState> Authentication { get; set; } = null!;

    [Inject]
    private LiveWork Work { get; set; } = null!;

    [Inject]
    private IJSRuntime Js { get; set; } = null!;

    [Inject]
    private DocumentScreener Screener { get; set; } = null!;

    [Inject]
    private ScreeningLimiter Limiter { get; set; } = null!;

    [Inject]
    private TimeProvider Clock { get; set; } = null!;

    [Inject]
    private ILogger<Explorer> Logger { get; set; } = null!;

    private string Back => Source.Revision is { } number ? Links.Revision(Source.ProcedureId, number) : $"/procedures/{Source.ProcedureId.ToString()}/edit";

    private string BackWords => Source.Revision is { } number ? string.Create(CultureInfo.InvariantCulture, $"Back to revision {number}") : "Back to the editor";

    private ExchangeableLiquid Liquid => _at!.Liquids.FirstOrDefault(l => l.Material == _material) ?? _at.Liquids[0];

    private double PlannedML => _at!.Planned.State.Vessel.VolumeM3 is { } volume ? volume * 1e6 : 100;

    private double MostRating => Math.Max(20, 2 * (_at!.Planned.State.Vessel.RatingPaGauge / 1e5 ?? 0));

    private string ListedWords => _at?.Draft.Unlisted is { } other
        ? $"{_at.Listed?.Entry.Label} is in the group's inventory. What you try is another vessel: here it is called {other}."
        : $"{_at?.Listed?.Entry.Label} is in the group's inventory. Another kind, volume or rating makes another vessel, which the inventory does not have.";

    private string WindowWords => _at is { OverTemperature: { } curve, Tried: var tried } ? ExplorerWords.Window(curve, tried.Point, tried.State) : "";

    private string VolumeHint => $"Planned {(_at!.Planned.State.Vessel.VolumeM3 is { } volume ? $"{Words.Number(volume * 1e6)} mL" : "without a volume")}.{(_wanted is { VolumeML: not null, Kind: null } ? " The rating is kept: a larger vessel of the same kind is often rated lower." : "")}";

    private string RatingHint => _wanted switch
    {
        { RatingIsTypical: true } => "Typical of the kind, common practice without a source. It is tried only: the mark on the vessel counts.",
        { Kind: not null, RatingBarGauge: null } => "Not known for another vessel: counts as 0 bar(g) until you enter what its mark says.",
        { RatingBarGauge: null } when WallRating.Of(_at!.Tried.State.Vessel) is { } wall => $"Empty: {wall.Bar} {wall.Basis}.",
        _ => $"Planned {(_at!.Planned.State.Vessel.RatingPaGauge is { } rating ? ExplorerWords.Bar(rating) : "without a rating")}. {(_at.Planned.State.Vessel.Parts.Count > 0 ? "Parts with lower ratings govern." : "")}".TrimEnd(),
    };

    private string KindHint => _typical is { } typical
        ? $"Commonly taken for {(typical.RatingPaGauge is { } common ? ExplorerWords.Bar(common) : "what is stamped on it")}{(typical.UpToK is { } upTo ? $" up to {ExplorerWords.Celsius(upTo)}" : "")}; {typical.Note}. Common practice, no source."
        : $"Planned {_at!.Planned.State.Vessel.Kind}. Another kind starts without the rating and limits of the planned vessel.";

    private string SolventHint => _wanted.Solvent is { } swap
        ? PreApproval.Web.Drafting.Editing.SubstanceWords.Of(swap.Instead)
        : $"Name or CAS number of one of {ListedSolvents.All.Count.ToString(CultureInfo.InvariantCulture)} liquids on file with vapour pressure, density and fire values. Empty: as planned.";

    /// <summary>Asked by the browser whether the connection stands.</summary>
    [JSInvokable]
    public Task ReceivedAsync(long sequence) => Task.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        await _gone.CancelAsync();
        _reference?.Dispose();
        _gone.Dispose();
    }

    protected override async Task OnInitializedAsync()
    {
        Result<DraftView, Refusal> read = await ReadAsync();
        if (!read.IsOk)
        {
            _problem = read.Error.Message;
            return;
        }

        if (await BeginAsync(Next(read.Value, _ground, Query.Step, begun => Query.ValuesFor(begun.Liquids))))
        {
            await ScreenAsync();
        }
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_plan is null || _starting)
        {
            await FocusAsync();
            return;
        }

        _starting = true;
        _reference = DotNetObjectReference.Create(this);
        await Js.InvokeVoidAsync("preapprovalExplorer.start", _gone.Token, _reference);
        _started = true;
        StateHasChanged();
    }

    private async Task FocusAsync()
    {
        FocusAfter focus = _focus;
        if (focus is FocusAfter.Stays || _at is null || (focus is FocusAfter.Carried && _carried is null))
        {
            return;
        }

        ElementReference target = focus is FocusAfter.Carried ? _carriedNote : _windowHeading;
        if (target.Context is null)
        {
            // another render came in between: the one that brings the note is still to come
            return;
        }

        _focus = FocusAfter.Stays;
        try
        {
            await target.FocusAsync();
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException or JSException)
        {
            // The page was closed, or shows something else by now.
        }
    }

    private Task ChooseKindAsync(string? kind) =>
        ChangeAsync(v => v with { Kind = string.IsNullOrEmpty(kind) ? null : kind, RatingBarGauge = null, RatingIsTypical = false });

    private Task TryTypicalAsync() => ChangeAsync(v => v with { RatingBarGauge = _typical?.RatingPaGauge / 1e5, RatingIsTypical = true });

    private Task ChooseLiquidAsync(string? id)
    {
        _material = _at!.Liquids.FirstOrDefault(l => string.Equals(l.Id, id, StringComparison.Ordinal))?.Material;
        return ChangeAsync(v => v with { Solvent = v.Solvent is { } swap && _material is { } material ? swap with { Material = material } : null });
    }

    private Task TypeSolventAsync(string? typed)
    {
        _solvent = typed ?? "";
        string wanted = _solvent.Trim();
        _found = wanted.Length < 2 ? [] : ListedSolvents.Search(wanted, MostFound);
        Substance? instead = wanted.Length == 0 ? null : ListedSolvents.Find(wanted);
        _solventFault = wanted.Length == 0 || instead is not null ? null
            : _found.Count > 0 ? "Go on typing, or choose from the list."
            : "No liquid on file has this name with the values that are needed.";
        SolventSwap? swap = instead is null ? null : new SolventSwap(Liquid.Material, instead);
        return swap == _wanted.Solvent ? Task.CompletedTask : ChangeAsync(v => v with { Solvent = swap });
    }

    private async Task<Result<DraftView, Refusal>> ReadAsync() => await Work.RunAsync((await Authentication).User, Source.ProcedureId, async (services, actor, cancel) =>
    {
        _thresholds = null;
        RevisionView? explored = null;
        if (Source.Revision is { } number)
        {
            Result<RevisionView, Refusal> revision = await services.GetRequiredService<ProcedureQueries>().ReadRevisionAsync(actor, Source.ProcedureId, number, cancel);
            Result<IReadOnlyList<PolicyView>, Refusal> versions = await services.GetRequiredService<PolicyHandler>().VersionsAsync(actor, cancel);
            if (!revision.IsOk)
            {
                return revision.Error;
            }

            if (!versions.IsOk)
            {
                return versions.Error;
            }

            explored = revision.Value;
            _thresholds = RevisionThresholds.Of(versions.Value, explored.PolicyDigest, explored.SubmittedAt);
            _today = Query.Thresholds is RevisionThresholds.Today;
        }

        _ground = new GroupGround(
            await services.GetRequiredService<OwnValues>().ListAsync(actor, cancel),
            Source.Revision is null ? await services.GetRequiredService<InventoryLookup>().AllAsync(actor, cancel) : GroupInventory.Empty,
            DateOnly.FromDateTime(Clock.GetUtcNow().UtcDateTime),
            _thresholds?.Choose(_today) ?? await services.GetRequiredService<PolicyInUse>().OfAsync(actor, cancel));
        return explored is null
            ? await services.GetRequiredService<DraftHandler>().ReadAsync(actor, Source.ProcedureId, cancel)
            : new DraftView { ProcedureId = Source.ProcedureId, Title = explored.Title, State = explored.State, Document = explored.Document, Version = 0, SavedAt = explored.SubmittedAt, Faults = [] };
    }, _gone.Token);

    private static byte[] Bytes(JsonObject document) => Encoding.UTF8.GetBytes(document.ToJsonString(DocumentText.Compact));
}
