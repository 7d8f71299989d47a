using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Screening;

/// <summary>
/// Names of solutions that go with several strengths: says which one was assumed and asks to state it. A strength in the form of a
/// material that names no known solution: says that it is not counted.
/// </summary>
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

            if (material is { ReadAs: null, Composition: Composition.Pure { Substance: var pure }, Form: { } form } && form.Contains('%', StringComparison.Ordinal))
            {
                yield return new Finding
                {
                    Code = "data.form-not-counted",
                    Hazard = Hazard.Data,
                    Severity = Severity.Notice,
                    Materials = [material.Id],
                    Statement = $"“{form}” of {pure.Name} is not counted: the amount is taken as the pure substance. Give a strength as a solution or a mixture where it should count.",
                };
            }
        }
    }

    private static Evidence[] Evidence(NamedSolution solution) => solution.Strength is not { } strength ? [] :
    [
        new Evidence
        {
            Name = "assumed strength",
            Worse = WorseWhen.Neither,
            Value = strength.IsMolar ? strength.Value / 1000 : strength.Value * 100,
            Unit = strength.IsMolar ? "mol/L" : "wt%",
            Model = "usual strength of the named solution",
            Sources = [Catalog.Default.Reference(solution.Source)],
            Quality = solution.Quality,
        },
    ];
}
