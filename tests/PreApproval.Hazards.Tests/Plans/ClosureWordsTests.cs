using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Tests.Plans;

public sealed class ClosureWordsTests
{
    [Theory]
    [InlineData("screw cap with needle valve, closed")]
    [InlineData("needle valve")]
    [InlineData("balloon valve")]
    [InlineData("bubbler tap shut")]
    [InlineData("stopcock, bubbler removed")]
    [InlineData("cap; no balloon")]
    [InlineData("screw plug, PTFE seal")]
    [InlineData("bubblerless cap")]
    [InlineData(null)]
    public void Vent_ValveOrUnclear_IsClosed(string? closure) => Assert.Null(ClosureWords.Vent(closure));

    [Theory]
    [InlineData("balloon", Closure.Balloon)]
    [InlineData("septum with nitrogen balloon", Closure.Balloon)]
    [InlineData("oil bubbler", Closure.Bubbler)]
    [InlineData("condenser with drying tube", Closure.Bubbler)]
    [InlineData("septum with needle", Closure.Needle)]
    [InlineData("Septum, vent needle", Closure.Needle)]
    public void Vent_PlainWords_IsThatVent(string closure, Closure vent) => Assert.Equal(vent, ClosureWords.Vent(closure));
}
