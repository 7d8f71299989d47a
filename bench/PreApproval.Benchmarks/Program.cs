using BenchmarkDotNet.Running;

namespace PreApproval.Benchmarks;

internal static class Program
{
    public static void Main(string[] arguments) => BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(arguments);
}
