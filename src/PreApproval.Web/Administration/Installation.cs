using System.Security.Cryptography;
using Microsoft.AspNetCore.Identity;
using PreApproval.Documents;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Administration;

/// <summary>Makes the first group and person of an empty installation, through the handlers that administer groups later.</summary>
public sealed class Installation(IUnitOfWork work, GroupSetup setup, UserManager<Account> accounts, TimeProvider clock)
{
    // No letters and digits that are taken for one another when the password is copied by hand.
    private const string Letters = "abcdefghijkmnpqrstuvwxyz23456789";

    /// <summary>The person's password, which is kept nowhere; refused when there is a group already.</summary>
    public async Task<Result<string, Refusal>> BeginAsync(FirstPerson first, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(first);
        if (accounts.Users.Any())
        {
            return Refusal.Because(RefusalKind.Conflict, "This database has a group and people already; setup is for an empty one.");
        }

        // Five groups of five letters of 32: 125 bits.
        string password = string.Join('-', Enumerable.Range(0, 5).Select(_ => RandomNumberGenerator.GetString(Letters, 5)));
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        Result<Guid, Refusal> group = await setup.CreateGroupAsync(first.Group, cancellationToken);
        if (!group.IsOk)
        {
            return group.Error;
        }

        Actor installer = GroupSetup.SetupActor(group.Value, clock);
        Result<Guid, Refusal> person = await setup.CreateAccountAsync(installer, first.UserName, first.Name, password, cancellationToken);
        if (!person.IsOk)
        {
            return person.Error;
        }

        Result<MemberView, Refusal> member = await setup.SetMembershipAsync(installer, person.Value, first.Roles, [], cancellationToken);
        if (!member.IsOk)
        {
            return member.Error;
        }

        await scope.CommitAsync(cancellationToken);
        return password;
    }

    /// <summary>Does it and says so at the console; the exit code.</summary>
    public async Task<int> RunAsync(FirstPerson first, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(first);
        Result<string, Refusal> begun = await BeginAsync(first, cancellationToken);
        if (!begun.IsOk)
        {
            await Console.Error.WriteLineAsync($"{begun.Error.Message} {string.Join(' ', begun.Error.Faults.Select(f => $"{f.Path.TrimStart('/')}: {f.Message}"))}".TrimEnd());
            return 1;
        }

        await Console.Out.WriteLineAsync($"The group '{first.Group}' and the account '{first.UserName}' of {first.Name} were made.\nPassword: {begun.Value}\nIt is shown this once and kept nowhere in clear.");
        return 0;
    }
}
