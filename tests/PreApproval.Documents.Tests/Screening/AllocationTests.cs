using PreApproval.Documents.Planning;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Testing;

namespace PreApproval.Documents.Tests.Screening;

/// <summary>
/// The memory that a screening of 20 steps and 12 materials takes, plan to report, the actions at the bench included. Bytes are counted, not timed: a busy machine changes nothing. The bound is
/// what the code takes before the compiler has optimised it, rounded up (docs/performance.md has the figure after that); a change that passes it has to say why.
/// </summary>
public sealed class AllocationTests
{
    private const long MostBytes = 210_000;

    [Fact]
    public void Screen_TwentySteps_AllocatesNoMoreThanWrittenDown()
    {
        var bytes = File.ReadAllBytes(Path.Combine(RepositoryFolder.Path, "bench", "PreApproval.Benchmarks", "Plans", "twenty-steps.json"));
        Plan plan = PlanMapping.ToPlan(DocumentReader.Read(bytes).Value!, Catalog.Default);
        // the first screening loads the tables
        Assert.NotEmpty(Screener.Screen(plan, Policy.Default).Findings);
        var least = long.MaxValue;
        for (var run = 0; run < 5; run++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            Assert.NotEmpty(Screener.Screen(plan, Policy.Default).FireActions);
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        Assert.InRange(least, 1, MostBytes);
    }
}
