using PreApproval.Hazards.Health;

namespace PreApproval.Web.Catalogue;

/// <summary>Health values in words for people.</summary>
public static class HealthWords
{
    public static string Of(LimitKind kind) => kind switch
    {
        LimitKind.TimeWeightedAverage => "Time-weighted average",
        LimitKind.ShortTerm => "Short term",
        LimitKind.Ceiling => "Ceiling",
    };
}
