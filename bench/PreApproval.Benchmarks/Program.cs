using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace PreApproval.Benchmarks;

internal static class Program
{
    // In this process: the project that the tool would generate does not get along with the central package versions of this repository.
    public static void Main(string[] arguments)
    {
        Job job = Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(5).WithIterationCount(15);
        BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(arguments, DefaultConfig.Instance.AddJob(job));
    }
}
