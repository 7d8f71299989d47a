using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Tests;

public sealed class TransitionTests
{
    /// <summary>
    /// The whole table, typed from the states and roles agreed for the workflow: a row for each state, a column for each action in the order of
    /// Clear, Route, ApproveSlot, Approve, RequestChanges, Decline, Withdraw, Supersede, Expire, Suspend; '-' is refused.
    /// </summary>
    private const string Table = """
        draft             cleared in-review -         -        -                 -        -         -          -       -
        cleared           -       -         -         -        -                 -        withdrawn superseded expired suspended
        in-review         -       -         in-review approved changes-requested declined withdrawn -          -       -
        approved          -       -         -         -        -                 -        -         superseded expired suspended
        changes-requested -       -         -         -        -                 -        -         -          -       -
        declined          -       -         -         -        -                 -        -         -          -       -
        withdrawn         -       -         -         -        -                 -        -         -          -       -
        expired           -       -         -         -        -                 -        -         -          -       -
        superseded        -       -         -         -        -                 -        -         -          -       -
        suspended         -       -         -         -        -                 -        -         -          -       -
        """;

    [Fact]
    public void Next_EveryStateAndAction_IsAsInTheTable()
    {
        WorkflowAction[] actions =
        [
            WorkflowAction.Clear, WorkflowAction.Route, WorkflowAction.ApproveSlot, WorkflowAction.Approve, WorkflowAction.RequestChanges,
            WorkflowAction.Decline, WorkflowAction.Withdraw, WorkflowAction.Supersede, WorkflowAction.Expire, WorkflowAction.Suspend,
        ];
        Assert.Equal(Enum.GetValues<WorkflowAction>().Order(), actions.Order());
        var states = new List<ProcedureState>();
        foreach (string line in Table.Split('\n'))
        {
            string[] cells = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            ProcedureState from = WireName.Parse<ProcedureState>(cells[0]);
            states.Add(from);
            Assert.Equal(
                cells[1..],
                actions.Select(action => Transitions.Next(from, action) is { } next ? WireName.Of(next) : "-"),
                StringComparer.Ordinal);
        }

        Assert.Equal(Enum.GetValues<ProcedureState>().Order(), states.Order());
    }

    [Theory]
    [InlineData(ProcedureState.InReview, "in-review")]
    [InlineData(ProcedureState.ChangesRequested, "changes-requested")]
    [InlineData(ProcedureState.Cleared, "cleared")]
    public void Of_State_IsTheContractsName(ProcedureState state, string name)
    {
        Assert.Equal(name, WireName.Of(state));
        Assert.Equal(state, WireName.Parse<ProcedureState>(name));
    }
}
