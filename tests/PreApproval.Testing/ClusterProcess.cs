using PreApproval.Storage;
using PreApproval.Storage.PrivateClusters;

namespace PreApproval.Testing;

/// <summary>Runs a private cluster in the folder given until its standard input ends: something a test can kill.</summary>
internal static class ClusterProcess
{
    public static async Task<int> Main(string[] args)
    {
        await using PrivateCluster cluster = await PrivateCluster.StartAsync(new PrivateClusterOptions { DataFolder = args[0], Durable = false });
        await Migrator.MigrateAsync(cluster.OwnerConnectionString);
        await Console.Out.WriteLineAsync(cluster.ConnectionString);
        await Console.In.ReadToEndAsync();
        return 0;
    }
}
