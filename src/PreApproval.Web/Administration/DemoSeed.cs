using System.Reflection;
using System.Text.Json;
using Microsoft.AspNetCore.Identity;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Routing;
using PreApproval.Procedures.Submission;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Drafting;

namespace PreApproval.Web.Administration;

/// <summary>Fills an empty database with the demo group, through the same handlers that the pages use.</summary>
public sealed class DemoSeed(
    IUnitOfWork work, GroupSetup setup, UserManager<Account> accounts, DraftHandler drafts, SubmissionHandler submissions, DecisionHandler decisions, InventoryHandler inventory, TimeProvider clock)
{
    private const string ResourcePrefix = "example:";

    /// <summary>What becomes of which sample procedure. A sample that is not listed is left to be tried.</summary>
    private static readonly (string Example, DemoPerson Author, DemoFate Fate)[] Procedures =
    [
        ("aqueous-work-up", DemoGroup.Mira, DemoFate.Submitted),
        ("hydride-quench", DemoGroup.Odd, DemoFate.Approved),
        ("ether-extraction", DemoGroup.Odd, DemoFate.SentBack),
        ("stoppered-azide-reduction", DemoGroup.Mira, DemoFate.Submitted),
        ("closed-tube-amination", DemoGroup.Mira, DemoFate.Draft),
    ];

    private enum DemoFate
    {
        Draft,
        Submitted,
        SentBack,
        Approved,
    }

    /// <summary>True when the group was made; false when the database has accounts already, which are then left alone.</summary>
    public async Task<bool> FillAsync(CancellationToken cancellationToken)
    {
        if (accounts.Users.Any())
        {
            return false;
        }

        // All or nothing: a demo that stopped half-way would not be tried again.
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        Guid group = Must(await setup.CreateGroupAsync(DemoGroup.Name, cancellationToken));
        Actor installer = GroupSetup.SetupActor(group, clock);
        Dictionary<string, Actor> people = new(StringComparer.Ordinal);
        foreach (DemoPerson person in DemoGroup.People)
        {
            Guid id = Must(await setup.CreateAccountAsync(installer, person.UserName, person.Name, DemoGroup.Password, cancellationToken));
            Must(await setup.SetMembershipAsync(installer, id, person.Roles, person.Competences, cancellationToken));
            people.Add(person.UserName, new Actor(id, person.Name, group, person.Roles, clock.GetUtcNow(), "password", "demo"));
        }

        Must(await setup.SetRoutingAsync(installer,
            [.. Enum.GetValues<Hazard>().Select((hazard, order) => Rule(order, hazard, people))], cancellationToken));
        Must(await setup.SetPolicyAsync(installer, GroupPolicy.Default with { CountersignDangers = true }, cancellationToken));
        await DemoInventory.FillAsync(inventory, people[DemoGroup.Mira.UserName], ExampleDates.Today(clock), cancellationToken);
        foreach ((string example, DemoPerson author, DemoFate fate) in Procedures)
        {
            await AddAsync(example, people[author.UserName], fate, people, cancellationToken);
        }

        await scope.CommitAsync(cancellationToken);
        return true;
    }

    private async Task AddAsync(string example, Actor author, DemoFate fate, Dictionary<string, Actor> people, CancellationToken cancellationToken)
    {
        DraftView draft = Must(await drafts.CreateAsync(author, ExampleDates.Moved(DemoInventory.Used(example, await ReadExampleAsync(example, cancellationToken)), ExampleDates.Today(clock)), cancellationToken));
        if (fate == DemoFate.Draft)
        {
            return;
        }

        RevisionView revision = Must(await submissions.SubmitAsync(author, draft.ProcedureId, draft.Version, cancellationToken));
        while (fate != DemoFate.Submitted && revision.State == ProcedureState.InReview)
        {
            SlotView slot = revision.Slots.First(s => s is { Open: true, Decision: null });
            Actor signer = people.Values.First(p => p.UserId == slot.AssigneeId);
            revision = Must(await decisions.DecideAsync(signer, draft.ProcedureId, Decide(revision, fate), cancellationToken));
        }
    }

    private static DecisionRequest Decide(RevisionView revision, DemoFate fate) => fate == DemoFate.Approved
        ? new DecisionRequest(revision.Number, DecisionKind.Approve, "Demo: may be run under the conditions.",
            [.. FindingsToAnswer(revision).Select(id => new FindingAnswer(id, AnswerKind.Condition, "Demo: water drop by drop over an hour at least, vent to the bubbler open, dry sand at hand and no carbon dioxide, a reviewer present."))], PasswordConfirmed: true)
        : new DecisionRequest(revision.Number, DecisionKind.RequestChanges, "Demo: no hotplate under ether. Please use the water bath, as the screening proposes, and submit again.", [], PasswordConfirmed: true);

    private static IEnumerable<string> FindingsToAnswer(RevisionView revision)
    {
        using JsonDocument report = JsonDocument.Parse(revision.Screening);
        return [.. report.RootElement.GetProperty("findings").EnumerateArray()
            .Where(f => f.GetProperty("severity").GetString() is "danger" or "warning")
            .Select(f => f.GetProperty("id").GetString()!)];
    }

    private static RoutingRule Rule(int order, Hazard hazard, Dictionary<string, Actor> people)
    {
        DemoPerson reviewer = DemoGroup.Tomas.Competences.Contains(hazard) ? DemoGroup.Tomas : DemoGroup.Ines;
        return new RoutingRule(order, hazard, people[reviewer.UserName].UserId, DeputyId: null);
    }

    private static async Task<byte[]> ReadExampleAsync(string name, CancellationToken cancellationToken)
    {
        await using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(ResourcePrefix + name)
            ?? throw new InvalidOperationException($"The sample procedure '{name}' is missing from this build.");
        using var bytes = new MemoryStream();
        await stream.CopyToAsync(bytes, cancellationToken);
        return bytes.ToArray();
    }

    private static T Must<T>(Result<T, Refusal> result)
        where T : notnull => result.IsOk
            ? result.Value
            : throw new InvalidOperationException($"The demo could not be set up: {result.Error.Message} {string.Join("; ", result.Error.Faults.Select(f => $"{f.Path}: {f.Message}"))}");
}
