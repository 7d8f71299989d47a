using System.Globalization;
using Microsoft.AspNetCore.Components;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Inventory;

/// <summary>The form of an entry of the inventory: adds it, changes it, takes it out.</summary>
public abstract class InventoryFormPage : PageBase
{
    private IReadOnlyDictionary<string, string> _filled = new Dictionary<string, string>(StringComparer.Ordinal);
    private IReadOnlyList<int> _rows = [];

    [Inject]
    protected InventoryHandler Inventory { get; set; } = null!;

    [Inject]
    private ActorProvider People { get; set; } = null!;

    /// <summary>The entry that is changed; null: a new one.</summary>
    [Parameter]
    public Guid? Id { get; set; }

    /// <summary>What is there; null: a new one.</summary>
    protected InventoryView? View { get; private set; }

    /// <summary>The person in the group of the entry.</summary>
    protected Actor Writer { get; private set; } = null!;

    protected abstract InventoryKind Kind { get; }

    /// <summary>Where the form goes on to.</summary>
    protected abstract string After(InventoryView kept);

    /// <summary>What was posted, as the API takes it, and the rows of the form that its parts come from.</summary>
    protected abstract (byte[] Json, IReadOnlyList<int> Rows) Read(ICollection<FormError> faults);

    protected sealed override async Task LoadAsync()
    {
        Writer = Actor;
        if (Id is { } id && !await FindAsync(id))
        {
            Refuse(Refusal.NotFound);
        }
        else if (!InventoryHandler.MayWrite(Writer))
        {
            Refuse(Refusal.Because(RefusalKind.Forbidden, "Members, reviewers and group leads write the inventory."));
        }
        else if (View is { RetiredAt: not null })
        {
            Refuse(Refusal.Because(RefusalKind.Conflict, "This was taken out of the inventory and is not changed any more. Add it anew."));
        }
        else
        {
            _filled = View is null ? _filled : InventoryForm.Filled(View.Content);
            await LoadMoreAsync();
        }
    }

    /// <summary>Reads what else the form shows.</summary>
    protected virtual Task LoadMoreAsync() => Task.CompletedTask;

    /// <summary>What was sent, or what is there.</summary>
    protected string Value(string name) => Posted("_handler") is "keep" ? Posted(name) : _filled.GetValueOrDefault(name, "");

    protected async Task KeepAsync()
    {
        if (WasCarried())
        {
            return;
        }

        List<FormError> faults = [];
        (byte[] json, _rows) = Read(faults);
        if (faults.Count > 0)
        {
            // With the numbers that are none, all else that is wrong is told: mending goes once through the form, not once for each kind of fault.
            IReadOnlyList<Fault> others = await Inventory.FaultsAsync(Writer, Kind, Id, json, Cancellation);
            faults.AddRange(others.Select(fault => InventoryForm.Of(fault, _rows)).Where(fault => !faults.Exists(number => string.Equals(number.Field, fault.Field, StringComparison.Ordinal))).ToArray());

            foreach (FormError fault in faults)
            {
                Fault(fault.Field, fault.Message);
            }

            return;
        }

        await SendAsync(version => Id is { } id ? Inventory.ChangeAsync(Writer, Kind, id, version, json, Cancellation) : Inventory.AddAsync(Writer, Kind, json, Cancellation));
    }

    protected Task RetireAsync() => SendAsync(version => Inventory.RetireAsync(Writer, Kind, Id!.Value, version, Posted("reason"), Cancellation));

    private async Task<bool> FindAsync(Guid id)
    {
        foreach (Actor actor in await People.AllAsync(Http.User, Cancellation))
        {
            if (await Inventory.ReadAsync(actor, Kind, id, Cancellation) is { IsOk: true } found)
            {
                (View, Writer) = (found.Value, actor);
                return true;
            }
        }

        return false;
    }

    private async Task SendAsync(Func<int, Task<Result<InventoryView, Refusal>>> send)
    {
        int version = 0;
        if (Id is not null && !int.TryParse(Posted("version"), NumberStyles.None, CultureInfo.InvariantCulture, out version))
        {
            Fault("", "The form was incomplete. Load this page again and send it once more.");
            return;
        }

        await OnceAsync(
            async () =>
            {
                Result<InventoryView, Refusal> kept = await send(version);
                return kept.IsOk ? After(kept.Value) : kept.Error;
            },
            Tell);
    }

    private void Tell(Refusal refusal)
    {
        if (refusal.Faults.Count == 0)
        {
            RefuseForm(refusal.Kind == RefusalKind.Stale ? refusal with { Message = "Somebody changed this while you did. What you typed is still here: compare it with the present version, then keep it again." } : refusal, "");
            return;
        }

        foreach (Fault fault in refusal.Faults)
        {
            FormError error = InventoryForm.Of(fault, _rows);
            Fault(error.Field, error.Message);
        }
    }
}
