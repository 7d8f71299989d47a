namespace PreApproval.Procedures.Accounts;

public sealed partial class MembershipQueries
{
    public partial Task<IReadOnlyList<Membership>> ForAccountAsync(Guid userId, CancellationToken cancellationToken) => throw new NotSupportedException();

    public partial Task<IReadOnlyList<MemberView>> OfGroupAsync(Workflow.Actor actor, CancellationToken cancellationToken) => throw new NotSupportedException();
}
