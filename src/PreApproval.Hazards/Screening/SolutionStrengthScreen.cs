using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Screening;

/// <summary>Names of solutions that go with several strengths: says which one was assumed and asks to state it.</summary>
public sealed class SolutionStrengthScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var material in context.Plan.Materials)
        {
            if (material.ReadAs is { Solution: { StrengthAssumed: true } solution } read)
            {
                yield return new Finding
                {
                    Code = "data.strength-assumed",
                    Hazard = Hazard.Data,
                    Severity = Severity.Notice,
                    Materials = [material.Id],
                    Statement = $"“{read.Typed}” is read as {solution.Label}: {solution.Contents}{(solution.Note.Length == 0 ? "" : $" ({solution.Note})")}. State the strength on the bottle if it is another.",
                    Evidence = Evidence(solution),
                };
            }
        }
    }

    private static Evidence[] Evidence(NamedSolution solution) => solution.Strength is not { } strength ? [] :
    [
        new Evidence
        {
            Name = "assumed strength",
            Value = strength.IsMolar ? strength.Value / 1000 : strength.Value * 100,
            Unit = strength.IsMolar ? "mol/L" : "wt%",
            Model = "usual strength of the named solution",
            Sources = [Catalog.Default.Reference(solution.Source)],
            Quality = solution.Quality,
        },
    ];
}
