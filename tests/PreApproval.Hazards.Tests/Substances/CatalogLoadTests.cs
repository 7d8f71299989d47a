using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Substances;

/// <summary>The memory the catalogue is built to: 40 MB to load. Times are measured in benchmarks, see docs/performance.md.</summary>
public sealed class CatalogLoadTests
{
    [Fact]
    public void ReadEmbedded_Always_AllocatesLessThan40Megabytes()
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.NotEmpty(CatalogReader.ReadEmbedded().Substances);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 1, 40_000_000);
    }
}
