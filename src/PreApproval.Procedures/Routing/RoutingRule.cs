using PreApproval.Hazards.Screening;

namespace PreApproval.Procedures.Routing;

/// <summary>Findings of a hazard go to a named person.</summary>
/// <param name="Order">Rules are tried in this order.</param>
/// <param name="Hazard">Hazard of the finding.</param>
/// <param name="ReviewerId">The named person.</param>
/// <param name="DeputyId">Who stands in when that person may not decide.</param>
public sealed record RoutingRule(int Order, Hazard Hazard, Guid ReviewerId, Guid? DeputyId);

/// <summary>How a group reviews.</summary>
/// <param name="CountersignDangers">A lead countersigns every revision with a danger.</param>
/// <param name="ReviewDays">Days until a slot is due.</param>
public sealed record GroupPolicy(bool CountersignDangers, int ReviewDays)
{
    public static GroupPolicy Default { get; } = new(CountersignDangers: true, ReviewDays: 3);
}
